// The findings of a report as SARIF 2.1.0 (OASIS), for programs that gather what tools find. One run, one result per
// finding; columns count UTF-16 units from one, as the report's own. What a person accepted is a suppressed result.

import { findingTitles } from '../explain/finding-titles';
import { findingIds } from './report-shape';
import type { Report, ReportFinding } from './report';
import type { Span } from '../text/place';

export function writeSarif(report: Report): string {
  const used = findingIds.filter((id) => report.findings.some((finding) => finding.id === id));
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Foretick',
            version: report.foretick,
            rules: used.map((id) => ({ id, shortDescription: { text: findingTitles[id] } })),
          },
        },
        columnKind: 'utf16CodeUnits',
        results: report.findings.map((finding) => resultOf(finding, used.indexOf(finding.id))),
        properties: { top: report.top, delaySet: report.delaySet.name, coverage: report.coverage },
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

const levels = { error: 'error', warning: 'warning', information: 'note', hint: 'note' } as const;

function resultOf(finding: ReportFinding, ruleIndex: number) {
  const { accepted, certainty, facts, id, instances, message, related, severity, signals, span } = finding;
  return {
    ruleId: id,
    ruleIndex,
    level: levels[severity],
    message: { text: message },
    locations: [
      {
        physicalLocation: locationOf(span),
        ...(signals.length === 0
          ? {}
          : { logicalLocations: signals.map((name) => ({ fullyQualifiedName: name, kind: 'variable' })) }),
      },
    ],
    ...(related.length === 0
      ? {}
      : {
          relatedLocations: related.map((other, index) => ({
            id: index + 1,
            physicalLocation: locationOf(other.span),
            message: { text: other.message },
          })),
        }),
    ...(accepted === null ? {} : { suppressions: [{ kind: 'external', justification: accepted.reason }] }),
    properties: { severity, certainty, instances, facts },
  };
}

function locationOf({ column, endColumn, endLine, file, line }: Span) {
  return {
    artifactLocation: { uri: uriOf(file) },
    region: { startLine: line, startColumn: column, endLine, endColumn },
  };
}

/** A path as a reference: what is relative stays so; of an absolute one the host is empty (RFC 8089). */
function uriOf(path: string): string {
  const segments = path.replaceAll('\\', '/').split('/');
  const drive = /^[A-Za-z]:$/.test(segments[0]);
  const encoded = segments
    .map((segment, index) => (drive && index === 0 ? segment : encodeURIComponent(segment)))
    .join('/');
  if (drive) return `file:///${encoded}`;
  return path.startsWith('/') ? `file://${encoded}` : encoded;
}
