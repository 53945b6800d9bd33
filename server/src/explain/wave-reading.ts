// Reads waves at an instant: the last change of a bit up to a time, and its digit before and after. Bits are sources, as
// `sourceBit` gives them; a constant reads as what it is only through the waves' start.

import type { Digit } from '../netlist/four-state';
import type { Bit } from '../netlist/netlist';
import type { Level, Waves } from '../predict/waves';
import { digitOf } from './words';

/** Index in the waves' changes of the last change of `bit` at or before `at`, ps; -1 where there is none. */
export function changeAtOrBefore(waves: Waves, bit: Bit, at: number): number {
  const position = positionAfter(waves, bit, at) - 1;
  return position < 0 ? -1 : waves.changesOf(bit)[position];
}

/** The digit once everything at `at` has happened. */
export function digitAfter(waves: Waves, bit: Bit, at: number): Digit {
  return digitAtPosition(waves, bit, positionAfter(waves, bit, at) - 1);
}

/** The digit that a sample at `at` takes: from before anything happened at that instant (definition 34). */
export function digitSampled(waves: Waves, bit: Bit, at: number): Digit {
  return digitAtPosition(waves, bit, positionAfter(waves, bit, at - 0.5) - 1);
}

/** The digit before one recorded change of the bit. */
export function digitBefore(waves: Waves, bit: Bit, change: number): Digit {
  const own = waves.changesOf(bit);
  let position = positionAfter(waves, bit, waves.changes.time[change]) - 1;
  while (position >= 0 && own[position] >= change) position -= 1;
  return digitAtPosition(waves, bit, position);
}

/** How many of the bit's changes happen at or before `at`. */
function positionAfter(waves: Waves, bit: Bit, at: number): number {
  const own = waves.changesOf(bit);
  let [low, high] = [0, own.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (waves.changes.time[own[middle]] <= at) low = middle + 1;
    else high = middle;
  }
  return low;
}

function digitAtPosition(waves: Waves, bit: Bit, position: number): Digit {
  const level = position < 0 ? waves.startOf(bit) : (waves.changes.value[waves.changesOf(bit)[position]] as Level);
  return digitOf(level);
}
