// What a delay set does not state. What of it counts as 0 is said in a report's assumptions.

import type { DelaySet } from './delay-set';

/** Names of the entries that are null, in the order of the set's form. */
export function unstatedEntries(set: DelaySet): readonly string[] {
  return timedEntries.filter((name) => set[name] === null);
}

/** Entries that a set may leave open, in the order of its form. */
export const timedEntries = [
  'logic',
  'latch',
  'clear',
  'setup',
  'hold',
  'recovery',
  'removal',
  'width',
  'period',
  'tau',
  'window',
] as const;
