// The part of the text report that says what is wrong and what silence is worth: findings, assumptions, coverage.
// `no findings` never stands without what was not analyzed.

import { countWords, shortListWords } from '../explain/words';
import type { Span } from '../text/place';
import type { Report, ReportFinding } from './report';
import { columns } from './text-layout';

/** Longer lists are cut: the JSON has them whole. */
const shown = 8;

export function findingLines(report: Report): readonly string[] {
  if (report.findings.length > 0) return report.findings.flatMap(linesOf);
  return [isWhole(report) ? 'no findings' : 'no findings in what was analyzed; what was not stands below'];
}

function linesOf(finding: ReportFinding): readonly string[] {
  const { id, severity, certainty, span, message, instances, related, accepted } = finding;
  return [
    `${placeWords(span)}  ${severity}  ${id}${certainty === null ? '' : `, ${certainty}`}`,
    `  ${message}`,
    ...(instances.length > 1 ? [`  in ${shortListWords(instances, 4)}`] : []),
    ...related.slice(0, shown).map((other) => `  see ${placeWords(other.span)}: ${other.message}`),
    ...(related.length > shown ? [`  and ${related.length - shown} more places`] : []),
    ...(accepted === null ? [] : [`  accepted: ${accepted.reason}`]),
  ];
}

export function placeWords({ file, line, column }: Span): string {
  return `${file}:${line}:${column}`;
}

export function assumptionLines({ assumptions }: Report): readonly string[] {
  return columns(assumptions.map(({ about, reason, value }) => [about, value, reason]));
}

/** Says so where nothing was left out: an empty section would be read as a section left out. */
export function coverageLines(report: Report): readonly string[] {
  const { coverage } = report;
  const lines: string[] = [];
  if (coverage.skipped.length > 0) {
    const places = coverage.skipped.map(({ span }) => placeWords(span));
    lines.push(`not read: ${countWords(places.length, 'construct')} (${shortListWords(places, shown)})`);
  }
  if (coverage.blackBoxes.length > 0) {
    const boxes = coverage.blackBoxes.map(({ instance, module }) => `${instance} of ${module}`);
    lines.push(`modules not given: ${shortListWords(boxes, shown)}`);
  }
  if (coverage.unrooted.length > 0)
    lines.push(`registers without one clock: ${shortListWords(coverage.unrooted, shown)}`);
  for (const { name, limit, span } of coverage.limits) {
    lines.push(`limit ${name} (${limit}) reached${span === null ? '' : ` at ${placeWords(span)}`}`);
  }
  if (lines.length === 0) lines.push('nothing was left out of what was read');
  return [...lines, crossingWords(coverage)];
}

function crossingWords({ checked, assumed, notChecked }: Report['coverage']): string {
  return `crossings between clock domains: ${checked} judged, ${assumed} under an assumption, ${notChecked} not judged`;
}

function isWhole({ coverage, top }: Report): boolean {
  const { skipped, blackBoxes, unrooted, limits, notChecked } = coverage;
  return top !== null && skipped.length + blackBoxes.length + unrooted.length + limits.length + notChecked === 0;
}
