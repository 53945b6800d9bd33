// Whether the rises of a clock are evenly spaced, and where they stand in their shortest repetition (definition 6).

import type { RootEdge } from '../clocks/network';
import type { DriveClock } from './drive';
import { type EdgeRuns, gapsOf, listEdges } from './ratio-edges';
import { exactHalves } from './ratio-tally';

export interface RisePattern {
  readonly uniform: boolean;
  /**
   * Root edges within one repetition at which it rises, counted over the edges it can follow; empty where uniform, and
   * where there are too many to list.
   */
  readonly pattern: readonly number[];
}

/** Rises listed at most. */
const longestPattern = 4096;

export interface RiseContext {
  readonly clock: DriveClock;
  readonly restLevel: 0 | 1;
  /** Which edges the clock follows; `either` counts both kinds, else only every second is counted. */
  readonly risesOn: RootEdge | null;
  /** Edges in one period, and how many lie before it began. */
  readonly total: number;
  readonly before: number;
}

/** `rises`: at least one. */
export function risePattern(rises: EdgeRuns, { clock, restLevel, risesOn, total, before }: RiseContext): RisePattern {
  const gaps = gapsOf(rises, total).map(
    ({ from, gap }) => timeOf(from + gap, clock, restLevel) - timeOf(from, clock, restLevel),
  );
  if (gaps.every((gap) => gap === gaps[0])) return { uniform: true, pattern: [] };
  if (rises.count > longestPattern) return { uniform: false, pattern: [] };
  const edges = listEdges(rises);
  const repeat = shortestPeriod(edges.map((edge, index) => (edges[index + 1] ?? edges[0] + total) - edge));
  const length = (total * repeat) / edges.length;
  const within = edges.slice(0, repeat).map((edge) => (edge + before) % length);
  const counted = within.map((edge) => (risesOn === 'either' || risesOn === null ? edge : edge >> 1));
  return { uniform: false, pattern: counted.sort((left, right) => left - right) };
}

function timeOf(edge: number, clock: DriveClock, restLevel: 0 | 1): bigint {
  const { whole, high } = exactHalves(clock);
  const firstHalf = restLevel === 0 ? high : whole - high;
  return BigInt(Math.floor(edge / 2)) * whole + (edge % 2 === 0 ? 0n : firstHalf);
}

/** The least p by which a cyclic list repeats. */
function shortestPeriod(list: readonly number[]): number {
  for (let period = 1; period <= list.length / 2; period++) {
    if (list.length % period === 0 && list.every((value, index) => value === list[index % period])) return period;
  }
  return list.length;
}
