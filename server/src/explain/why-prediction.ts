// Reasons of the prediction in words: why a sequence was not followed or a period not proven.

import type { Sentences } from './why-sentence';

export const predictionSentences: Sentences = {
  'period-not-proven': ({ limit }) => `no repetition within ${limit} edges (limits.period)`,
  'clock-stands-still': () => 'its clock does not move',
  'clock-without-root': () => 'a clock on the way has no single root',
  'nothing-clocked': () => 'nothing on the way is clocked',
  'several-clocks': ({ clocks }) => `several clocks take part: ${clocks}`,
  'rate-not-proven': () => 'no repetition is proven of what it hears',
  'rate-of-still': () => 'it does not come and go, or is unknown at some time',
  'rate-of-source': () => 'it is driven from outside and held, or moves as stated',
  'input-repeats': ({ input }) => `${input} does not come to rest: it moves again and again, as stated`,
  'input-late': ({ limit }) => `the drive comes to rest only after ${limit} periods (limits.period)`,
  'clock-not-driven': ({ clock }) => `${clock} is not driven as a clock`,
  'states-loop': () => 'its next value is made by logic that feeds itself',
  'states-logic': ({ limit }) => `its next value is made by more than ${limit} operators`,
  'states-inputs': () => 'its next value is taken from elsewhere, not decided',
  'states-data': () => 'its next value is taken from elsewhere, not decided, or is unknown',
  'states-states': ({ limit }) => `it has more than ${limit} states`,
  'states-work': () => 'following its states is more work than the limit allows (limits.states)',
  'states-start': () => 'its start is unknown',
  'states-cleared': () => 'logic sets or clears it between the edges of its clock',
  'states-several-clocks': () => 'its bits have several clocks, and no period of them is proven',
};
