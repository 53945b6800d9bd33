// Variable indices as numbers: signed, two's complement, at least 32 bits wide. An index with unknown bits stands for
// every number that its known bits allow.

import { type Bits, hasUnknown } from './four-state';

/** Far outside every vector: no limit of width comes near it. */
const outside = 2 ** 40;

/** The index as a number; null when any bit is unknown. One that does not fit 32 bits is far outside every vector. */
export function signedIndex(index: Bits): number | null {
  if (hasUnknown(index)) return null;
  const low = index.a[0] | 0;
  return isSignFill(index, low < 0) ? low : outside;
}

/** The numbers of [low, high] that the index could be, ascending. */
export function possiblePositions(index: Bits, low: number, high: number): number[] {
  const positions: number[] = [];
  const compared = ~index.b[0];
  for (let position = low; position <= high; position++) {
    const agrees = ((index.a[0] ^ position) & compared) === 0;
    if (agrees && isSignFill(index, position < 0)) positions.push(position);
  }
  return positions;
}

/** How many numbers the index could be. */
export function completionCount(index: Bits): number {
  return 2 ** index.b.reduce((sum, limb) => sum + onesIn(limb), 0);
}

/** Whether the known bits above the first limb all repeat the sign. */
function isSignFill(index: Bits, negative: boolean): boolean {
  const fill = negative ? 0xffffffff : 0;
  for (let limb = 1; limb < index.a.length; limb++) {
    const used = limb === index.a.length - 1 && (index.width & 31) !== 0 ? 2 ** (index.width & 31) - 1 : 0xffffffff;
    if (((index.a[limb] ^ fill) & ~index.b[limb] & used) !== 0) return false;
  }
  return true;
}

function onesIn(limb: number): number {
  let count = 0;
  for (let rest = limb; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
