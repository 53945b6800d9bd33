// The sequences that chains and vector registers count through, as far as they are proven: start, lead-in, values, what
// kind of sequence, which states it never comes back from, and the readings passed between two values.

import type { Why } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import { type Bits, digitAt, toBigInt } from '../netlist/four-state';
import { concat } from '../netlist/four-state-parts';
import type { Arrivals } from './arrival';
import { timeChanges } from './arrival-events';
import type { LogicDelays } from './arrival-logic';
import { type CountEntry, offsetsOf, readingText } from './counts-entry';
import { followReadings, type Readings } from './counts-run';
import { passesOf } from './counts-steps';
import { findTrapped, type Trapped, usedReadings } from './counts-trapped';
import type { Count, CountStep } from './prediction';
import { nameSequence } from './sequence';
import type { SettledPlan } from './settled-plan';
import type { RunContext } from './settled-run';

export interface CountContext extends RunContext {
  readonly arrivals: Arrivals;
  readonly logic: LogicDelays;
  readonly delaySet: DelaySet;
}

/** Readings listed where no period is proven: enough to read along. */
const listedUnproven = 1024;
/** Widest group whose unused states are followed, whatever the limit on states. */
const widestExplored = 24;

export function* countOf(
  context: CountContext,
  entry: CountEntry,
): Generator<void, { count: Count; readings: Readings | null }> {
  const followed = yield* followReadings(context, entry);
  if (followed.kind === 'refused') return { count: refusedCount(context, entry, followed.why), readings: null };
  const readings = followed.value;
  const { cycle, values, run } = readings;
  const repeating = cycle === null ? [] : values.slice(cycle.leadIn, cycle.leadIn + cycle.period);
  const named = nameSequence(repeating.map(toBigInt), entry.width);
  const trapped = named.modulus === null ? nothingExplored : yield* trappedOf(context, entry, readings);
  const count: Count = {
    ...identityOf(entry),
    start: readingText(values[0]),
    leadIn: values.slice(0, cycle?.leadIn ?? 0).map(readingText),
    values: (cycle === null ? values.slice(0, listedUnproven) : repeating).map(readingText),
    period: cycle?.period ?? null,
    kind: named.kind,
    modulus: named.modulus,
    trapped: trapped.values.map(String),
    explored: trapped.explored,
    while: heldInputs(context, run.machine.plan),
    steps: stepsOf(context, entry, readings),
    why: readings.why,
  };
  return { count, readings };
}

const nothingExplored: Trapped = { values: [], explored: false };

function refusedCount(context: CountContext, entry: CountEntry, why: Why): Count {
  const { start } = context;
  const reading = readingText(concat(entry.registers.map((id) => start.register(id)).reverse()));
  return {
    ...identityOf(entry),
    start: reading,
    leadIn: [],
    values: [reading],
    period: null,
    kind: 'other',
    modulus: null,
    trapped: [],
    explored: false,
    while: [],
    steps: [],
    why,
  };
}

function identityOf({ chain, registers, width }: CountEntry): Pick<Count, 'chain' | 'registers' | 'width'> {
  return { chain, registers: [...registers].reverse(), width };
}

/** Explores unused states of a sequence that moves, where they are few enough. */
function* trappedOf(context: CountContext, entry: CountEntry, readings: Readings): Generator<void, Trapped> {
  const { limits } = context;
  const end = (readings.cycle?.leadIn ?? 0) + (readings.cycle?.period ?? 0);
  if (entry.width > widestExplored || 2 ** entry.width > limits.states) return nothingExplored;
  const used = usedReadings(readings.values.slice(0, end));
  return yield* findTrapped(readings.run, entry, used, limits.states);
}

function heldInputs({ drive, inputs }: CountContext, plan: SettledPlan): Count['while'] {
  const heard = drive.inputs.filter(
    ({ signal }) => plan.positionOf[inputs.get(signal) ?? 0] >= 0 && inputs.has(signal),
  );
  return heard.map(({ name, value }) => ({ signal: name, value: readingText(value) }));
}

function stepsOf(context: CountContext, entry: CountEntry, { values, changes, cycle, run }: Readings): CountStep[] {
  const { arrivals, logic, delaySet, netlist } = context;
  const offsets = offsetsOf(netlist, entry);
  const last = cycle === null ? Math.min(listedUnproven, values.length) - 1 : cycle.leadIn + cycle.period;
  return changes.slice(0, last).map((moved, index) => {
    const timed = timeChanges(moved, run.machine, arrivals, logic, delaySet);
    const passes = timed === null ? [] : passesOf(digitsOf(values[index]), timed, offsets);
    return { from: readingText(values[index]), to: readingText(values[index + 1]), passes };
  });
}

/** Least significant first. */
function digitsOf(reading: Bits): string[] {
  return Array.from({ length: reading.width }, (_, bit) => digitAt(reading, bit));
}
