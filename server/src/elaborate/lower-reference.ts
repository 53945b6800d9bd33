// Names and selects into values (IEEE 1364-2005 5.2.1): a constant select is wiring, a variable one a read at an index;
// what lies outside the declared range, or at an unknown index, is x.

import { allX, fromNumber } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import { Op } from '../netlist/operators';
import type { Expression } from '../syntax/tables';
import { type Algebra, joinOf, type Reader, resizeTo, sliceOf } from './algebra';
import { integerOf, toBits } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { constantInteger, type ExpressionType, selectWidth, typeOf } from './expression-type';
import { bitOfIndex } from './local-signal';
import { wordValue } from './lower-word';
import { type Reference, type ReferenceExpression, resolveReference, type Select } from './references';

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
  if (reference.kind === 'word') {
    const value = wordValue(at, reference, expression.at, lower);
    return lowerWhole(
      at,
      expression,
      { kind: 'value', value, shape: reference.array.shape, select: reference.select },
      type,
      lower,
    );
  }
  return lowerWhole(at, expression, reference, type, lower);
}

function lowerWhole<Value>(
  at: Surroundings<Value>,
  expression: ReferenceExpression,
  reference: Whole<Value>,
  type: ExpressionType,
  lower: Lower<Value>,
): Value {
  const { algebra } = at.reader;
  if (reference.select !== null)
    return lowerSelect(at, expression, { ...reference, select: reference.select }, type, lower);
  const value = wholeValue(at, reference, expression);
  return resizeTo(algebra, value, type.width, type.signed ? 'sign' : 'zero', expression.at);
}

type Whole<Value> =
  | Exclude<Reference, { kind: 'hole' | 'word' }>
  /** A word that has been read. */
  | { readonly kind: 'value'; readonly value: Value; readonly shape: Range; readonly select: Select | null };

interface Range {
  readonly msb: number;
  readonly lsb: number;
  readonly width: number;
}

function wholeValue<Value>(at: Surroundings<Value>, reference: Whole<Value>, expression: Expression): Value {
  return stretch(at, reference, expression, 0, rangeOf(reference).width);
}

/** Bits [low + width - 1 : low] of what is referred to, inside it. */
function stretch<Value>(
  { reader }: Surroundings<Value>,
  reference: Whole<Value>,
  { at }: Expression,
  low: number,
  width: number,
): Value {
  if (reference.kind === 'signal') return reader.read(reference.signal, low, width, at);
  if (reference.kind === 'value') return sliceOf(reader.algebra, reference.value, low, width, at);
  if (reference.kind === 'below') return reader.readBelow(reference.below, low, width, at);
  const value = reference.parameter.value();
  const bits = value.kind === 'bits' ? value.bits : toBits(value, 32);
  return reader.algebra.constant(slice(bits, low, width), at);
}

function rangeOf(reference: Whole<unknown>): Range {
  if (reference.kind === 'signal') return reference.signal.shape;
  if (reference.kind === 'below' || reference.kind === 'value') return reference.shape;
  const value = reference.parameter.value();
  return { ...reference.parameter.range(), width: value.kind === 'bits' ? value.bits.width : 32 };
}

function lowerSelect<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  reference: Whole<Value> & { readonly select: Select },
  type: ExpressionType,
  lower: Lower<Value>,
): Value {
  const { algebra } = at.reader;
  const range = rangeOf(reference);
  const place = locate(at, reference.select, range, lower);
  if (place.kind === 'hole') return algebra.hole(type.width, place.complaint, expression.at);
  const value =
    place.kind === 'fixed'
      ? readFixed(at, reference, expression, place)
      : algebra.apply(Op.readAt, place.width, [wholeValue(at, reference, expression), place.low], 0, expression.at);
  return resizeTo(algebra, value, type.width, 'zero', expression.at);
}

/** The part inside the range, with x for what is outside. */
function readFixed<Value>(
  at: Surroundings<Value>,
  reference: Whole<Value>,
  expression: Expression,
  { low, width }: { readonly low: number; readonly width: number },
): Value {
  const { algebra } = at.reader;
  const outside = (count: number) => (count > 0 ? [algebra.constant(allX(count), expression.at)] : []);
  const from = Math.max(low, 0);
  const until = Math.min(low + width, rangeOf(reference).width);
  if (from >= until) return algebra.constant(allX(width), expression.at);
  const inside = stretch(at, reference, expression, from, until - from);
  return joinOf(algebra, [...outside(low + width - until), inside, ...outside(from - low)], expression.at);
}

/** Where a select points: bit numbers from the least significant, which may lie outside the range. */
export type Located<Value> =
  | { readonly kind: 'fixed'; readonly low: number; readonly width: number }
  /** `low`: at least 32 bits, signed. */
  | { readonly kind: 'variable'; readonly low: Value; readonly width: number }
  | { readonly kind: 'hole'; readonly complaint: number };

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
