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
};
