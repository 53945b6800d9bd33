// Where indices into a memory point: the bits of each dimension's index one behind the other, the last dimension's lowest,
// an unknown bit as null. An index is signed and at least 32 bits wide.

import { type Bits, digitAt } from './four-state';

export interface IndexPattern {
  /** By level of the tree, lowest first. */
  readonly bits: readonly (0 | 1 | null)[];
  readonly isKnown: boolean;
  /** Some setting of the unknown bits, or the index itself, lies outside. */
  readonly mayBeOutside: boolean;
}

/** Null where it lies outside for certain. `levels`: how many bits lead to every index of each dimension. */
export function patternOf(
  indices: readonly Bits[],
  sizes: readonly number[],
  levels: readonly number[],
): IndexPattern | null {
  const bits: (0 | 1 | null)[] = [];
  let mayBeOutside = false;
  for (let dimension = sizes.length - 1; dimension >= 0; dimension--) {
    const index = indices[dimension];
    let [least, most] = [0, 0];
    for (let bit = 0; bit < levels[dimension]; bit++) {
      const digit = levelOf(index, bit);
      bits.push(digit);
      if (digit === 1) least += 2 ** bit;
      if (digit !== 0) most += 2 ** bit;
    }
    const above = bitsAbove(index, levels[dimension]);
    if (above === 'set' || least >= sizes[dimension]) return null;
    mayBeOutside ||= above === 'unknown' || most >= sizes[dimension];
  }
  return { bits, isKnown: !bits.includes(null), mayBeOutside };
}

/** Whether the bounds take in all of a dimension and of those behind it, and index bits can say no more than that. */
export function boundsOf(
  sizes: readonly number[],
  levels: readonly number[],
  bounds: readonly { readonly from: number; readonly until: number }[],
): (dimension: number) => boolean {
  const isWhole = sizes.map((size, at) => size === 2 ** levels[at] && bounds[at].from <= 0 && bounds[at].until >= size);
  return (dimension) => isWhole.slice(dimension).every((whole) => whole);
}

function levelOf(value: Bits, bit: number): 0 | 1 | null {
  const digit = digitAt(value, bit);
  return digit === '0' ? 0 : digit === '1' ? 1 : null;
}

/** Any known 1 at or above this bit leads outside: a negative index has one, too. */
function bitsAbove(value: Bits, from: number): 'none' | 'set' | 'unknown' {
  let isUnknown = false;
  for (let limb = from >>> 5; limb < value.a.length; limb++) {
    const mask = limb === from >>> 5 ? -1 << (from & 31) : -1;
    if ((value.a[limb] & ~value.b[limb] & mask) !== 0) return 'set';
    isUnknown ||= (value.b[limb] & mask) !== 0;
  }
  return isUnknown ? 'unknown' : 'none';
}
