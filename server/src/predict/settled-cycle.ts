// When a run repeats: the first state that has been there before, in every bit that counts, proves the period. Stretches
// in which only counters move are taken at once. Limited by the number of states looked at and by the work done; beyond,
// nothing is claimed.

import type { Limits } from '../budget';
import { fromNumber, toNumber } from '../netlist/four-state';
import { rest, setState } from './settled';
import { type JumpCounter, quietStretch } from './settled-jump';
import { type Run, stateKey, stepRun } from './settled-run';
import { createSeenStates } from './settled-seen';

export interface Cycle {
  /** Root periods before the state that repeats. */
  readonly leadIn: number;
  /** Root periods from there until it is back. */
  readonly period: number;
}

/** Periods taken at once, each like the one before it but for counters that go on by one. */
export interface Jump {
  readonly periods: number;
  readonly counters: readonly (JumpCounter & { readonly from: number })[];
}

export interface RunWatcher {
  afterEdge(level: 0 | 1): void;
  /** After the jump. The last period before it was looked at edge by edge. */
  afterJump(jump: Jump): void;
}

/** Evaluations of nodes allowed per root period of the limit: what a small design needs, many times over. */
const workPerPeriod = 64;
/** How many runs of that much work are paid for in all: what a large design needs beyond is left open, not waited for. */
const runsPerPurse = 16;

/** Evaluations that all runs of one question may use up together. */
export interface Purse {
  left: number;
}

export function createPurse({ period }: Pick<Limits, 'period'>): Purse {
  return { left: period * workPerPeriod * runsPerPurse };
}
/** States looked at between two pauses. */
const stride = 256;

/** Runs until the state repeats; the run then stands at the repeated state. Null where the limit came first. */
export function* findCycle(
  run: Run,
  { period: limit }: Pick<Limits, 'period'>,
  purse: Purse,
  watcher: RunWatcher,
): Generator<void, Cycle | null> {
  const seen = createSeenStates();
  const workBefore = run.machine.work;
  const workLimit = workBefore + Math.min(limit * workPerPeriod, purse.left);
  const from = run.periods;
  const pace = createPace();
  while (seen.size <= limit && run.machine.work <= workLimit && run.periods - from <= Number.MAX_SAFE_INTEGER / 4) {
    const before = seen.meet(stateKey(run), run.periods - from);
    if (before >= 0) {
      purse.left -= run.machine.work - workBefore;
      return { leadIn: before, period: run.periods - from - before };
    }
    advanceRun(run, watcher, pace, Number.POSITIVE_INFINITY);
    if (seen.size % stride === 0) yield;
  }
  purse.left -= run.machine.work - workBefore;
  return null;
}

/** Goes on for exactly this many root periods. */
export function* runFor(run: Run, periods: number, watcher: RunWatcher): Generator<void, void> {
  const until = run.periods + periods;
  const pace = createPace();
  for (let looks = 1; run.periods < until; looks++) {
    advanceRun(run, watcher, pace, until - run.periods);
    if (looks % stride === 0) yield;
  }
}

/** How long to wait before looking for a jump again: doubled each time there is none. */
interface Pace {
  wait: number;
  next: number;
}

export function createPace(): Pace {
  return { wait: 1, next: 1 };
}

/** Jumps shorter than this cost more than they save. */
const shortestJump = 8;
const longestWait = 64;

/** One root period, and with it all that follow in the same way, up to `most`. */
function advanceRun(run: Run, watcher: RunWatcher, pace: Pace, most: number): void {
  pace.next -= 1;
  const stretch =
    pace.next > 0 ? null : quietStretch(run.machine, { movers: [...run.movers], homes: run.homes, held: run.held });
  const before = stretch?.counters.map(({ register }) => numberOf(run, register));
  stepRun(run, watcher.afterEdge);
  if (pace.next > 0) return;
  const periods = Math.min(stretch?.periods ?? 0, most) - 1;
  const isAlike =
    stretch !== null && before !== undefined && periods >= shortestJump && countedOnly(run, stretch.counters, before);
  pace.wait = isAlike ? 1 : Math.min(2 * pace.wait, longestWait);
  pace.next = pace.wait;
  if (isAlike) jump(run, watcher, periods, stretch.counters);
}

/** Whether the period just stepped changed the counters by one and nothing else. */
function countedOnly(run: Run, counters: readonly JumpCounter[], before: readonly number[]): boolean {
  if (run.movers.size !== counters.length) return false;
  return counters.every(({ register, step }, index) => numberOf(run, register) === before[index] + step);
}

function numberOf({ machine }: Run, register: number): number {
  return toNumber(machine.values.views[machine.plan.registers[register].position]) ?? Number.NaN;
}

function jump(run: Run, watcher: RunWatcher, periods: number, counters: readonly JumpCounter[]): void {
  const { machine } = run;
  const moved = counters.map((counter) => ({ ...counter, from: numberOf(run, counter.register) }));
  for (const { register, step, from } of moved) {
    const { node, width } = machine.plan.registers[register].register;
    setState(machine, node, fromNumber(width, from + step * periods));
  }
  rest(machine);
  run.periods += periods;
  watcher.afterJump({ periods, counters: moved });
}
