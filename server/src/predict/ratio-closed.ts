// Ratios of what needs no run: even toggles, powers of two and half of the time high; and maximal shift registers.

import type { ClockId } from '../clocks/network';
import type { RegisterId } from '../netlist/netlist';
import type { ClockTiming } from './prediction';
import { fractionOf } from './ratio-fraction';
import { type RegisterRatios, rootHertz } from './ratio-survey';
import type { MaximalShift } from './settled-linear';
import type { RunContext } from './settled-run';
import type { EvenToggle } from './settled-toggles';

export function toggleRatios(power: number): RegisterRatios {
  return { ratios: [fractionOf(2n ** BigInt(power), 1n)], duties: [fractionOf(1, 2)], updateEvery: null };
}

/**
 * A maximal shift register passes every state but its lock-up: half of all states have the bit set, and a quarter of all
 * are followed by its rise.
 */
export function shiftRatios(width: number, { lockUp }: MaximalShift): RegisterRatios {
  const states = 2n ** BigInt(width) - 1n;
  const bits = Array.from({ length: width }, (_, index) => BigInt(width - 1 - index));
  return {
    ratios: bits.map(() => fractionOf(states, 2n ** BigInt(width - 2))),
    duties: bits.map((bit) => fractionOf(2n ** BigInt(width - 1) - ((lockUp >> bit) & 1n), states)),
    updateEvery: null,
  };
}

/** Null where the clock is no output, straight or inverted, of such a toggle. */
export function toggledClock(
  { network, drive }: RunContext,
  toggles: ReadonlyMap<RegisterId, EvenToggle>,
  id: ClockId,
): ClockTiming | null {
  const { kind, sourceRegisters, root } = network.clocks[id];
  const toggle = sourceRegisters.length === 1 ? toggles.get(sourceRegisters[0].register) : undefined;
  const clock = drive.clocks.find((candidate) => candidate.root === root);
  if (kind !== 'derived' || toggle === undefined || clock === undefined) return null;
  return {
    clock: id,
    ratio: fractionOf(2n ** BigInt(toggle.power), 1n),
    duty: fractionOf(1, 2),
    uniform: true,
    pattern: [],
    hertz: rootHertz(clock) / 2 ** toggle.power,
  };
}
