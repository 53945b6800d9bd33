// Follows one group of registers through its readings: one per active edge of its first register's clock, the clock
// taken slow enough for everything to settle (definition of `counts[]`), until the state of everything that influences
// it repeats. On the way it notes what each step passes and when the last bit of the group has changed.

import type { Why } from '../clocks/network';
import { latestTriple, zeroTriple } from '../delays/triple';
import type { DelayTriple } from '../netlist/netlist';
import { type BitChange, collectChanges, type EventContext, timeChanges } from './arrival-events';
import { type CountEntry, offsetsOf, type Reading, readEntry } from './counts-entry';
import { passesOf } from './counts-steps';
import type { CountStep } from './prediction';
import { type Cycle, findCycle } from './settled-cycle';
import { type Run, type RunContext, type RunResult, startRun } from './settled-run';

export interface CountContext extends RunContext, EventContext {}

export interface Readings {
  readonly run: Run;
  /** The readings in order, the start first; `cycle` tells which repeat. */
  readonly values: readonly Reading[];
  /** Between reading i and reading i + 1. */
  readonly passes: readonly CountStep['passes'][];
  /** Readings before the part that repeats, and how many of it repeat; null where nothing was proven. */
  readonly cycle: { readonly leadIn: number; readonly period: number } | null;
  /** The latest change of the group over all steps, per corner; null where some clock has no arrival. */
  readonly settle: DelayTriple | null;
  /** The step, by its first reading, that is latest at worst; -1 where nothing changes. */
  readonly worst: number;
  /** Why there is no cycle. */
  readonly why: Why | null;
}

export function* followReadings(context: CountContext, entry: CountEntry): Generator<void, RunResult<Readings>> {
  const { netlist, network, limits } = context;
  const nodes = entry.registers.map((id) => netlist.registers[id].node);
  const started = yield* startRun(context, nodes, network.registers[entry.registers[0]].root?.root ?? null);
  if (started.kind === 'refused') return started;
  const run = started.value;
  const notes = createNotes(context, entry, run);
  /** Number of readings taken when each root period began. */
  const taken: number[] = [];
  const state = yield* findCycle(run, limits, (level) => {
    if (level !== run.restLevel) taken.push(notes.values.length - 1);
    notes.look();
  });
  run.machine.listener = null;
  const cycle = state === null ? null : cycleOfReadings(notes.values, taken, state);
  return { kind: 'done', value: { run, ...notes.all(), cycle, why: whyNot(context, state, cycle) } };
}

/** Listens to the run and, at each look, takes a reading if the group's first register has sampled. */
function createNotes(context: CountContext, entry: CountEntry, { machine }: Run) {
  const first = machine.plan.registerIndex[entry.registers[0]];
  const offsets = offsetsOf(context.netlist, entry);
  const values: Reading[] = [readEntry(machine, entry)];
  const passes: CountStep['passes'][] = [];
  let samples = machine.samples[first];
  let changes: BitChange[] = [];
  let settle: DelayTriple | null = zeroTriple;
  let worst = -1;
  machine.listener = (change) => collectChanges(changes, machine.plan.registers[change.register].register.id, change);
  const step = (): void => {
    const timed = timeChanges(context, changes);
    const from = values.length - 1;
    passes.push(timed === null ? [] : passesOf(values[from], entry.width, timed, offsets));
    if (timed === null || settle === null) {
      settle = null;
      return;
    }
    for (const { register, time } of timed) {
      if (!offsets.has(register)) continue;
      if (time.max > settle.max) worst = from;
      if (time.max > settle.max || time.typ > settle.typ || time.min > settle.min) settle = latestTriple(settle, time);
    }
  };
  return {
    values,
    look(): void {
      if (machine.samples[first] !== samples) {
        samples = machine.samples[first];
        step();
        values.push(readEntry(machine, entry));
      }
      if (changes.length > 0) changes = [];
    },
    all: () => ({ values, passes, settle, worst }),
  };
}

/** The shortest repetition of the readings that the repetition of the state proves. */
function cycleOfReadings(values: readonly Reading[], taken: readonly number[], state: Cycle): Readings['cycle'] {
  const end = values.length - 1;
  let leadIn = taken[state.leadIn] ?? end;
  if (leadIn === end) return null;
  const period = shortestPeriod(values.slice(leadIn, end));
  while (leadIn > 0 && values[leadIn - 1] === values[leadIn - 1 + period]) leadIn -= 1;
  return { leadIn, period };
}

/** The least p that divides the length and by which the list repeats: Knuth, Morris and Pratt's failure function. */
function shortestPeriod(list: readonly Reading[]): number {
  const failure = new Uint32Array(list.length);
  for (let index = 1, matched = 0; index < list.length; index++) {
    while (matched > 0 && list[index] !== list[matched]) matched = failure[matched - 1];
    if (list[index] === list[matched]) matched += 1;
    failure[index] = matched;
  }
  const period = list.length - failure[list.length - 1];
  return list.length % period === 0 ? period : list.length;
}

function whyNot({ limits }: RunContext, state: Cycle | null, cycle: Readings['cycle']): Why | null {
  if (state === null) return { reason: 'period-not-proven', args: { limit: limits.period } };
  return cycle === null ? { reason: 'clock-stands-still', args: {} } : null;
}
