// `gated-clock`: a gate with a control in a clock path.

import type { FindingRule } from './context';
import { findGates } from './gate-findings';

export const gatedClock: FindingRule = { id: 'gated-clock', find: (context) => findGates(context, 'gated') };
