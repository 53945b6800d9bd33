// The sequences that chains and vector registers count through, as far as they are proven: start, lead-in, values, what
// kind of sequence, which states it never comes back from, and the readings passed between two values.

import type { Why } from '../clocks/network';
import { concat } from '../netlist/four-state-parts';
import { type CountEntry, type Reading, readingOf } from './counts-entry';
import { type CountContext, followReadings, type Readings } from './counts-run';
import { findTrapped, type Trapped } from './counts-trapped';
import type { Count, CountStep } from './prediction';
import { nameSequence } from './sequence';
import type { SettledPlan } from './settled-plan';

export interface CountResult {
  readonly count: Count;
  /** Null where the group could not be followed at all. */
  readonly readings: Readings | null;
}

/** Readings listed where no period is proven: enough to read along. */
const listedUnproven = 1024;

export function* countOf(context: CountContext, entry: CountEntry): Generator<void, CountResult> {
  const followed = yield* followReadings(context, entry);
  if (followed.kind === 'refused') return { count: refusedCount(context, entry, followed.why), readings: null };
  const readings = followed.value;
  const { cycle, values, run, why } = readings;
  const repeating = cycle === null ? [] : values.slice(cycle.leadIn, cycle.leadIn + cycle.period);
  const named = nameSequence(repeating, entry.width);
  const trapped = named.modulus === null ? nothingExplored : yield* trappedOf(context, entry, readings);
  const count: Count = {
    ...identityOf(entry),
    start: String(values[0]),
    leadIn: values.slice(0, cycle?.leadIn ?? 0).map(String),
    values: (cycle === null ? values.slice(0, listedUnproven) : repeating).map(String),
    period: cycle?.period ?? null,
    ...named,
    ...trapped,
    while: heldInputs(context, run.machine.plan),
    steps: stepsOf(readings),
    why,
  };
  return { count, readings };
}

const nothingExplored: Trapped = { trapped: [], explored: false };

function refusedCount({ start }: CountContext, entry: CountEntry, why: Why): Count {
  const reading = String(readingOf(concat(entry.registers.map((id) => start.register(id)).reverse())));
  return {
    ...identityOf(entry),
    start: reading,
    leadIn: [],
    values: [reading],
    period: null,
    kind: 'other',
    modulus: null,
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
  { values, cycle, run }: Readings,
): Generator<void, Trapped> {
  if (entry.width > 32 || 2 ** entry.width > limits.states) return nothingExplored;
  const used = new Set<Reading>(cycle === null ? [] : values.slice(0, cycle.leadIn + cycle.period));
  return yield* findTrapped(run, entry, used, limits.states);
}

function heldInputs({ drive, inputs }: CountContext, plan: SettledPlan): Count['while'] {
  const isHeard = (node: number | undefined) => node !== undefined && plan.positionOf[node] >= 0;
  const heard = drive.inputs.filter(({ signal }) => isHeard(inputs.get(signal)));
  return heard.map(({ name, value }) => ({ signal: name, value: String(readingOf(value)) }));
}

function stepsOf({ values, passes, cycle }: Readings): CountStep[] {
  const count = cycle === null ? Math.min(listedUnproven, values.length) - 1 : cycle.leadIn + cycle.period;
  return passes.slice(0, count).map((passed, index) => ({
    from: String(values[index]),
    to: String(values[index + 1]),
    passes: passed,
  }));
}
