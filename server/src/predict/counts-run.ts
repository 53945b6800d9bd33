// Follows one group of registers through its readings: one per active edge of its first register's clock, the clock
// taken slow enough for everything to settle (definition of `counts[]`), until the state of everything that influences
// it repeats.

import type { Why } from '../clocks/network';
import { type Bits, equalBits } from '../netlist/four-state';
import type { CountEntry } from './counts-entry';
import { readEntry } from './counts-entry';
import { type Cycle, findCycle } from './settled-cycle';
import { copyOf, type SettledChange } from './settled-machine';
import { type Run, type RunContext, startRun } from './settled-run';

export interface Readings {
  readonly run: Run;
  /** The readings in order, the start first; `cycle` tells which repeat. */
  readonly values: readonly Bits[];
  /** Readings before the part that repeats, and how many of it repeat; null where nothing was proven. */
  readonly cycle: { readonly leadIn: number; readonly period: number } | null;
  /** The cycle of the whole state, in root periods. */
  readonly stateCycle: Cycle | null;
  /** Register changes on the way from reading i to reading i + 1. */
  readonly changes: readonly (readonly SettledChange[])[];
  readonly why: Why | null;
}

export type ReadingsResult =
  | { readonly kind: 'done'; readonly value: Readings }
  | { readonly kind: 'refused'; readonly why: Why };

export function* followReadings(context: RunContext, entry: CountEntry): Generator<void, ReadingsResult> {
  const { netlist, network, limits } = context;
  const nodes = entry.registers.map((id) => netlist.registers[id].node);
  const started = yield* startRun(context, nodes, network.registers[entry.registers[0]].root?.root ?? null);
  if (started.kind === 'refused') return started;
  const run = started.value;
  const first = run.machine.plan.registerIndex[entry.registers[0]];
  const values: Bits[] = [copyOf(readEntry(run.machine, entry))];
  const changes: SettledChange[][] = [];
  /** Number of readings taken when each root period began. */
  const taken: number[] = [];
  let instant: SettledChange[] = [];
  let samples = run.machine.samples[first];
  run.machine.listener = (change) => instant.push(change);
  const stateCycle = yield* findCycle(run, limits, (edge) => {
    if (edge !== run.restLevel) taken.push(values.length - 1);
    if (run.machine.samples[first] !== samples) {
      samples = run.machine.samples[first];
      values.push(copyOf(readEntry(run.machine, entry)));
      changes.push(instant);
    }
    instant = [];
  });
  run.machine.listener = null;
  const cycle = stateCycle === null ? null : cycleOfReadings(values, taken, stateCycle);
  return { kind: 'done', value: { run, values, cycle, stateCycle, changes, why: whyNot(context, stateCycle, cycle) } };
}

/** The shortest repetition of the readings that the repetition of the state proves. */
function cycleOfReadings(values: readonly Bits[], taken: readonly number[], state: Cycle): Readings['cycle'] {
  const end = values.length - 1;
  let leadIn = taken[state.leadIn] ?? end;
  if (leadIn === end) return null;
  const period = shortestPeriod(values.slice(leadIn, end));
  while (leadIn > 0 && equalBits(values[leadIn - 1], values[leadIn - 1 + period])) leadIn -= 1;
  return { leadIn, period };
}

/** The least p that divides the length and by which the list repeats: Knuth, Morris, Pratt's failure function. */
export function shortestPeriod(list: readonly Bits[]): number {
  const failure = new Uint32Array(list.length);
  for (let index = 1, matched = 0; index < list.length; index++) {
    while (matched > 0 && !equalBits(list[index], list[matched])) matched = failure[matched - 1];
    if (equalBits(list[index], list[matched])) matched += 1;
    failure[index] = matched;
  }
  const period = list.length - failure[list.length - 1];
  return list.length % period === 0 ? period : list.length;
}

function whyNot({ limits }: RunContext, state: Cycle | null, cycle: Readings['cycle']): Why | null {
  if (state === null) return { reason: 'period-not-proven', args: { limit: limits.period } };
  return cycle === null ? { reason: 'clock-stands-still', args: {} } : null;
}
