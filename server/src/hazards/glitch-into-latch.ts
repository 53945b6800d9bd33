// `glitch-into-latch`: decoded logic that can pulse is a latch's gate: it may open for a moment and keep what it met.

import type { FindingRule } from './context';
import { findIntoEnd } from './glitch-findings';

export const glitchIntoLatch: FindingRule = {
  id: 'glitch-into-latch',
  find: (context) => findIntoEnd(context, 'glitch-into-latch', 'latch'),
};
