// Tries a cure: the changed text is studied as the first was, with the same options. It holds where the finding is gone,
// nothing new is found, and what was promised is kept: everything the reports know, or the readings at settled instants of
// one run from the start. What was looked at is said; what was not is not claimed.

import type { Finding } from '../hazards/finding';
import { type Change, compareReports } from '../report/compare';
import type { DesignFacts } from '../report/design-facts';
import type { Report, ReportFinding } from '../report/report';
import { type Study, study } from '../report/study';
import type { SliceParser } from '../syntax/slice-parser';
import { findBits } from '../explain/find-bits';
import { levelAt } from '../predict/wave-query';
import { countWords, shortListWords } from '../explain/words';
import { compareCircuits } from './same-circuit';
import { fileEdits, withEdits } from './edits';
import type { Cure, Promised, Proof, Proposal } from './cure';

/** Null where the text cannot be changed where the cure would. */
export function* proveCure(
  before: Study,
  parser: SliceParser,
  finding: Finding,
  { differs, edits: planned, promise, title }: Proposal,
): Generator<void, Cure | null> {
  const reading = yield* before.reading();
  const edits = fileEdits(reading, planned);
  if (edits === null) return null;
  const { input } = before;
  const after = study(
    { ...input, files: withEdits(input.files, edits), provided: withEdits(input.provided, edits), previous: reading },
    parser,
  );
  const [first, second] = [yield* before.report(), yield* after.report()];
  const { changes } = compareReports(first, second);
  const gained = gainedFindings(changes, second);
  const isGone = !second.findings.some(({ id, signals }) => id === finding.id && sameNames(signals, finding.signals));
  const kept = yield* keepsPromise(before, after, promise, changes);
  const proof: Proof = {
    holds: isGone && gained.length === 0 && kept.holds,
    says: [
      isGone ? `${finding.id} is gone` : `${finding.id} is still there`,
      gained.length === 0
        ? 'nothing new is found'
        : `found anew: ${shortListWords(
            gained.map(({ id }) => id),
            6,
          )}`,
      ...kept.says,
    ],
    gained,
    changes,
  };
  return { title, edits, differs, proof };
}

function gainedFindings(changes: readonly Change[], { findings }: Report): readonly ReportFinding[] {
  const gained = new Set(
    changes
      .filter(({ kind, what }) => kind === 'finding' && what === 'gained')
      .map(({ name }) => name.replace(/ \(\d+\)$/, '')),
  );
  return findings.filter(({ id, signals }) => gained.has([id, ...signals].join(' ')));
}

function sameNames(left: readonly string[], right: readonly string[]): boolean {
  return left.length === right.length && left.every((name, index) => name === right[index]);
}

interface Kept {
  readonly holds: boolean;
  readonly says: readonly string[];
}

function* keepsPromise(
  before: Study,
  after: Study,
  promise: Promised,
  changes: readonly Change[],
): Generator<void, Kept> {
  if (promise.kind === 'none') return { holds: true, says: [] };
  return promise.kind === 'circuit'
    ? yield* keepsCircuit(before, after, changes)
    : yield* keepsReadings(before, after, promise.registers);
}

function* keepsCircuit(before: Study, after: Study, changes: readonly Change[]): Generator<void, Kept> {
  const others = changes.filter(({ kind }) => kind !== 'finding');
  if (others.length > 0)
    return {
      holds: false,
      says: [
        `not as before: ${shortListWords(
          others.map(({ name }) => name),
          6,
        )}`,
      ],
    };
  const [first, second] = [yield* before.elaboration(), yield* after.elaboration()];
  if (first.netlist === null || second.netlist === null)
    return { holds: false, says: ['there is no circuit to compare'] };
  const sameness = yield* compareCircuits(first.netlist, second.netlist);
  switch (sameness.kind) {
    case 'proven':
      return {
        holds: true,
        says: ['the same next value of every register and the same outputs in every state, for all inputs'],
      };
    case 'tried':
      return {
        holds: true,
        says: [
          `the same next value of every register and the same outputs in ${sameness.times} random states; not proven for all`,
        ],
      };
    case 'different':
      return { holds: false, says: [`${sameness.name} would get another value`] };
    case 'unknown':
      return {
        holds: false,
        says: [
          'whether the circuit is the same cannot be told: it holds memories, loops or modules that are not given',
        ],
      };
  }
}

/** Settled instants looked at: just before the active edges of the first clock. */
const readingsCompared = 1024;

function* keepsReadings(before: Study, after: Study, registers: readonly string[]): Generator<void, Kept> {
  const [first, second] = [yield* before.design(), yield* after.design()];
  const [clock] = first?.prediction.drive.clocks ?? [];
  if (first === null || second === null || clock === undefined)
    return { holds: false, says: ['there is no run to compare'] };
  const until = clock.phase + readingsCompared * clock.period;
  const waves = [yield* before.waves(until), yield* after.waves(until)];
  const names = [...registers, ...outputsOf(first)];
  const reading = (facts: DesignFacts, index: number, at: number) =>
    names
      .flatMap((name) => findBits(facts.netlist, name) ?? [])
      .map(({ bit }) => (waves[index] === null ? '' : levelAt(waves[index], bit, at, 'before')))
      .join('');
  for (let edge = 0; edge < readingsCompared; edge++) {
    const at = clock.phase + edge * clock.period;
    if (reading(first, 0, at) !== reading(second, 1, at)) {
      return { holds: false, says: [`reads otherwise before edge ${edge} of ${clock.name}`] };
    }
    if (edge % 64 === 0) yield;
  }
  return {
    holds: true,
    says: [`the same readings before each of ${countWords(readingsCompared, 'edge')} of ${clock.name}`],
  };
}

function outputsOf({ netlist }: DesignFacts): readonly string[] {
  return netlist.signals
    .filter(({ instance, port }) => instance === netlist.top && port === 'output')
    .map(({ name }) => name);
}
