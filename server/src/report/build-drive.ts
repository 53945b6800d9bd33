// `drive`, `delaySet` and `assumptions[]` of the report: what the prediction stands on.

import { whyWords } from '../explain/why';
import { toBinary } from '../netlist/four-state';
import type { DelaySet } from '../delays/delay-set';
import { everySet, statedEntries } from '../delays/own-delays';
import type { DelayTriple } from '../netlist/netlist';
import type { DriveClock, DriveInput } from '../predict/drive';
import { buildFound } from './build-found';
import { type DesignFacts, shortened } from './design-facts';
import type { StudyOptions } from './options';
import type { OwnDelaysUse } from './own-delays';
import type {
  ReportAssumption,
  ReportDelaySet,
  ReportDrive,
  ReportInput,
  ReportOverride,
  ReportStudiedDelays,
} from './report';
import { specifiedDelays, unstatedDelays } from './unstated-delays';

export function buildDrive(facts: DesignFacts): ReportDrive {
  const { drive } = facts.prediction;
  return {
    clocks: drive.clocks.map(buildClock),
    resets: drive.resets.map(({ name, active, periods, source, activeSource, periodsSource }) => ({
      signal: name,
      active,
      periods,
      source,
      activeSource,
      periodsSource,
    })),
    inputs: drive.inputs.map((input) => buildInput(facts, input)),
  };
}

function buildInput(facts: DesignFacts, { moves, name, source, value }: DriveInput): ReportInput {
  const held = { signal: name, value: toBinary(value), source };
  if (moves === null) return { ...held, moves };
  const changes = shortened(facts, moves.changes).map((change) => ({ ...change, value: toBinary(change.value) }));
  return { ...held, moves: { changes, changesTotal: moves.changes.length, everyPs: moves.everyPs } };
}

function buildClock(clock: DriveClock): ReportDrive['clocks'][number] {
  const { exactPeriod, high, highSource, name, period, phase, phaseSource, source } = clock;
  const exact = exactPeriod === null ? period : `${exactPeriod.numerator}/${exactPeriod.denominator}`;
  return { signal: name, period: exact, high, phase, source, highSource, phaseSource };
}

export function buildDelaySet(set: DelaySet, { isDelaySetStated }: StudyOptions): ReportDelaySet {
  const { name, sheet, conditions } = set;
  const source = isDelaySetStated ? 'given' : 'setting';
  return { name, sheet, conditions, source, spread: everySet(set).some(hasSpread) };
}

/** The set, and for what it does not hold: in the order of the project file. */
export function buildStudiedDelays(
  set: DelaySet,
  options: StudyOptions,
  ownDelays: readonly OwnDelaysUse[],
): ReportStudiedDelays {
  return { ...buildDelaySet(set, options), overrides: ownDelays.filter(({ isKnown }) => isKnown).map(buildOverride) };
}

function buildOverride({ latches, name, operators, registers, stated }: OwnDelaysUse): ReportOverride {
  const entries = statedEntries(stated).filter((entry) => entry !== 'sheet' && entry !== 'conditions');
  return { name, sheet: stated.sheet, conditions: stated.conditions, entries, registers, latches, operators };
}

/** In the order in which they were made: the drive's own, by what they are about; then delays; then what was found by name. */
export function buildAssumptions(facts: DesignFacts): readonly ReportAssumption[] {
  const { prediction, places } = facts;
  const ofDrive = prediction.drive.assumptions.map(({ about, value, source, why, place }) => ({
    about,
    value,
    source,
    reason: whyWords(why),
    span: place === null ? null : places.spanOf(place),
  }));
  return [...ofDrive, ...unstatedDelays(facts), ...specifiedDelays(facts), ...buildFound(facts.options.found ?? [])];
}

/** Whether some delay's minimum differs from its maximum. */
function hasSpread(set: DelaySet): boolean {
  const pairs = [set.clockToQ.first, set.clockToQ.next, set.latch, set.clear, ...Object.values(set.logic ?? {})];
  const checks = [set.setup, set.hold, set.recovery, set.removal, set.width, set.period, set.tau, set.window];
  const triples = [...pairs.flatMap((pair) => (pair ? [pair.rise, pair.fall] : [])), ...checks];
  return triples.some((triple: DelayTriple | null) => triple !== null && triple.min !== triple.max);
}
