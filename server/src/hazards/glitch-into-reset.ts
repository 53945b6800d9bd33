// `glitch-into-reset`: decoded logic that can pulse is an asynchronous set or reset, which acts as a level at any time.

import type { FindingRule } from './context';
import { findIntoEnd } from './glitch-findings';

export const glitchIntoReset: FindingRule = {
  id: 'glitch-into-reset',
  find: (context) => findIntoEnd(context, 'glitch-into-reset', 'reset'),
};
