// The sentences of findings about glitches.

import type { FindingSentences } from './finding-sentence';

export const glitchFindings: FindingSentences = {};
