// Reads waves in digits, as accounts need them: at an instant, just before it, and around one recorded change. Bits are
// sources, as `sourceBit` gives them.

import type { Digit } from '../netlist/four-state';
import type { Bit } from '../netlist/netlist';
import { levelAt } from '../predict/wave-query';
import type { Level, Waves } from '../predict/waves';
import { digitOf } from './words';

/** The digit once everything at `at`, ps, has happened. */
export function digitAfter(waves: Waves, bit: Bit, at: number): Digit {
  return digitOf(levelAt(waves, bit, at, 'after'));
}

/** The digit that a sample at `at` takes: from before anything happened at that instant (definition 34). */
export function digitSampled(waves: Waves, bit: Bit, at: number): Digit {
  return digitOf(levelAt(waves, bit, at, 'before'));
}

/** The digit of the bit before one of its own recorded changes; a bit may change more than once at an instant. */
export function digitBefore(waves: Waves, bit: Bit, change: number): Digit {
  const previous = lastWhere(waves.changesOf(bit), (own) => own < change);
  return digitOf(previous < 0 ? waves.startOf(bit) : (waves.changes.value[previous] as Level));
}

/** Index in the waves' changes of the last change of `bit` at or before `at`, ps; -1 where there is none. */
export function changeAtOrBefore(waves: Waves, bit: Bit, at: number): number {
  return lastWhere(waves.changesOf(bit), (own) => waves.changes.time[own] <= at);
}

/** The last of the rising `changes` for which `holds`, which is true up to some point and false from there; -1 where none. */
function lastWhere(changes: ArrayLike<number>, holds: (change: number) => boolean): number {
  let [low, high] = [0, changes.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(changes[middle])) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? -1 : changes[low - 1];
}
