// The answer to a what-if: the reports of both compared, the courses of signals in words, and the traces that would run
// otherwise, to be drawn under the ones they differ from.

import { sequenceWords } from '../explain/sequence';
import { askedWords, courseWords, findingWords, insteadWords, nothingWords } from '../explain/what-if';
import { timeWords } from '../text/time-words';
import { compareReports } from './compare';
import type { PreviewData, PreviewTrace, PreviewWhatIf } from './preview-data';
import type { Report, ReportWhatIf } from './report';
import type { WhatIf } from './asked';

export interface Told {
  readonly report: Report;
  readonly preview: PreviewData;
}

export interface WhatIfAnswer {
  readonly ofReport: ReportWhatIf;
  readonly ofPreview: PreviewWhatIf;
}

/** Where the design cannot be asked so, nothing differs and `refused` says why. */
export function buildWhatIf(
  asked: readonly WhatIf[],
  refusals: readonly string[],
  now: Told,
  then: Told,
): WhatIfAnswer {
  const items = asked.map((item) => ({ ...item, words: askedWords(item) }));
  if (refusals.length > 0) {
    const ofReport = { asked: items, refused: refusals.join('; '), answer: [], changes: [] };
    return { ofReport, ofPreview: { ...ofReport, traces: [] } };
  }
  const { changes } = compareReports(now.report, then.report);
  const courses = coursesOf(now.preview, then.preview);
  const words = [
    ...sequenceChanges(now.report, then.report),
    ...chainChanges(now.report, then.report),
    ...findingChanges(now.report, then.report),
    ...courses.flatMap(({ sentence }) => (sentence === null ? [] : [sentence])),
  ];
  const ofReport = { asked: items, refused: null, answer: words.length === 0 ? [nothingWords] : words, changes };
  return { ofReport, ofPreview: { ...ofReport, traces: courses.map(({ trace }) => trace) } };
}

/** By trace of what is drawn now: how the trace of that name would run, where otherwise; a sentence unless it is a part. */
function coursesOf(now: PreviewData, then: PreviewData) {
  const named = new Map(then.traces.map((trace) => [trace.name, trace]));
  const end = Math.min(now.end, then.end);
  return now.traces.flatMap((trace, index) => {
    const other = named.get(trace.name);
    if (other === undefined || other.width !== trace.width) return [];
    const [before, after] = [courseOf(trace, end), courseOf(other, end)];
    const sentence = courseWords(before, after);
    if (sentence === null) return [];
    const { at, start, value } = after;
    return [
      { trace: { trace: index, start, changes: { at, value } }, sentence: trace.parent === null ? sentence : null },
    ];
  });
}

function courseOf({ changes, name, start }: PreviewTrace, end: number) {
  const count = changes.at.findIndex((at) => at >= end);
  const kept = count < 0 ? changes.at.length : count;
  return { name, start, at: changes.at.slice(0, kept), value: changes.value.slice(0, kept) };
}

function sequenceChanges(now: Report, then: Report): readonly string[] {
  return changedWords(now.counts, then.counts, sequenceWords);
}

function chainChanges(now: Report, then: Report): readonly string[] {
  return changedWords(now.chains, then.chains, ({ settle }) =>
    settle === null ? 'settles at no known time' : `settles within ${timeWords(settle.max)}`,
  );
}

/** Of what both have, by the registers that it is about. */
function changedWords<Entry extends { readonly registers: readonly string[] }>(
  now: readonly Entry[],
  then: readonly Entry[],
  wordsOf: (entry: Entry) => string,
): readonly string[] {
  const nameOf = ({ registers }: Entry) => registers.join(' ');
  const later = new Map(then.map((entry) => [nameOf(entry), wordsOf(entry)]));
  return now.flatMap((entry) => {
    const [before, after] = [wordsOf(entry), later.get(nameOf(entry))];
    return after === undefined || after === before ? [] : [insteadWords(nameOf(entry), before, after)];
  });
}

function findingChanges(now: Report, then: Report): readonly string[] {
  const keyOf = ({ id, signals }: Report['findings'][number]) => [id, ...signals].join(' ');
  const [before, after] = [new Set(now.findings.map(keyOf)), new Set(then.findings.map(keyOf))];
  const gained = then.findings.filter((finding) => !before.has(keyOf(finding)));
  const lost = now.findings.filter((finding) => !after.has(keyOf(finding)));
  return [
    ...gained.map(({ id, signals }) => findingWords(id, signals, 'gained')),
    ...lost.map(({ id, signals }) => findingWords(id, signals, 'lost')),
  ];
}
