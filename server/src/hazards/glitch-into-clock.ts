// `glitch-into-clock`: decoded logic that can pulse clocks a register: it may sample at an edge that nobody meant.

import type { FindingRule } from './context';
import { findIntoEnd } from './glitch-findings';

export const glitchIntoClock: FindingRule = {
  id: 'glitch-into-clock',
  find: (context) => findIntoEnd(context, 'glitch-into-clock', 'clock'),
};
