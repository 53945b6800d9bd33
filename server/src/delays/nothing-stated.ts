// What a data sheet or a project file leaves out.

import type { DelaySet } from './delay-set';

export const nothingStated = {
  stagesPerPart: null,
  logic: null,
  latch: null,
  clear: null,
  setup: null,
  hold: null,
  recovery: null,
  removal: null,
  width: null,
  period: null,
  tau: null,
  window: null,
} satisfies Partial<DelaySet>;
