// Whether the rises of a clock are evenly spaced, and where they stand in their shortest repetition (definition 6).

import type { RootEdge } from '../clocks/network';
import type { DriveClock } from './drive';
import { exactHalves } from './ratio-tally';

export interface RisePattern {
  readonly uniform: boolean;
  /** Root edges within one repetition at which it rises; empty where uniform. Counted over the edges it can follow. */
  readonly pattern: readonly number[];
}

/**
 * `rises`: numbers of root edges, of both kinds, within `edges` of them; at least one. `risesOn`: which kind the clock
 * follows; `either` counts both kinds, else only every second is counted.
 */
export function risePattern(
  rises: readonly number[],
  edges: number,
  clock: DriveClock,
  restLevel: 0 | 1,
  risesOn: RootEdge | null,
): RisePattern {
  const gaps = rises.map((edge, index) => timeBetween(edge, rises[index + 1] ?? rises[0] + edges, clock, restLevel));
  if (gaps.every((gap) => gap === gaps[0])) return { uniform: true, pattern: [] };
  const repeat = shortestPeriod(gaps);
  const length = (edges * repeat) / rises.length;
  const within = rises.map((edge) => edge % length).slice(0, repeat);
  const counted = within.map((edge) => (risesOn === 'either' || risesOn === null ? edge : edge >> 1));
  return { uniform: false, pattern: counted.sort((left, right) => left - right) };
}

/** Exact time from one root edge to a later one. */
function timeBetween(from: number, until: number, clock: DriveClock, restLevel: 0 | 1): bigint {
  return timeOf(until, clock, restLevel) - timeOf(from, clock, restLevel);
}

function timeOf(edge: number, clock: DriveClock, restLevel: 0 | 1): bigint {
  const { whole, high } = exactHalves(clock);
  const firstHalf = restLevel === 0 ? high : whole - high;
  return BigInt(edge >> 1) * whole + (edge % 2 === 0 ? 0n : firstHalf);
}

/** The least p by which a cyclic list repeats. */
function shortestPeriod(list: readonly bigint[]): number {
  for (let period = 1; period <= list.length / 2; period++) {
    if (list.length % period === 0 && list.every((value, index) => value === list[index % period])) return period;
  }
  return list.length;
}
