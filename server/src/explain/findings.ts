// The sentence of every finding, from its facts. `hazards/` has decided; nothing is decided here.

import type { Finding, FindingId } from '../hazards/finding';
import { shortListWords } from './words';

export function findingWords(finding: Finding): string {
  return (
    sentences[finding.id]?.(finding) ?? `${finding.id.replaceAll('-', ' ')}: ${shortListWords(finding.signals, 8)}`
  );
}

const sentences: Readonly<Partial<Record<FindingId, (finding: Finding) => string>>> = {};
