// How a finding becomes a sentence: by its identifier, from its facts.

import type { Finding, FindingId } from '../hazards/finding';
import type { Facts } from './facts';

export type FindingSentences = Readonly<Partial<Record<FindingId, (facts: Facts, finding: Finding) => string>>>;
