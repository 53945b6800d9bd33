// How each followed state was first reached, kept small: a state has a way only once somebody asks for it.

import type { Way } from './glitch-states';

export interface Ways {
  /** By state: the one that it was reached from, and under which setting; -1: begun from. */
  from: Int32Array;
  setting: Int32Array;
  /** By state, where they have been asked for. */
  readonly made: Map<number, Way>;
}

export function createWays(): Ways {
  return { from: new Int32Array(statesAtFirst).fill(-1), setting: new Int32Array(statesAtFirst), made: new Map() };
}

const statesAtFirst = 1024;

export function addWay(ways: Ways, state: number, from: number, setting: number): void {
  if (state >= ways.from.length) {
    ways.from = widened(ways.from, state);
    ways.setting = widened(ways.setting, state);
  }
  ways.from[state] = from;
  ways.setting[state] = setting;
}

function widened(numbers: Int32Array, needed: number): Int32Array {
  const wider = new Int32Array(2 * (needed + 1)).fill(-1);
  wider.set(numbers);
  return wider;
}

/** The way to an edge out of this state. */
export function wayOut(ways: Ways, state: number, setting: number): Way {
  const before = wayTo(ways, state);
  return { before, setting, period: before === null ? 0 : before.period + 1 };
}

/** Null where it was begun from. */
function wayTo(ways: Ways, state: number): Way | null {
  const missing: number[] = [];
  for (let at = state; ways.from[at] >= 0 && !ways.made.has(at); at = ways.from[at]) missing.push(at);
  for (let at = missing.pop(); at !== undefined; at = missing.pop()) {
    const before = ways.made.get(ways.from[at]) ?? null;
    const period = before === null ? 0 : before.period + 1;
    ways.made.set(at, { before, setting: ways.setting[at], period });
  }
  return ways.made.get(state) ?? null;
}
