// How long a preview runs: past the reset and the last stated change of an input, then until every recognized sequence
// has come round and two periods more, but at least sixteen and at most sixty-four periods of the slowest clock, so that
// it stays a page. Of an input that moves again and again, two rounds.

import type { DriveInput } from '../predict/drive';
import type { Prediction } from '../predict/prediction';

/** Changes of all bits, drawn or not, that a page holds. */
export const previewChanges = 100_000;

const leastPeriods = 16;
const mostPeriods = 64;

/** ps */
export function previewEnd({ counts, drive }: Pick<Prediction, 'counts' | 'drive'>): number {
  const slowest = drive.clocks.reduce((most, { period }) => Math.max(most, period), 0);
  const settled = Math.max(0, ...drive.resets.map(({ release }) => release), ...drive.inputs.map(lastChange));
  const longest = counts.reduce((most, { leadIn, period }) => Math.max(most, leadIn.length + (period ?? 0)), 0);
  const periods = Math.min(mostPeriods, Math.max(leastPeriods, longest + 2));
  return settled + (slowest === 0 ? quietEnd : periods * slowest);
}

/** Without a clock: long enough for what the start sets off. */
const quietEnd = 100_000;

function lastChange({ moves }: DriveInput): number {
  const last = moves?.changes[moves.changes.length - 1];
  return last === undefined ? 0 : last.at + (moves?.everyPs ?? 0);
}
