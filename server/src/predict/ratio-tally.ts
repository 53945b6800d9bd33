// Counts, edge by edge of the root clock, what one bit does over a proven period: when it rises and how long it is high.
// Time is counted in halves of the root period, so that every result is an exact fraction of it.

import type { DriveClock } from './drive';
import type { Fraction } from './prediction';
import { fractionOf } from './ratio-fraction';

export interface Tally {
  /** Edges of the root after which the bit has risen, counted from 0 = the first of the period. */
  readonly rises: number[];
  /** Halves in which the bit is high: after edges that lead away from the clock's rest level, and back to it. */
  readonly high: [away: number, back: number];
  level: number;
  highSince: number;
  isKnown: boolean;
}

export function createTally(level: number): Tally {
  return { rises: [], high: [0, 0], level, highSince: level === 1 ? 0 : -1, isKnown: level < 2 };
}

/** The bit has this level after edge number `edge`. Calls may be left out while nothing changes. */
export function tallyLevel(tally: Tally, edge: number, level: number): void {
  if (level === tally.level) return;
  if (tally.level === 1) addHigh(tally, edge);
  if (level === 1) {
    tally.highSince = edge;
    if (tally.level === 0) tally.rises.push(edge);
  }
  if (level > 1) tally.isKnown = false;
  tally.level = level;
}

/** Closes the tally after `edges` edges. */
export function closeTally(tally: Tally, edges: number): void {
  if (tally.level === 1) addHigh(tally, edges);
}

/** Half number n follows edge n: even edges lead away from the rest level. */
function addHigh({ high, highSince }: Tally, until: number): void {
  const evens = Math.ceil(until / 2) - Math.ceil(highSince / 2);
  high[0] += evens;
  high[1] += until - highSince - evens;
}

/** Root periods per period of the bit; null where it stands still or is unknown at some time. */
export function ratioOf({ rises, isKnown }: Tally, periods: number): Fraction | null {
  return isKnown && rises.length > 0 ? fractionOf(periods, rises.length) : null;
}

/** Part of the time that the bit is high; null as for the ratio. */
export function dutyOf(tally: Tally, periods: number, clock: DriveClock, restLevel: 0 | 1): Fraction | null {
  if (ratioOf(tally, periods) === null) return null;
  const { whole, high } = exactHalves(clock);
  const [away, back] = restLevel === 0 ? [high, whole - high] : [whole - high, high];
  const time = BigInt(tally.high[0]) * away + BigInt(tally.high[1]) * back;
  return fractionOf(time, BigInt(periods) * whole);
}

/** Period and high time in one exact unit. */
export function exactHalves({ period, exactPeriod, high }: DriveClock): {
  readonly whole: bigint;
  readonly high: bigint;
} {
  if (exactPeriod === null) return { whole: BigInt(period), high: BigInt(high) };
  return { whole: BigInt(exactPeriod.numerator), high: BigInt(high) * BigInt(exactPeriod.denominator) };
}
