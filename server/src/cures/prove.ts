// Tries a cure: the changed text is studied as the first was, with the same options. It holds where the finding is gone,
// nothing new is found, and what was promised is kept: everything the reports know, or the readings at settled instants.
// What was looked at is said; what was not is not claimed.

import type { Finding } from '../hazards/finding';
import { compareReports } from '../report/compare';
import type { Change } from '../report/comparison';
import type { Report, ReportFinding } from '../report/report';
import { type Study, study } from '../report/study';
import type { SliceParser } from '../syntax/slice-parser';
import { shortListWords } from '../explain/words';
import { compareCircuits } from './same-circuit';
import { fileEdits, withEdits } from './edits';
import type { Cure, Promised, Proof, Proposal } from './cure';
import { type Kept, keepsReadings } from './keeps-readings';

/** Null where the text cannot be changed where the cure would. */
export function* proveCure(
  before: Study,
  parser: SliceParser,
  finding: Finding,
  { asks = [], differs, edits: planned, frees, promise, title, uncovers = [] }: Proposal,
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
  const found = gainedFindings(changes, second).filter((one) => !first.findings.some((known) => isSame(one, known)));
  const uncovered = found.filter(({ id, severity }) => severity === 'information' && uncovers.includes(id));
  const gained = found.filter((one) => !uncovered.includes(one));
  const isLeft = ({ signals }: ReportFinding) =>
    frees === undefined ? sameNames(signals, finding.signals) : frees.some((name) => signals.includes(name));
  const isGone = !second.findings.some((one) => one.id === finding.id && isLeft(one));
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
      ...uncovered.map(({ message }) => `as before, told by itself now: ${message}`),
      ...kept.says,
    ],
    gained,
    changes,
  };
  return { title, edits, differs, asks: [...asks, ...(kept.asks ?? [])], proof };
}

/**
 * What is left of a finding that told several things together is nothing new; nor is one more register behind a reset, or the
 * same registers clocked by a signal of another name.
 */
function isSame({ id, signals }: ReportFinding, known: ReportFinding): boolean {
  if (id !== known.id) return false;
  if (id === 'reset-release') return signals[0] === known.signals[0];
  const about = id === 'derived-clock' ? signals.slice(1) : signals;
  return about.every((name) => known.signals.includes(name));
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

function* keepsPromise(
  before: Study,
  after: Study,
  promise: Promised,
  changes: readonly Change[],
): Generator<void, Kept> {
  if (promise.kind === 'none') return { holds: true, says: changeWords(changes) };
  return promise.kind === 'circuit'
    ? yield* keepsCircuit(before, after, changes)
    : yield* keepsReadings(yield* before.design(), yield* after.design(), promise);
}

/** What else the two reports differ in. */
function changeWords(changes: readonly Change[]): readonly string[] {
  const told = changes
    .filter(({ kind }) => kind !== 'finding')
    .map(({ kind, name, what }) => `${kind} ${name} ${what}`);
  return [told.length === 0 ? 'nothing else changes in the report' : `in the report: ${shortListWords(told, 8)}`];
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
