// `narrow-pulse`: a clock or control whose pulse, or whose period, is shorter than the text or the delay set asks for
// (IEEE 1364-2005 15.3).

import type { FindingRule } from './context';
import { violationFindings } from './timing-violations';

export const narrowPulse: FindingRule = {
  id: 'narrow-pulse',
  find: (context) => violationFindings(context, 'narrow-pulse', kinds),
};

const kinds = new Set(['width', 'period'] as const);
