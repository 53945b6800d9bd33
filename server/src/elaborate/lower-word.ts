// Words of arrays at indices that vary (IEEE 1364-2005 4.9, 5.2.2): a read chooses among the words, level by level; what
// lies outside the array, or at an unknown index, is x.

import { allX, fromNumber } from '../netlist/four-state';
import { contentBits } from '../netlist/memory-contents';
import { Op } from '../netlist/operators';
import type { At, Expression } from '../syntax/tables';
import { type Algebra, joinOf, type Reader, resizeTo, sliceOf } from './algebra';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { typeOf } from './expression-type';
import type { Reference } from './references';
import type { ArrayDimension, ArrayEntity, ArrayMemory } from './scope';

interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

type Word = Extract<Reference, { kind: 'word' }>;
type Lower<Value> = (at: Surroundings<Value>, expression: Expression) => Value;

/** Where one index points, counted from the first of its dimension; it may lie outside. */
export type Offset<Value> =
  | { readonly kind: 'fixed'; readonly offset: number }
  /** Both signed, at least 32 bits; `index` as written. */
  | { readonly kind: 'variable'; readonly index: Value; readonly offset: Value }
  /** A constant with unknown bits. */
  | { readonly kind: 'nowhere' };

export function offsetsOf<Value>(
  at: Surroundings<Value>,
  { array, indices }: Word,
  lower: Lower<Value>,
): Offset<Value>[] {
  return array.dimensions.map((dimension, level) => offsetOf(at, indices[level], dimension, lower));
}

function offsetOf<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  { first }: ArrayDimension,
  lower: Lower<Value>,
): Offset<Value> {
  const { algebra } = at.reader;
  const index = lower(at, expression);
  const { signed } = typeOf(at.context, expression);
  const bits = algebra.constantOf(index);
  if (bits !== null) {
    const number = integerOf({ kind: 'bits', bits, signed });
    return number === null ? { kind: 'nowhere' } : { kind: 'fixed', offset: number - first };
  }
  const width = Math.max(32, algebra.widthOf(index) + (signed ? 1 : 2));
  const wide = resizeTo(algebra, index, width, signed ? 'sign' : 'zero', expression.at);
  if (first === 0) return { kind: 'variable', index: wide, offset: wide };
  const constant = algebra.constant(fromNumber(width, first), expression.at);
  const offset = algebra.apply(Op.subtract, width, [wide, constant], 0, expression.at);
  return { kind: 'variable', index: wide, offset };
}

/** The array must have words or be a content. */
export function wordValue<Value>(at: Surroundings<Value>, word: Word, place: At, lower: Lower<Value>): Value {
  const { algebra } = at.reader;
  const { array } = word;
  const { width } = array.shape;
  const offsets = offsetsOf(at, word, lower);
  if (array.memory !== null) return wordOfContent(at, { array, memory: array.memory, offsets }, place);
  let [from, count] = [0, array.words?.length ?? 0];
  let value: Value | null = null;
  for (const [level, { size }] of array.dimensions.entries()) {
    const offset = offsets[level];
    count /= size;
    if (offset.kind === 'nowhere' || (offset.kind === 'fixed' && !(offset.offset >= 0 && offset.offset < size))) {
      return algebra.constant(allX(width), place);
    }
    if (offset.kind === 'fixed') {
      if (value === null) from += offset.offset * count;
      else value = sliceOf(algebra, value, offset.offset * count * width, count * width, place);
      continue;
    }
    value ??= joinedWords(at, word, from, count * size, place);
    const index = scaled(at, offset.offset, count * width, place);
    value = algebra.apply(Op.readAt, count * width, [value, index], 0, place);
    at.reader.indexed(array, place);
  }
  return value ?? joinedWords(at, word, from, 1, place);
}

interface ContentWord<Value> {
  readonly array: ArrayEntity;
  readonly memory: ArrayMemory;
  readonly offsets: readonly Offset<Value>[];
}

function wordOfContent<Value>(
  { reader }: Surroundings<Value>,
  { array, memory, offsets }: ContentWord<Value>,
  place: At,
): Value {
  const { algebra } = reader;
  const { width } = array.shape;
  const indices = indicesOf(algebra, array, offsets, place);
  if (indices === null) return algebra.constant(allX(width), place);
  const content = reader.read(memory.signal, 0, contentBits, place);
  if (offsets.some(({ kind }) => kind === 'variable')) reader.indexed(array, place);
  const known = [content, ...indices].map((value) => algebra.constantOf(value));
  const [state, ...at] = known.filter((bits) => bits !== null);
  if (at.length === indices.length) return algebra.constant(memory.contents.read(state, at), place);
  return algebra.apply(Op.memoryRead, width, [content, ...indices], memory.number, place);
}

/** What a memory operator takes as indices; null where one lies outside for certain. */
export function indicesOf<Value>(
  algebra: Algebra<Value>,
  { dimensions }: ArrayEntity,
  offsets: readonly Offset<Value>[],
  place: At,
): Value[] | null {
  const indices: Value[] = [];
  for (const [level, offset] of offsets.entries()) {
    if (offset.kind === 'nowhere') return null;
    if (offset.kind === 'variable') indices.push(offset.offset);
    else if (offset.offset < 0 || offset.offset >= dimensions[level].size) return null;
    else indices.push(algebra.constant(fromNumber(32, offset.offset), place));
  }
  return indices;
}

/** Words [from, from + count), the first one lowest. */
function joinedWords<Value>(
  { reader }: Surroundings<Value>,
  { array }: Word,
  from: number,
  count: number,
  place: At,
): Value {
  const words = (array.words ?? []).slice(from, from + count);
  const parts = words.map((signal) => reader.read(signal, 0, signal.shape.width, place)).reverse();
  return joinOf(reader.algebra, parts, place);
}

/** A count of rows as a count of bits. */
export function scaled<Value>(
  { reader: { algebra } }: Surroundings<Value>,
  offset: Value,
  by: number,
  place: At,
): Value {
  if (by === 1) return offset;
  const shift = Math.log2(by);
  if (Number.isInteger(shift)) {
    return joinOf(algebra, [offset, algebra.constant(fromNumber(shift, 0), place)], place);
  }
  const width = algebra.widthOf(offset) + Math.ceil(shift);
  const wide = resizeTo(algebra, offset, width, 'sign', place);
  return algebra.apply(Op.multiply, width, [wide, algebra.constant(fromNumber(width, by), place)], 0, place);
}
