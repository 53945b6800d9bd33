// Structures and unpacked arrays taken whole (IEEE 1800-2017 7.2.2, 7.6): the signals in them, the most significant first, and
// what they make up together. An array as a whole begins with the word of its left bound.

import type { PackedForm } from '../netlist/packed-form';
import { elementsOver, formOfShape, type LocalSignal } from './local-signal';
import type { ArrayDimension, ArrayEntity, RecordEntity, RecordPart } from './scope';

export interface WholeValue {
  readonly parts: readonly RecordPart[];
  readonly form: PackedForm;
}

/** Null where an array's words are too many to be followed. */
export function wholeOf(entity: LocalSignal | RecordEntity | ArrayEntity): WholeValue | null {
  switch (entity.kind) {
    case 'signal':
      return { parts: [{ signal: entity, low: 0 }], form: formOfShape(entity.shape) };
    case 'record':
      return entity;
    case 'array':
      return rowOf(entity, []);
  }
}

/** What indices lead to that are fewer than the dimensions; `offsets`: counted from the first of each dimension. */
export function rowOf({ dimensions, shape, words }: ArrayEntity, offsets: readonly number[]): WholeValue | null {
  if (words === null) return null;
  let [from, count] = [0, words.length];
  for (const [level, offset] of offsets.entries()) {
    count /= dimensions[level].size;
    from += offset * count;
  }
  const rest = dimensions.slice(offsets.length);
  const ordered = inOrder(words.slice(from, from + count), rest);
  const { width } = shape;
  return {
    parts: ordered.map((signal, index) => ({ signal, low: (ordered.length - 1 - index) * width })),
    form: rest.reduceRight(overDimension, formOfShape(shape)),
  };
}

function overDimension(element: PackedForm, { descends, first, size }: ArrayDimension): PackedForm {
  const last = first + size - 1;
  const [msb, lsb] = descends ? [last, first] : [first, last];
  return elementsOver(element, { msb, lsb, width: size });
}

function inOrder(
  words: readonly LocalSignal[],
  [dimension, ...rest]: readonly ArrayDimension[],
): readonly LocalSignal[] {
  if (dimension === undefined) return words;
  const size = words.length / dimension.size;
  const rows = Array.from({ length: dimension.size }, (_, row) =>
    inOrder(words.slice(row * size, (row + 1) * size), rest),
  );
  return (dimension.descends ? rows.reverse() : rows).flat();
}
