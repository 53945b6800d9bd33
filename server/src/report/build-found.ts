// What was not named by the person and found in the workspace by its name, as entries of `assumptions[]`: which of several
// files was taken, or that a file was taken from a folder that nobody states.

import { whyWords } from '../explain/why';
import type { ReportAssumption } from './report';

export interface FoundElsewhere {
  /** several: more files than one hold it. folder: it stands where nobody told to look. */
  readonly kind: 'several' | 'folder';
  /** Of the module or package, or of the file as it is written. */
  readonly name: string;
  /** As a person is told of it. */
  readonly taken: string;
  /** How many other files would have done. */
  readonly others: number;
}

export function buildFound(found: readonly FoundElsewhere[]): readonly ReportAssumption[] {
  return found.map(({ kind, name, others, taken }) => ({
    about: name,
    value: taken,
    source: 'inferred',
    reason: whyWords({ reason: `found-${kind}`, args: { name, taken, others } }),
    span: null,
  }));
}
