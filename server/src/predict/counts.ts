// The sequences that chains and vector registers count through, as far as they are proven: start, lead-in, values, what
// kind of sequence, which states it never comes back from, and the readings passed between two values.

import type { Why } from '../clocks/network';
import { concat } from '../netlist/four-state-parts';
import type { DelayTriple, NodeId, RegisterId } from '../netlist/netlist';
import { type CountEntry, offsetsOf, readEntry, type Reading, readingOf } from './counts-entry';
import { type RippleCount, rippleCountOf } from './counts-ripple';
import { type CountContext, followReadings, type Readings, startEntry } from './counts-run';
import { findTrapped, type Trapped } from './counts-trapped';
import { passesOfCount } from './counts-steps';
import type { FollowedTogether } from './counts-together';
import { restOf } from './drive-moves';
import type { ChainTiming, Count, CountStep } from './prediction';
import { type NamedSequence, nameSequence, nameSteps } from './sequence';
import type { MaximalShift } from './settled-linear';
import type { Run } from './settled-run';

export interface CountResult {
  readonly count: Count;
  /** When the last bit has changed, over the steps of the sequence; null where that is not proven. */
  readonly settling: { readonly settle: DelayTriple; readonly worst: ChainTiming['worst'] } | null;
}

/** A longer sequence is only begun: nobody reads on, and the numbers beside it say what it is. */
const listedInFull = 4096;
const listedOfMany = 1024;

/** `together`: what one run told of many, by register. */
export function* countOf(
  context: CountContext,
  entry: CountEntry,
  together: ReadonlyMap<RegisterId, FollowedTogether>,
): Generator<void, CountResult> {
  const shared = entry.registers.length === 1 ? together.get(entry.registers[0]) : undefined;
  const plain = shared === undefined ? null : yield* plainResult(context, entry, shared);
  if (plain !== null) return plain;
  const started = yield* startEntry(context, entry);
  if (started.kind === 'refused') return { count: refusedCount(context, entry, started.why), settling: null };
  const run = started.value;
  const start = readEntry(run.machine, entry);
  const isLong = 2 ** entry.width > context.limits.period;
  const ripple = isLong && typeof start === 'bigint' ? rippleCountOf(context, entry, context.toggles, start) : null;
  const held = heldInputs(context, (node) => run.machine.plan.positionOf[node] >= 0);
  if (ripple !== null) return rippleResult(entry, ripple, held);
  const shift = entry.registers.length === 1 ? context.shifts.get(entry.registers[0]) : undefined;
  if (shift !== undefined) return yield* shiftResult(context, entry, run, shift, held);
  return yield* followedResult(context, entry, yield* followReadings(context, entry, run), held);
}

/** Null for a sequence whose unused states are to be followed, which takes a run of its own. */
function* plainResult(
  context: CountContext,
  entry: CountEntry,
  { heard, readings }: FollowedTogether,
): Generator<void, CountResult | null> {
  const named = yield* nameOf(context, entry, readings);
  if (named.modulus !== null) return null;
  const held = heldInputs(context, (node) => heard.has(node));
  return countedResult(context, entry, readings, { ...named, ...nothingExplored }, held);
}

function* followedResult(
  context: CountContext,
  entry: CountEntry,
  readings: Readings,
  held: Count['while'],
): Generator<void, CountResult> {
  const named = yield* nameOf(context, entry, readings);
  const trapped = named.modulus === null ? nothingExplored : yield* trappedOf(context, entry, readings);
  return countedResult(context, entry, readings, { ...named, ...trapped }, held);
}

function countedResult(
  context: CountContext,
  entry: CountEntry,
  readings: Omit<Readings, 'run'>,
  named: NamedSequence & Trapped,
  held: Count['while'],
): CountResult {
  const { cycle, log, why, settle, worst } = readings;
  const { leadIn, period } = cycle ?? { leadIn: 0, period: log.length };
  const isListed = cycle !== null && leadIn + period <= listedInFull;
  const leadInListed = isListed ? leadIn : Math.min(leadIn, listedOfMany);
  const listed = isListed ? period : Math.min(period, listedOfMany);
  const count: Count = {
    ...identityOf(entry),
    start: String(log.at(0)),
    leadIn: log.slice(0, leadInListed).map(String),
    leadInTotal: leadIn,
    values: log.slice(leadIn, leadIn + listed).map(String),
    valuesTotal: period,
    period: cycle?.period ?? null,
    ...named,
    while: held,
    steps: stepsOf(context, entry, readings, leadInListed + listed),
    why,
  };
  return { count, settling: cycle === null || settle === null ? null : { settle, worst: numbersOf(worst) } };
}

/** The period is known by algebra; what is listed is run. */
function* shiftResult(
  context: CountContext,
  entry: CountEntry,
  run: Run,
  { lockUp, polynomial }: MaximalShift,
  held: Count['while'],
): Generator<void, CountResult> {
  const limits = { ...context.limits, period: listedOfMany };
  const followed = yield* followReadings({ ...context, limits }, entry, run);
  const { count } = yield* followedResult(context, entry, { ...followed, why: null }, held);
  const period = 2 ** entry.width - 1;
  const known = {
    period,
    valuesTotal: period,
    kind: 'lfsr',
    modulus: period,
    polynomial,
    trapped: [String(lockUp)],
    explored: true,
  } as const;
  return { count: { ...count, ...known }, settling: null };
}

function numbersOf(worst: Readings['worst']): ChainTiming['worst'] {
  if (worst === null || typeof worst.from === 'string' || typeof worst.to === 'string') return null;
  return { from: worst.from, to: worst.to };
}

function rippleResult(entry: CountEntry, ripple: RippleCount, held: Count['while']): CountResult {
  const numbers = Array.from({ length: listedOfMany }, (_, index) => index);
  const count: Count = {
    ...identityOf(entry),
    start: String(ripple.at(0)),
    leadIn: [],
    leadInTotal: 0,
    values: numbers.map((index) => String(ripple.at(index))),
    valuesTotal: ripple.period,
    period: ripple.period,
    kind: ripple.kind,
    modulus: ripple.period,
    polynomial: [],
    trapped: [],
    explored: true,
    while: held,
    steps: numbers.map(ripple.stepAt),
    why: null,
  };
  return { count, settling: ripple.settle === null ? null : { settle: ripple.settle, worst: ripple.worst } };
}

/** By every reading where each was looked at, else by the steps between them. */
function* nameOf(
  { limits }: CountContext,
  { width }: CountEntry,
  { cycle, log }: Pick<Readings, 'cycle' | 'log'>,
): Generator<void, NamedSequence> {
  if (cycle === null) return { kind: 'other', modulus: null, polynomial: [] };
  const end = cycle.leadIn + cycle.period;
  if (log.isPlain || end <= limits.period) return yield* nameSequence(log.slice(cycle.leadIn, end), width);
  return nameSteps(log.stepsBetween(cycle.leadIn, end + 1));
}

const nothingExplored: Trapped = { trapped: [], explored: false };

function refusedCount({ start }: CountContext, entry: CountEntry, why: Why): Count {
  const reading = String(readingOf(concat(entry.registers.map((id) => start.register(id)).reverse())));
  return {
    ...identityOf(entry),
    start: reading,
    leadIn: [],
    leadInTotal: 0,
    values: [reading],
    valuesTotal: 1,
    period: null,
    kind: 'other',
    modulus: null,
    polynomial: [],
    ...nothingExplored,
    while: [],
    steps: [],
    why,
  };
}

function identityOf({ chain, registers, width }: CountEntry): Pick<Count, 'chain' | 'registers' | 'width'> {
  return { chain, registers: [...registers].reverse(), width };
}

/** Follows the unused states of a sequence that moves, where they are few enough. */
function* trappedOf(
  { limits }: CountContext,
  entry: CountEntry,
  { log, cycle, run }: Readings,
): Generator<void, Trapped> {
  const end = cycle === null ? 0 : cycle.leadIn + cycle.period;
  if (entry.width > 32 || 2 ** entry.width > limits.states || end > limits.period) return nothingExplored;
  const used = new Set<Reading>(log.slice(0, end));
  if (used.size === 2 ** entry.width) return { trapped: [], explored: true };
  return yield* findTrapped(run, entry, used, limits.states);
}

function heldInputs({ drive, inputs }: CountContext, isHeard: (node: NodeId) => boolean): Count['while'] {
  const heard = drive.inputs.filter(({ signal }) => {
    const node = inputs.get(signal);
    return node !== undefined && isHeard(node);
  });
  return heard.map((input) => ({ signal: input.name, value: String(readingOf(restOf(input))) }));
}

function stepsOf(
  context: CountContext,
  entry: CountEntry,
  { log, passes }: Pick<Readings, 'log' | 'passes'>,
  most: number,
): CountStep[] {
  const { registers } = context.netlist;
  const offsets = offsetsOf(context.netlist, entry);
  const readings = log.slice(0, Math.min(most + 1, log.length));
  return readings.slice(0, -1).map((from, index) => {
    const to = readings[index + 1];
    const known = passes.get(index);
    const passed = known ?? passesOfCount(context, from, to, entry, offsets, (id) => registers[id].width);
    return { from: String(from), to: String(to), passes: passed };
  });
}
