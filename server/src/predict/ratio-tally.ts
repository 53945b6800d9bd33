// Counts, edge by edge of the root clock, what one bit does over a proven period: when it rises and how long it is high.
// Time is counted in halves of the root period, so that every result is an exact fraction of it. Even edges lead away
// from the level at which the clock rests between periods, odd ones back.

import type { DriveClock } from './drive';
import type { Fraction } from './prediction';
import { addEdge, addEdgeRun, createEdgeRuns, type EdgeRuns } from './ratio-edges';
import { fractionOf } from './ratio-fraction';

export interface Tally {
  readonly rises: EdgeRuns;
  /** Halves in which the bit is high: those that follow even edges, and those that follow odd ones. */
  readonly high: [even: number, odd: number];
  level: number;
  highSince: number;
  isKnown: boolean;
}

/** `keep`: whether it is told later when the bit rises, or only how often. */
export function createTally(level: number, keep: 'edges' | 'count' = 'edges'): Tally {
  return { rises: createEdgeRuns(keep), high: [0, 0], level, highSince: 0, isKnown: level < 2 };
}

/** The bit has this level after edge number `edge`. Calls may be left out while nothing changes. */
export function tallyLevel(tally: Tally, edge: number, level: number): void {
  if (level === tally.level) return;
  closeTally(tally, edge);
  if (level === 1 && tally.level === 0) addEdge(tally.rises, edge);
  if (level > 1) tally.isKnown = false;
  tally.highSince = edge;
  tally.level = level;
}

/** Counts the time up to before edge number `edge`. */
export function closeTally(tally: Tally, edge: number): void {
  if (tally.level !== 1) return;
  const evens = Math.ceil(edge / 2) - Math.ceil(tally.highSince / 2);
  tally.high[0] += evens;
  tally.high[1] += edge - tally.highSince - evens;
  tally.highSince = edge;
}

/** Adds `periods` whole periods from edge number `edge` on, in each of which the bit has these two levels. */
export function tallyRepeat(
  tally: Tally,
  edge: number,
  periods: number,
  levels: readonly [even: number, odd: number],
): void {
  if (levels[0] === levels[1]) return;
  closeTally(tally, edge);
  tally.high[0] += levels[0] === 1 ? periods : 0;
  tally.high[1] += levels[1] === 1 ? periods : 0;
  addEdgeRun(tally.rises, { first: edge + levels[1], gap: 2, count: periods });
  tally.highSince = edge + 2 * periods;
}

/** A number that goes on by one in each of `periods` periods, at the even or odd edge. */
export interface CountStretch {
  readonly from: number;
  readonly step: 1 | -1;
  readonly periods: number;
  readonly parity: 0 | 1;
}

/** Adds a bit of a count, from edge number `edge` on. */
export function tallyCount(
  tally: Tally,
  edge: number,
  bit: number,
  { from, step, periods, parity }: CountStretch,
): void {
  closeTally(tally, edge);
  const to = from + step * periods;
  const [low, high] = step === 1 ? [from, to] : [to, from];
  const after = onesWithin(low, high, bit) - bitOf(from, bit);
  const before = onesWithin(low, high, bit) - bitOf(to, bit);
  tally.high[0] += parity === 0 ? after : before;
  tally.high[1] += after;
  const size = 2 ** (bit + 1);
  // Up, the bit rises at odd multiples of half the size; down, it rises on leaving a multiple of the size.
  const first = step === 1 ? nextAbove(from, size / 2, size) - from : (from % size) + 1;
  if (first <= periods) {
    const count = Math.floor((periods - first) / size) + 1;
    addEdgeRun(tally.rises, { first: edge + 2 * (first - 1) + parity, gap: 2 * size, count });
  }
  tally.level = bitOf(to, bit);
  tally.highSince = edge + 2 * periods;
}

/** Root periods per period of the bit; null where it stands still or is unknown at some time. */
export function ratioOf({ rises, isKnown }: Tally, periods: number): Fraction | null {
  return isKnown && rises.count > 0 ? fractionOf(periods, rises.count) : null;
}

/** Part of the time that the bit is high; null as for the ratio. */
export function dutyOf(tally: Tally, periods: number, clock: DriveClock, restLevel: 0 | 1): Fraction | null {
  if (ratioOf(tally, periods) === null) return null;
  const { whole, high } = exactHalves(clock);
  const [even, odd] = restLevel === 0 ? [high, whole - high] : [whole - high, high];
  const time = BigInt(tally.high[0]) * even + BigInt(tally.high[1]) * odd;
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

function bitOf(value: number, bit: number): number {
  return Math.floor(value / 2 ** bit) % 2;
}

/** How many of the numbers low … high have the bit set. */
function onesWithin(low: number, high: number, bit: number): number {
  return onesBelow(high + 1, bit) - onesBelow(low, bit);
}

function onesBelow(limit: number, bit: number): number {
  const half = 2 ** bit;
  return Math.floor(limit / (2 * half)) * half + Math.max(0, (limit % (2 * half)) - half);
}

/** The least number above `value` that leaves `rest` when divided by `size`. */
function nextAbove(value: number, rest: number, size: number): number {
  return value + size - ((((value - rest) % size) + size) % size);
}
