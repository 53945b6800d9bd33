// What a stored value is where it is one of two: bit by bit, but a memory's content as a whole, since its bits are one
// number (`netlist/memory-contents.ts`).

import { type Bits, fromPlanes } from '../netlist/four-state';
import { mergeLevels } from './engine-evaluate';
import { levelAtBit } from './engine-bits';
import type { StorageUnit } from './engine-storage-plan';

/** Writes what `old` and `out` agree on into `out`; whether that changed anything. Levels, least significant bit first. */
export function mergeUnit({ contents, width }: StorageUnit, old: ArrayLike<number>, out: Uint8Array): boolean {
  let isChanged = false;
  for (let bit = 0; bit < width; bit++) isChanged ||= out[bit] !== old[bit];
  if (!isChanged) return false;
  const merged = contents?.merge([contentIn(old, width), contentIn(out, width)]);
  for (let bit = 0; bit < width; bit++) {
    if (merged !== undefined) out[bit] = levelAtBit(merged, bit);
    else if (out[bit] !== old[bit]) out[bit] = mergeLevels(old[bit], out[bit]);
  }
  return true;
}

/** At most 32 levels as a value. */
function contentIn(levels: ArrayLike<number>, width: number): Bits {
  let [high, unknown] = [0, 0];
  for (let bit = 0; bit < width; bit++) {
    high |= (levels[bit] & 1) << bit;
    unknown |= (levels[bit] >>> 1) << bit;
  }
  return fromPlanes(width, high, unknown);
}
