// `switched-clock`: one of several clocks is chosen in a clock path.

import type { FindingRule } from './context';
import { findGates } from './gate-findings';

export const switchedClock: FindingRule = { id: 'switched-clock', find: (context) => findGates(context, 'switched') };
