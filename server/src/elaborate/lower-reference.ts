// Names and selects into values (IEEE 1364-2005 5.2.1): a constant select is wiring, a variable one a read at an index;
// what lies outside the declared range, or at an unknown index, is x.

import { allX, fromNumber } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import { Op } from '../netlist/operators';
import type { PackedForm } from '../netlist/packed-form';
import type { Expression } from '../syntax/tables';
import { type Algebra, joinOf, type Reader, resizeTo, sliceOf } from './algebra';
import { integerOf, toBits } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { constantInteger, type ExpressionType, selectWidth, typeOf } from './expression-type';
import { bitOfIndex } from './local-signal';
import { scaled, wordValue } from './lower-word';
import type { ViewStep } from './packed-views';
import {
  notAValue,
  packedPart,
  type ReferenceExpression,
  resolveReference,
  type Select,
  type ValueReference,
} from './references';

interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

/** How the expressions inside a select are lowered: handed in, since they may hold names again. */
export type Lower<Value> = (at: Surroundings<Value>, expression: Expression) => Value;

export function lowerReference<Value>(
  at: Surroundings<Value>,
  expression: ReferenceExpression,
  type: ExpressionType,
  lower: Lower<Value>,
): Value {
  const { algebra } = at.reader;
  const reference = resolveReference(at.context, expression);
  if (reference.kind === 'hole') return algebra.hole(type.width, reference.complaint, expression.at);
  const { form, whole } = viewed(at, reference, expression, lower);
  // As an operand, or where no words are assigned to.
  if (reference.kind === 'whole' && type.unpacked === undefined && isWords(reference))
    return algebra.hole(type.width, notAValue(at.context, expression), expression.at);
  if (reference.select !== null) return lowerSelect(at, expression, whole, form, reference.select, type, lower);
  const value = stretch(at, whole, expression, 0, widthOf(at.reader, whole));
  return resizeTo(algebra, value, type.width, type.signed ? 'sign' : 'zero', expression.at);
}

function isWords({ select, view, whole: { form } }: Extract<ValueReference, { kind: 'whole' }>): boolean {
  return view === null && form.kind === 'array' && form.isUnpacked === true && select?.kind !== 'index';
}

type Whole<Value> =
  | Exclude<ValueReference, { kind: 'word' }>
  /** What has been read already. */
  | { readonly kind: 'value'; readonly value: Value }
  /** A fixed part. */
  | { readonly kind: 'part'; readonly of: Whole<Value>; readonly low: number; readonly width: number };

/** What the members and indices of a reference lead to; `form` as `packedPart` gives it. */
function viewed<Value>(
  at: Surroundings<Value>,
  reference: ValueReference,
  expression: Expression,
  lower: Lower<Value>,
): { readonly whole: Whole<Value>; readonly form: PackedForm | Range } {
  const start: Whole<Value> =
    reference.kind === 'word' ? { kind: 'value', value: wordValue(at, reference, expression.at, lower) } : reference;
  if (reference.view === null) return { whole: start, form: packedPart(reference) ?? rangeOf(reference) };
  let whole: Whole<Value> = start;
  for (const step of reference.view.steps) {
    if (step.kind === 'fixed') {
      whole = { kind: 'part', of: whole, low: step.low, width: step.width };
      continue;
    }
    const { width } = step.of.element;
    const value: Value = stretch(at, whole, expression, 0, widthOf(at.reader, whole));
    const place = partPlace(at, step, lower);
    whole =
      place.kind === 'variable'
        ? { kind: 'value', value: at.reader.algebra.apply(Op.readAt, width, [value, place.low], 0, expression.at) }
        : { kind: 'value', value: at.reader.algebra.constant(allX(width), expression.at) };
  }
  return { whole, form: reference.view.form };
}

interface Range {
  readonly msb: number;
  readonly lsb: number;
  readonly width: number;
}

/** Bits [low + width - 1 : low] of what is referred to, inside it. */
function stretch<Value>(
  at: Surroundings<Value>,
  whole: Whole<Value>,
  expression: Expression,
  low: number,
  width: number,
): Value {
  const { reader } = at;
  const { at: place } = expression;
  switch (whole.kind) {
    case 'part':
      return stretch(at, whole.of, expression, whole.low + low, width);
    case 'signal':
      return reader.read(whole.signal, low, width, place);
    case 'value':
      return sliceOf(reader.algebra, whole.value, low, width, place);
    case 'below':
      return reader.readBelow(whole.below, low, width, place);
    case 'whole':
      return stretchOfParts(at, whole, expression, low, width);
    case 'parameter': {
      const value = whole.parameter.value();
      const bits = value.kind === 'bits' ? value.bits : toBits(value, 32);
      return reader.algebra.constant(slice(bits, low, width), place);
    }
  }
}

function stretchOfParts<Value>(
  { reader }: Surroundings<Value>,
  { path, whole }: Extract<ValueReference, { kind: 'whole' }>,
  { at }: Expression,
  low: number,
  width: number,
): Value {
  const pieces = whole.parts.flatMap((part): Value[] => {
    const { signal } = part;
    const from = Math.max(low, part.low);
    const until = Math.min(low + width, part.low + signal.shape.width);
    if (from >= until) return [];
    if (path.length === 0) return [reader.read(signal, from - part.low, until - from, at)];
    const below = { path, signal: signal.index, width: signal.shape.width };
    return [reader.readBelow(below, from - part.low, until - from, at)];
  });
  return joinOf(reader.algebra, pieces, at);
}

function widthOf<Value>({ algebra }: Reader<Value>, whole: Whole<Value>): number {
  switch (whole.kind) {
    case 'part':
      return whole.width;
    case 'value':
      return algebra.widthOf(whole.value);
    case 'whole':
      return whole.whole.form.width;
    default:
      return rangeOf(whole).width;
  }
}

function rangeOf(reference: ValueReference): Range {
  switch (reference.kind) {
    case 'signal':
      return reference.signal.shape;
    case 'below':
      return reference.shape;
    case 'word':
      return reference.array.shape;
    case 'whole':
      return { msb: reference.whole.form.width - 1, lsb: 0, width: reference.whole.form.width };
    case 'parameter': {
      const value = reference.parameter.value();
      return { ...reference.parameter.range(), width: value.kind === 'bits' ? value.bits.width : 32 };
    }
  }
}

function lowerSelect<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  whole: Whole<Value>,
  form: PackedForm | Range,
  select: Select,
  type: ExpressionType,
  lower: Lower<Value>,
): Value {
  const { algebra } = at.reader;
  const place = locateIn(at, select, form, lower);
  if (place.kind === 'hole') return algebra.hole(type.width, place.complaint, expression.at);
  const value =
    place.kind === 'fixed'
      ? readFixed(at, whole, form.width, expression, place)
      : algebra.apply(
          Op.readAt,
          place.width,
          [stretch(at, whole, expression, 0, form.width), place.low],
          0,
          expression.at,
        );
  return resizeTo(algebra, value, type.width, 'zero', expression.at);
}

/** The part inside the range, with x for what is outside. */
function readFixed<Value>(
  at: Surroundings<Value>,
  whole: Whole<Value>,
  all: number,
  expression: Expression,
  { low, width }: { readonly low: number; readonly width: number },
): Value {
  const { algebra } = at.reader;
  const outside = (count: number) => (count > 0 ? [algebra.constant(allX(count), expression.at)] : []);
  const from = Math.max(low, 0);
  const until = Math.min(low + width, all);
  if (from >= until) return algebra.constant(allX(width), expression.at);
  const inside = stretch(at, whole, expression, from, until - from);
  return joinOf(algebra, [...outside(low + width - until), inside, ...outside(from - low)], expression.at);
}

/** Where a select points: bit numbers from the least significant, which may lie outside the range. */
export type Located<Value> =
  | { readonly kind: 'fixed'; readonly low: number; readonly width: number }
  /** `low`: at least 32 bits, signed. */
  | { readonly kind: 'variable'; readonly low: Value; readonly width: number }
  | { readonly kind: 'hole'; readonly complaint: number };

/** In a plain vector by its range, in a packed array by whole elements, in anything else by bits down to 0. */
export function locateIn<Value>(
  at: Surroundings<Value>,
  select: Select,
  form: PackedForm | Range,
  lower: Lower<Value>,
): Located<Value> {
  const kind = 'kind' in form ? form.kind : 'vector';
  if (kind === 'record') return locate(at, select, { msb: form.width - 1, lsb: 0 }, lower);
  const range = form as Range;
  const place = locate(at, select, range, lower);
  if (!('kind' in form) || form.kind !== 'array' || place.kind === 'hole') return place;
  const { width } = form.element;
  if (place.kind === 'fixed') return { kind: 'fixed', low: place.low * width, width: place.width * width };
  return { kind: 'variable', low: scaled(at, place.low, width, select.at), width: place.width * width };
}

/** Where one element stands in its array; `fixed` only where it lies outside. */
export function partPlace<Value>(
  at: Surroundings<Value>,
  { index, of }: Extract<ViewStep, { kind: 'index' }>,
  lower: Lower<Value>,
): Exclude<Located<Value>, { kind: 'hole' }> {
  const { width } = of.element;
  const place = locateAt(at, index, of, { below: 0, width: 1 }, lower);
  if (place.kind !== 'variable') return { kind: 'fixed', low: -width, width };
  return { kind: 'variable', low: scaled(at, place.low, width, index.at), width };
}

export function locate<Value>(
  at: Surroundings<Value>,
  select: Select,
  range: Pick<Range, 'msb' | 'lsb'>,
  lower: Lower<Value>,
): Located<Value> {
  if (select.kind === 'index') return locateAt(at, select.index, range, { below: 0, width: 1 }, lower);
  const width = selectWidth(at.context, select);
  if (width === null || width > at.context.limits.width) return { kind: 'hole', complaint: -1 };
  if (select.mode === 'fixed') return locateFixed(at.context, select, range, width);
  // The lower bit number is the base, or width - 1 below it: + counts up in index, which is down in an ascending range.
  const countsFromBase = (select.mode === 'up') === range.msb >= range.lsb;
  return locateAt(at, select.left, range, { below: countsFromBase ? 0 : width - 1, width }, lower);
}

function locateFixed(
  context: ExpressionContext,
  select: Extract<Select, { kind: 'range' }>,
  range: Pick<Range, 'msb' | 'lsb'>,
  width: number,
): Located<never> {
  const left = constantInteger(context, select.left) ?? 0;
  const right = constantInteger(context, select.right) ?? 0;
  const isReversed = left !== right && range.msb !== range.lsb && left > right !== range.msb > range.lsb;
  if (isReversed) {
    const name = context.source.textOf(select.at);
    return { kind: 'hole', complaint: context.log.add('range-reversed', { name }, context.source.place(select.at)) };
  }
  return { kind: 'fixed', low: bitOfIndex(range, right), width };
}

function locateAt<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  range: Pick<Range, 'msb' | 'lsb'>,
  { below, width }: { readonly below: number; readonly width: number },
  lower: Lower<Value>,
): Located<Value> {
  const { algebra } = at.reader;
  const index = lower(at, expression);
  const type = typeOf(at.context, expression);
  const bits = algebra.constantOf(index);
  if (bits !== null) {
    const number = integerOf({ kind: 'bits', bits, signed: type.signed });
    return { kind: 'fixed', low: number === null ? -width : bitOfIndex(range, number) - below, width };
  }
  return { kind: 'variable', low: bitNumber(algebra, index, type.signed, range, below, expression), width };
}

/** The index as a bit number: index - lsb, or lsb - index in an ascending range, less `below`; wide enough to be signed. */
function bitNumber<Value>(
  algebra: Algebra<Value>,
  index: Value,
  signed: boolean,
  { msb, lsb }: Pick<Range, 'msb' | 'lsb'>,
  below: number,
  { at }: Expression,
): Value {
  const width = Math.max(32, algebra.widthOf(index) + (signed ? 1 : 2));
  const wide = resizeTo(algebra, index, width, signed ? 'sign' : 'zero', at);
  const isDescending = msb >= lsb;
  const offset = isDescending ? lsb + below : lsb - below;
  if (isDescending && offset === 0) return wide;
  const constant = algebra.constant(fromNumber(width, offset), at);
  return algebra.apply(Op.subtract, width, isDescending ? [wide, constant] : [constant, wide], 0, at);
}
