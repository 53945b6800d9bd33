// Triples min:typ:max as the reading of specify blocks needs them; ps.

import type { DelayTriple } from '../netlist/netlist';

export const zero: DelayTriple = { min: 0, typ: 0, max: 0 };

/** From the least of all to the largest of all; typ is the latest. At least one. */
export function spanOf(triples: readonly DelayTriple[]): DelayTriple {
  return triples.reduce((left, right) => ({
    min: Math.min(left.min, right.min),
    typ: Math.max(left.typ, right.typ),
    max: Math.max(left.max, right.max),
  }));
}

/** The least, corner by corner. */
export function leastOf(triples: readonly DelayTriple[]): DelayTriple {
  return triples.reduce((left, right) => ({
    min: Math.min(left.min, right.min),
    typ: Math.min(left.typ, right.typ),
    max: Math.min(left.max, right.max),
  }));
}

/** The largest, corner by corner. */
export function longestOf(triples: readonly DelayTriple[]): DelayTriple {
  return triples.reduce((left, right) => ({
    min: Math.max(left.min, right.min),
    typ: Math.max(left.typ, right.typ),
    max: Math.max(left.max, right.max),
  }));
}

export function sumOf(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: left.min + right.min, typ: left.typ + right.typ, max: left.max + right.max };
}

/** What is left of one behind another, corner by corner: both belong to one part. Never below 0. */
export function beyond(whole: DelayTriple, part: DelayTriple): DelayTriple {
  return {
    min: Math.max(0, whole.min - part.min),
    typ: Math.max(0, whole.typ - part.typ),
    max: Math.max(0, whole.max - part.max),
  };
}

export function isZero({ min, typ, max }: DelayTriple): boolean {
  return min === 0 && typ === 0 && max === 0;
}
