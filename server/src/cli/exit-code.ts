// The exit status that findings come to.

import type { ReportFinding } from '../report/report';

export type Severity = ReportFinding['severity'];

const ranks: Readonly<Record<Severity, number>> = { error: 3, warning: 2, information: 1, hint: 0 };

/** 1 where a finding that nobody has accepted is at least `failOn`. */
export function exitCodeOf(findings: readonly ReportFinding[], failOn: Severity | 'never'): 0 | 1 {
  if (failOn === 'never') return 0;
  return findings.some(({ accepted, severity }) => accepted === null && ranks[severity] >= ranks[failOn]) ? 1 : 0;
}
