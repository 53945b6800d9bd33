// Follows one group of registers through its readings: one per active edge of its first register's clock, the clock
// taken slow enough for everything to settle (definition of `counts[]`), until the state of everything that influences
// it repeats. On the way it notes what each step passes and when the last bit of the group has changed.

import type { Why } from '../clocks/network';
import { latestTriple, zeroTriple } from '../delays/triple';
import type { DelayTriple } from '../netlist/netlist';
import { type BitChange, collectChanges, type EventContext, timeChanges } from './arrival-events';
import { type CountEntry, offsetsOf, type Reading, readEntry } from './counts-entry';
import { createReadingLog, type ReadingLog } from './counts-log';
import { passesOf } from './counts-steps';
import type { CountStep } from './prediction';
import type { ClosedForms } from './ratio';
import { type Cycle, findCycle, type Jump, type Purse, type RunWatcher } from './settled-cycle';
import { bitsOfRegisters, type Run, type RunContext, type RunResult, startRun } from './settled-run';

export interface CountContext extends RunContext, EventContext, ClosedForms {
  readonly purse: Purse;
}

export interface Readings {
  readonly run: Run;
  /** In order, the start first; `cycle` tells which repeat. */
  readonly log: ReadingLog;
  /** Between reading i and reading i + 1; absent where the step was not looked at by itself. */
  readonly passes: Pick<ReadonlyMap<number, CountStep['passes']>, 'get'>;
  /** Readings before the part that repeats, and how many of it repeat; null where nothing was proven. */
  readonly cycle: { readonly leadIn: number; readonly period: number } | null;
  /** The latest change of the group over all steps, per corner; null where some clock has no arrival. */
  readonly settle: DelayTriple | null;
  /** The step that is latest at worst, by its reading before; null where nothing changes. */
  readonly worst: { readonly from: Reading; readonly to: Reading } | null;
  /** Why there is no cycle. */
  readonly why: Why | null;
}

/** A run of what influences a group, at its first reading. */
export function* startEntry(context: CountContext, entry: CountEntry): Generator<void, RunResult<Run>> {
  const { netlist, network } = context;
  const root = network.registers[entry.registers[0]].root?.root ?? null;
  return yield* startRun(context, bitsOfRegisters(netlist, entry.registers), root);
}

export function* followReadings(context: CountContext, entry: CountEntry, run: Run): Generator<void, Readings> {
  const { limits } = context;
  const notes = createNotes(context, entry, run);
  const state = yield* findCycle(run, limits, context.purse, notes.watcher);
  run.listener = null;
  const cycle = state === null ? null : cycleOfReadings(notes.log, (period) => notes.taken.get(period), state);
  return { run, ...notes.all(), cycle, why: whyNot(context, state, cycle) };
}

/** Steps of which it is noted what they pass. */
const notedInFull = 4200;

/** What is heard of a run. A reading is taken after each edge at which the group's first register has sampled. */
function createNotes(context: CountContext, entry: CountEntry, run: Run) {
  const { machine } = run;
  const first = machine.plan.registerIndex[entry.registers[0]];
  const offsets = offsetsOf(context.netlist, entry);
  const log = createReadingLog(readEntry(machine, entry));
  const passes = new Map<number, CountStep['passes']>();
  /** Number of readings taken before each root period that was looked at. */
  const taken = new Map<number, number>([[0, 0]]);
  let samples = machine.samples[first];
  let changes: BitChange[] = [];
  let settle: DelayTriple | null = zeroTriple;
  let worst: Readings['worst'] = null;
  let perPeriod = 0;
  run.listener = (change) => collectChanges(changes, machine.plan.registers[change.register].register.id, change);

  function takeReading(): void {
    samples = machine.samples[first];
    perPeriod += 1;
    const from = log.at(log.length - 1);
    const to = readEntry(machine, entry);
    log.add(to);
    if (entry.chain === null && log.length > notedInFull) return;
    const timed = timeChanges(context, changes);
    if (log.length <= notedInFull)
      passes.set(log.length - 2, timed === null ? [] : passesOf(from, entry.width, timed, offsets));
    if (timed === null) settle = null;
    for (const { register, time } of timed ?? []) if (offsets.has(register)) noteTime(time, from, to);
  }

  function noteTime(time: DelayTriple, from: Reading, to: Reading): void {
    if (settle === null) return;
    if (time.max > settle.max) worst = { from, to };
    if (time.max > settle.max || time.typ > settle.typ || time.min > settle.min) settle = latestTriple(settle, time);
  }

  /** In a jump the counters' bits rise and fall; everything else of the group stays. */
  function takeJump({ periods, counters }: Jump): void {
    const own = counters.flatMap(({ register, step }) => {
      const { id } = machine.plan.registers[register].register;
      const offset = offsets.get(id);
      return offset === undefined ? [] : [{ id, step: BigInt(step) << BigInt(offset), offset }];
    });
    const total = own.reduce((sum, { step }) => sum + step, 0n);
    const last = log.at(log.length - 1);
    if (perPeriod > 0) log.addStretch(total, periods * perPeriod);
    if (typeof last === 'string') return;
    for (const { id, step, offset } of own) {
      // Up from an odd number and down from an even one, bits rise and bits fall.
      const isOdd = ((last >> BigInt(offset)) & 1n) === 1n;
      const from = isOdd === step > 0n ? last : last + total;
      const { rise, fall } = context.arrivals.outputOf(id);
      for (const time of [rise, fall]) if (time !== null) noteTime(time, from, from + total);
    }
  }

  const watcher: RunWatcher = {
    afterEdge(level) {
      if (level !== run.restLevel) perPeriod = 0;
      if (machine.samples[first] !== samples) takeReading();
      if (changes.length > 0) changes = [];
      if (level === run.restLevel) taken.set(run.periods + 1, log.length - 1);
    },
    afterJump(jump) {
      takeJump(jump);
      taken.set(run.periods, log.length - 1);
    },
  };
  return { log, taken, watcher, all: () => ({ log, passes, settle, worst }) };
}

/** The shortest repetition of the readings that the repetition of the state proves. `taken`: readings before a period. */
export function cycleOfReadings(
  log: ReadingLog,
  taken: (period: number) => number | undefined,
  state: Cycle,
): Readings['cycle'] {
  const end = log.length - 1;
  const start = taken(state.leadIn) ?? end;
  if (start === end) return null;
  const period = log.isPlain ? shortestPeriod(log.slice(start, end)) : end - start;
  return { leadIn: log.earliestRepeat(start, period), period };
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
