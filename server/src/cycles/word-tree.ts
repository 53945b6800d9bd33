// A choice among constants as labels: a tree over the selector's bits, or a table where the values are constants too.

import type { Term, Terms } from './term-kinds';
import { chooseWord, cutPlane, isKnown, knownWord, sameWord, type Word } from './words';

/** Widest selector, in bits, whose settings are all written out. */
export const widestTree = 10;
/** Fewer values are chosen faster than looked up. */
const smallestTable = 8;

/** A label as a number and the bits of it that count; null where it is no constant, or unknown where it counts. */
export function labelValue(
  terms: Terms,
  { a, b }: Word,
  wildcards: Word | null,
): { readonly value: number; readonly compared: number } | null {
  const [value, unknown] = [terms.valueOf(a[0]), terms.valueOf(b[0])];
  const skipped = wildcards === null ? 0n : terms.valueOf(wildcards.a[0]);
  if (value === null || unknown === null || skipped === null || (unknown & ~skipped) !== 0n) return null;
  return { value: Number(value), compared: ~Number(skipped) };
}

/** `values` by setting of the selector, a power of two of them. */
export function chooseTree(terms: Terms, selector: Term, values: readonly Word[]): Word {
  return tableOf(terms, selector, values) ?? treeOf(terms, selector, values);
}

function treeOf(terms: Terms, selector: Term, values: readonly Word[]): Word {
  let level = values;
  for (let bit = 0; level.length > 1; bit++) {
    const isSet = cutPlane(terms, [selector], bit, 1)[0];
    level = Array.from({ length: level.length / 2 }, (_, index) => {
      const [low, high] = [level[2 * index], level[2 * index + 1]];
      return sameWord(low, high) ? low : chooseWord(terms, isSet, high, low);
    });
  }
  return level[0];
}

function tableOf(terms: Terms, selector: Term, values: readonly Word[]): Word | null {
  const [{ width }] = values;
  if (values.length < smallestTable || width > 64 || width === 0) return null;
  const entries = values.map((word) => (isKnown(terms, word) ? terms.valueOf(word.a[0]) : null));
  if (entries.some((entry) => entry === null) || new Set(entries).size < 3) return null;
  return knownWord(terms, width, [terms.look(entries as bigint[], selector)]);
}
