// Findings as diagnostics of one document: those of reading alone, which are there at once, or all. A finding in a file that
// the document includes or whose module it instantiates stands where the document brings that in, and names the real place.

import type { Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity } from 'vscode-languageserver';
import { buildFindings } from '../../report/build-findings';
import { placeInFile } from '../../report/place-in-file';
import type { ReportFinding } from '../../report/report';
import type { Answers, Study } from '../../report/study';
import { acceptancesIn } from '../../report/text-acceptances';
import type { Span } from '../../text/place';
import { locationOf, rangeOf } from './positions';

export interface DiagnosticSettings {
  /** Whether hints about what does no harm are shown. */
  readonly harmless: boolean;
}

/** What reading alone found. */
export function* readingDiagnostics(
  study: Study,
  path: string,
  settings: DiagnosticSettings,
): Generator<void, Diagnostic[]> {
  const { complaints, files } = yield* study.reading();
  const findings = buildFindings({
    options: study.input.options,
    places: yield* study.places(),
    complaints,
    findings: [],
    acceptances: acceptancesIn(files),
    clockingModules: new Set(),
  });
  return yield* diagnosticsOf(study, path, findings, settings);
}

/** `answers`: of the same study. */
export function* diagnostics(
  study: Study,
  answers: Answers,
  path: string,
  settings: DiagnosticSettings,
): Generator<void, Diagnostic[]> {
  const { findings } = yield* answers.report();
  return yield* diagnosticsOf(study, path, findings, settings);
}

/** The whole document's: a project file or a setting that cannot be followed is no fact about the Verilog. */
export function refusalDiagnostic(words: string): Diagnostic {
  const start = { line: 0, character: 0 };
  return { range: { start, end: start }, severity: severities.error, source, message: words };
}

/** What a person has accepted is not shown; the report keeps it with the reason. */
function* diagnosticsOf(
  study: Study,
  path: string,
  findings: readonly ReportFinding[],
  { harmless }: DiagnosticSettings,
): Generator<void, Diagnostic[]> {
  const shown = findings.filter(({ accepted, severity }) => accepted === null && (harmless || severity !== 'hint'));
  const found: Diagnostic[] = [];
  for (const finding of shown) {
    const place = yield* placeInFile(study, path, finding.span);
    found.push(diagnosticOf(finding, place ?? startOf(path)));
  }
  return found;
}

function diagnosticOf(finding: ReportFinding, place: Span): Diagnostic {
  const { id, message, related, severity, span } = finding;
  const isHere = place === span;
  const elsewhere = isHere ? [] : [{ location: locationOf(span), message }];
  const others = related.map((other) => ({ location: locationOf(other.span), message: other.message }));
  const places: DiagnosticRelatedInformation[] = [...elsewhere, ...others];
  return {
    range: rangeOf(place),
    severity: severities[severity],
    code: id,
    source,
    message: isHere ? message : `${nameOf(span.file)}, line ${span.line}: ${message}`,
    ...(places.length === 0 ? {} : { relatedInformation: places }),
  };
}

/** What comes in by no way that could be found is told all the same. */
function startOf(file: string): Span {
  return { file, line: 1, column: 1, endLine: 1, endColumn: 1 };
}

function nameOf(file: string): string {
  return file.slice(file.lastIndexOf('/') + 1);
}

const source = 'foretick';

/** Numbers of the protocol's `DiagnosticSeverity` (3.17, Diagnostic). */
const severities: Readonly<Record<ReportFinding['severity'], DiagnosticSeverity>> = {
  error: 1,
  warning: 2,
  information: 3,
  hint: 4,
};
