// A what-if as lines of text: what was asked, and the answer.

import type { ReportWhatIf } from './report';

/** None where none was asked. */
export function whatIfLines(whatIf: ReportWhatIf | null): readonly string[] {
  if (whatIf === null) return [];
  const { answer, asked, refused } = whatIf;
  const heads = asked.map(({ words }) => `with ${words}`);
  return [...heads, ...(refused === null ? answer : [`not told: ${refused}`])];
}
