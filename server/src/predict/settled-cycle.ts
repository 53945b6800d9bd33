// When a run repeats: the first state of the whole cone that has been there before proves the period. Limited by the
// number of root periods and by the work done; beyond, nothing is claimed.

import type { Limits } from '../budget';
import { stateKey, stepRun, type Run } from './settled-run';

export interface Cycle {
  /** Root periods before the state that repeats. */
  readonly leadIn: number;
  /** Root periods from there until it is back. */
  readonly period: number;
}

/** Evaluations of nodes allowed per root period of the limit: what a small design needs, many times over. */
const workPerPeriod = 64;
/** Root periods between two pauses. */
const stride = 256;

/**
 * Runs until the state repeats; the run then stands at the repeated state. Null where the limit came first.
 * `afterEdge` is called after each edge of the clock.
 */
export function* findCycle(
  run: Run,
  { period: limit }: Pick<Limits, 'period'>,
  afterEdge: (level: 0 | 1) => void,
): Generator<void, Cycle | null> {
  const seen = new Map<string | number, number>();
  const workLimit = run.machine.work + limit * workPerPeriod;
  const from = run.periods;
  while (run.periods - from <= limit && run.machine.work <= workLimit) {
    const key = stateKey(run);
    const before = seen.get(key);
    if (before !== undefined) return { leadIn: before, period: run.periods - from - before };
    seen.set(key, run.periods - from);
    stepRun(run, afterEdge);
    if (run.periods % stride === 0) yield;
  }
  return null;
}
