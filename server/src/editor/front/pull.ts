// Answers a client that asks for diagnostics: with those of reading where the rest takes longer, and then tells the client to
// ask again once the rest is there. A client that cannot be told so waits for the whole.

import type { DocumentDiagnosticParams, DocumentDiagnosticReport } from 'vscode-languageserver';
import type { FindingsDepth, Question } from '../worker-messages';
import type { LinkAnswer, Pending } from './back-link';
import { askFindings, findingsIn, type FindingsSteps } from './findings';

export interface PullTools {
  ask(question: Question): Pending<LinkAnswer>;
  /** Makes the client ask again; null where it cannot be told to. */
  readonly refresh: (() => void) | null;
}

export type PullOutcome =
  | { readonly kind: 'report'; readonly report: DocumentDiagnosticReport }
  | Exclude<LinkAnswer, { readonly kind: 'result' }>;

export function pullDiagnostics(
  { ask, refresh }: PullTools,
  { previousResultId, textDocument }: DocumentDiagnosticParams,
): Pending<PullOutcome> {
  const steps = askFindings(ask, textDocument.uri, { showsSome: previousResultId !== undefined });
  const answer = (refresh === null ? steps.whole : steps.first).then((found): PullOutcome => {
    if (found.kind === 'failed') return found;
    const findings = findingsIn(found);
    const next = findings === null ? null : nextStep(steps, findings.depth);
    void next?.then((more) => findingsIn(more) !== null && refresh?.());
    return { kind: 'report', report: reportOf(findings, previousResultId) };
  });
  return { answer, cancel: steps.cancel };
}

/** What goes further than what was told; null where nothing does. */
function nextStep({ early, whole }: FindingsSteps, depth: FindingsDepth): Promise<LinkAnswer> | null {
  if (depth === 'whole') return null;
  return depth === 'reading' ? early : whole;
}

function reportOf(findings: ReturnType<typeof findingsIn>, previous: string | undefined): DocumentDiagnosticReport {
  if (findings === null) return { kind: 'full', items: [] };
  if (findings.mark === previous) return { kind: 'unchanged', resultId: findings.mark };
  return { kind: 'full', resultId: findings.mark, items: [...findings.diagnostics] };
}
