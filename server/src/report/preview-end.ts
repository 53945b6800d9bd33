// How long a preview runs: past the reset, until every recognized sequence has come round and two periods more, but at
// least sixteen and at most sixty-four periods of the slowest clock, so that it stays a page.

import type { Prediction } from '../predict/prediction';

/** Changes of all bits, drawn or not, that a page holds. */
export const previewChanges = 100_000;

const leastPeriods = 16;
const mostPeriods = 64;

/** ps */
export function previewEnd({ counts, drive }: Pick<Prediction, 'counts' | 'drive'>): number {
  const slowest = drive.clocks.reduce((most, { period }) => Math.max(most, period), 0);
  const released = drive.resets.reduce((most, { release }) => Math.max(most, release), 0);
  const longest = counts.reduce((most, { leadIn, period }) => Math.max(most, leadIn.length + (period ?? 0)), 0);
  const periods = Math.min(mostPeriods, Math.max(leastPeriods, longest + 2));
  return slowest === 0 ? quietEnd : released + periods * slowest;
}

/** Without a clock: long enough for what the start sets off. */
const quietEnd = 100_000;
