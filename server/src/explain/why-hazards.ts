// Reasons of the findings in words: what stands at each related place.

import type { Sentences } from './why-sentence';

export const hazardSentences: Sentences = {
  'chain-stage': ({ register, stage }) => `${register} is stage ${stage}`,
  'derived-from': ({ clock, register }) => `${clock} is made by ${register}`,
  'clocks-register': ({ clock, register }) => `${clock} clocks ${register}`,
  'unclear-gate': ({ clock }) => `${clock} is made here`,
  'crossing-source': ({ name }) => `${name} is sampled by its own clock here`,
  'latch-declared': ({ latch }) => `${latch} is declared here`,
  'loop-member': ({ signal }) => `${signal} is part of the loop`,
  'sampled-here': ({ register }) => `${register} is sampled here`,
  'also-driven': ({ signal }) => `${signal} is driven here too`,
  'mixed-both-kinds': ({ signal }) => `${signal} is assigned by = here`,
  'mixed-nonblocking-in-level-process': ({ signal }) => `${signal} is assigned by <= here`,
  'mixed-blocking-read-elsewhere': ({ signal }) => `${signal} is read here at the same edge`,
};
