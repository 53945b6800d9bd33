// `recovery-removal`: an asynchronous control let go so close to a clock edge that the edge may or may not sample
// (IEEE 1364-2005 15.2). Only of what a person, the text or the design itself lets go: an assumed reset's release is ours.

import type { FindingRule } from './context';
import { violationFindings } from './timing-violations';

export const recoveryRemoval: FindingRule = {
  id: 'recovery-removal',
  find: (context) => violationFindings(context, 'recovery-removal', kinds),
};

const kinds = new Set(['recovery', 'removal'] as const);
