// What stands left of an assignment, as stretches of signals, most significant first (IEEE 1364-2005 6.1.1, 9.2).

import type { At, Expression } from '../syntax/tables';
import type { Reader } from './algebra';
import { signalsOf } from './assigned-signals';
import type { ExpressionContext } from './expression-context';
import type { LocalSignal } from './local-signal';
import { lower } from './lower';
import { type Offset, offsetsOf } from './lower-word';
import { type Placed, placeOf } from './packed-places';
import {
  type Chosen,
  isReference,
  type ReferenceExpression,
  resolveReference,
  type ValueReference,
} from './references';
import type { ArrayEntity } from './scope';
import type { WholeValue } from './whole-values';

export type TargetPart<Value> =
  | { readonly kind: 'slice'; readonly signal: LocalSignal; readonly low: number; readonly width: number }
  /** `index`: bit number of the lowest bit written, signed, at least 32 bits. */
  | { readonly kind: 'variable'; readonly signal: LocalSignal; readonly index: Value; readonly width: number }
  /** Bits of the words of an array whose index varies, or that is kept as one content. */
  | {
      readonly kind: 'words';
      readonly array: ArrayEntity;
      /** As written, and where they point. */
      readonly indices: readonly Expression[];
      readonly offsets: readonly Offset<Value>[];
      /** Bits of a word that are written; `index` as above where they vary, then `low` is 0. */
      readonly low: number;
      readonly index: Value | null;
      readonly width: number;
    }
  /** Bits outside the declared range, or at an unknown index: nothing is written (5.2.1). */
  | { readonly kind: 'nowhere'; readonly width: number }
  /** Not to be told: nothing is known about the bits, nor about their number where `width` is null. */
  | { readonly kind: 'hole'; readonly signal: LocalSignal | null; readonly complaint: number };

export interface Target<Value> {
  readonly parts: readonly TargetPart<Value>[];
  /** Null where a part's width is not known: then no part gets a value. */
  readonly width: number | null;
}

interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

export function targetOf<Value>(at: Surroundings<Value>, expression: Expression): Target<Value> {
  const parts = partsOf(at, expression);
  let width: number | null = 0;
  for (const part of parts) width = part.kind === 'hole' || width === null ? null : width + part.width;
  return { parts, width };
}

function partsOf<Value>(at: Surroundings<Value>, expression: Expression): TargetPart<Value>[] {
  if (expression.kind === 'concat') return expression.parts.flatMap((part) => partsOf(at, part));
  if (isReference(expression)) return referredParts(at, expression);
  if (expression.kind === 'hole') return [{ kind: 'hole', signal: null, complaint: -1 }];
  return [notAssignable(at.context, expression)];
}

function notAssignable(context: ExpressionContext, expression: Expression): TargetPart<never> {
  const name = context.source.textOf(expression.at);
  const complaint = context.log.add('not-assignable', { name }, context.source.place(expression.at));
  return { kind: 'hole', signal: null, complaint };
}

function referredParts<Value>(at: Surroundings<Value>, expression: ReferenceExpression): TargetPart<Value>[] {
  const { context } = at;
  const reference = resolveReference(context, expression);
  if (reference.kind === 'hole') return [{ kind: 'hole', signal: null, complaint: reference.complaint }];
  if (reference.kind === 'below') return [intoAnotherModule(context, expression)];
  if (reference.kind === 'word') return wordParts(at, reference);
  if (reference.kind === 'whole') return wholeParts(at, reference, expression);
  if (reference.kind !== 'signal') return [notAssignable(context, expression)];
  return signalParts(at, reference.signal, reference);
}

function intoAnotherModule({ log, source }: ExpressionContext, { at }: Expression): TargetPart<never> {
  const complaint = log.add('construct', { what: 'assignment into another module' }, source.place(at));
  return { kind: 'hole', signal: null, complaint };
}

function signalParts<Value>(at: Surroundings<Value>, signal: LocalSignal, chosen: Chosen): TargetPart<Value>[] {
  const place = placeOf(at, chosen, signal.shape, lower);
  if (place.kind === 'hole') return [{ kind: 'hole', signal, complaint: place.complaint }];
  if (place.kind === 'variable') return [{ kind: 'variable', signal, index: place.low, width: place.width }];
  return clipped(place).map((part) => (part.kind === 'nowhere' ? part : { ...part, kind: 'slice', signal }));
}

/** The members or words of the stretch that is chosen; one that varies is not followed into several signals. */
function wholeParts<Value>(
  at: Surroundings<Value>,
  reference: Extract<ValueReference, { kind: 'whole' }>,
  expression: Expression,
): TargetPart<Value>[] {
  const { path, whole } = reference;
  if (path.length > 0) return [intoAnotherModule(at.context, expression)];
  const shape = { width: whole.form.width, msb: whole.form.width - 1, lsb: 0, packed: whole.form };
  const place = placeOf(at, reference, shape, lower);
  if (place.kind === 'fixed') return clipped(place).flatMap((part) => partsIn(whole, part));
  const what = 'part of a whole structure or array at an index that varies';
  const complaint =
    place.kind === 'hole'
      ? place.complaint
      : at.context.log.add('construct', { what }, at.context.source.place(expression.at));
  return whole.parts.map(({ signal }) => ({ kind: 'hole', signal, complaint }));
}

function partsIn({ parts }: WholeValue, stretch: Clipped): TargetPart<never>[] {
  if (stretch.kind === 'nowhere') return [stretch];
  return parts.flatMap(({ low, signal }): TargetPart<never>[] => {
    const from = Math.max(stretch.low, low);
    const until = Math.min(stretch.low + stretch.width, low + signal.shape.width);
    return from >= until ? [] : [{ kind: 'slice', signal, low: from - low, width: until - from }];
  });
}

/** Known indices lead to one word, or outside the array; others to all words. */
function wordParts<Value>(
  at: Surroundings<Value>,
  reference: Extract<ValueReference, { kind: 'word' }>,
): TargetPart<Value>[] {
  const { array, indices } = reference;
  const { shape } = array;
  const offsets = offsetsOf(at, reference, lower);
  const word = array.memory === null ? wordAt(array, offsets) : isOutside(array, offsets) ? undefined : null;
  if (word !== null && word !== undefined) return signalParts(at, word, reference);
  const place = placeOf(at, reference, shape, lower);
  if (place.kind === 'hole') return signalsOf(array).map((signal) => ({ ...place, signal }));
  const { width } = place;
  if (word === undefined) return [{ kind: 'nowhere', width }];
  const words = { kind: 'words', array, indices, offsets, width } as const;
  if (place.kind === 'variable') return [{ ...words, low: 0, index: place.low }];
  const { bounds } = place;
  const inside = place.low >= bounds.low && place.low + width <= bounds.low + bounds.width;
  return [inside ? { ...words, low: place.low, index: null } : { kind: 'nowhere', width }];
}

function isOutside({ dimensions }: ArrayEntity, offsets: readonly Offset<unknown>[]): boolean {
  return offsets.some((offset, level) => {
    if (offset.kind !== 'fixed') return offset.kind === 'nowhere';
    return !(offset.offset >= 0 && offset.offset < dimensions[level].size);
  });
}

/** Null where an index varies, undefined where one lies outside. */
function wordAt(
  { dimensions, words }: ArrayEntity,
  offsets: readonly Offset<unknown>[],
): LocalSignal | null | undefined {
  let position: number | null = 0;
  for (const [level, { size }] of dimensions.entries()) {
    const offset = offsets[level];
    if (offset.kind === 'nowhere') return undefined;
    if (offset.kind === 'fixed' && !(offset.offset >= 0 && offset.offset < size)) return undefined;
    position = offset.kind === 'fixed' && position !== null ? position * size + offset.offset : null;
  }
  return position === null ? null : words?.[position];
}

type Clipped =
  | { readonly kind: 'nowhere'; readonly width: number }
  | { readonly kind: 'inside'; readonly low: number; readonly width: number };

function clipped({ bounds, low, width }: Extract<Placed<unknown>, { kind: 'fixed' }>): Clipped[] {
  const from = Math.max(low, bounds.low);
  const until = Math.min(low + width, bounds.low + bounds.width);
  if (from >= until) return [{ kind: 'nowhere', width }];
  const above = low + width - until;
  const below = from - low;
  return [
    ...(above > 0 ? [{ kind: 'nowhere', width: above } as const] : []),
    { kind: 'inside', low: from, width: until - from },
    ...(below > 0 ? [{ kind: 'nowhere', width: below } as const] : []),
  ];
}

/** Bits [low + width - 1 : low] of a target whose width is known. */
export function sliceTarget<Value>(target: Target<Value>, low: number, width: number): Target<Value> {
  let above = target.width ?? 0;
  const parts = target.parts.flatMap((part): TargetPart<Value>[] => {
    if (part.kind === 'hole') return [];
    above -= part.width;
    const from = Math.max(low, above);
    const until = Math.min(low + width, above + part.width);
    if (from >= until) return [];
    if (part.kind === 'slice') return [{ ...part, low: part.low + from - above, width: until - from }];
    return part.kind === 'nowhere' ? [{ ...part, width: until - from }] : [part];
  });
  return { parts, width };
}

/** Only variables are assigned in processes (9.2): a net there is said, and read as the variable it was meant to be. */
export function sayNets({ context }: Pick<Surroundings<unknown>, 'context'>, { parts }: Target<unknown>, at: At): void {
  for (const part of parts) {
    if (part.kind === 'nowhere') continue;
    const named = part.kind === 'words' ? part.array : part.signal;
    if (named?.shape.kind !== 'net') continue;
    const { name, shape } = named;
    context.log.add('net-assigned-in-process', { name, type: shape.type }, context.source.place(at));
  }
}
