// `findings[]` of the report: what reading complained about and what the stages found, worded, one per place in the
// source however many instances, with what a person has accepted.

import { complaintWords, macroTextWords } from '../explain/complaints';
import { findingWords } from '../explain/findings';
import { whyWords } from '../explain/why';
import type { Finding } from '../hazards/finding';
import { severityOf } from '../hazards/weights';
import type { Complaint } from '../text/complaint';
import type { Place } from '../text/place';
import type { StudyOptions } from './options';
import { inOrder, type Places } from '../explain/places';
import type { ReportFinding } from './report';
import type { TextAcceptance } from './text-acceptances';

export interface FindingSources {
  readonly options: StudyOptions;
  readonly places: Places;
  readonly complaints: readonly Complaint[];
  readonly findings: readonly Finding[];
  /** What comments in the text accept. */
  readonly acceptances: readonly TextAcceptance[];
  /** Modules that are not given and whose output clocks something. */
  readonly clockingModules: ReadonlySet<string>;
}

export function buildFindings(sources: FindingSources): readonly ReportFinding[] {
  const worded = [
    ...sources.complaints.map((complaint) => fromComplaint(sources, complaint)),
    ...sources.findings.map((finding) => fromFinding(sources, finding)),
  ];
  return inOrder(onePerPlace(worded), ({ instances, id }) => `${instances[0] ?? ''} ${id}`);
}

function fromComplaint(sources: FindingSources, complaint: Complaint): ReportFinding {
  const { places, clockingModules } = sources;
  const { id, args, place, reason, related } = complaint;
  return accepted(sources, {
    id,
    certainty: null,
    severity: severityOf(id, null, { drivesClock: clockingModules.has(String(args.module)) }),
    message: complaintWords(complaint),
    signals: [],
    instances: [],
    span: places.spanOf(place),
    related: [
      ...definitionsBehind(places, place),
      ...related.map((other) => ({ message: complaintWords(other), span: places.spanOf(other.place) })),
    ],
    facts: { reason, ...args },
    accepted: null,
  });
}

function fromFinding(sources: FindingSources, finding: Finding): ReportFinding {
  const { places } = sources;
  return accepted(sources, {
    id: finding.id,
    certainty: finding.certainty,
    severity: finding.severity,
    message: findingWords(finding),
    signals: finding.signals,
    // The top has no path of its own.
    instances: finding.instances.filter((path) => path !== ''),
    span: places.spanOf(finding.place),
    related: [
      ...finding.related.map(({ why, place }) => ({ message: whyWords(why), span: places.spanOf(place) })),
      ...definitionsBehind(places, finding.place),
    ],
    facts: finding.facts,
    accepted: null,
  });
}

/** A finding in the text of a macro stands at the use; the cause stands in the definition. */
function definitionsBehind(places: Places, place: Place): ReportFinding['related'] {
  const written = places.writtenIn(place);
  return written === null ? [] : [{ message: macroTextWords(written.macro), span: written.span }];
}

/** A person accepts by finding and signal, where `q` also stands for its bits, or at the line in the text. */
function accepted({ acceptances, options }: FindingSources, finding: ReportFinding): ReportFinding {
  const stated = options.accepted.find(({ id, signal }) => id === finding.id && isAbout(finding, signal));
  const entry = stated ?? acceptances.find((acceptance) => meets(acceptance, finding));
  return entry === undefined ? finding : { ...finding, accepted: { reason: entry.reason } };
}

export function meets({ file, id, line }: TextAcceptance, finding: Pick<ReportFinding, 'id' | 'span'>): boolean {
  return id === finding.id && file === finding.span.file && line === finding.span.line;
}

function isAbout({ signals }: ReportFinding, signal: string): boolean {
  return signals.some((name) => name === signal || name.replace(/\[[0-9:-]+\]$/, '') === signal);
}

/** Findings that say the same about the same place become one, with the signals and instances of all. */
function onePerPlace(findings: readonly ReportFinding[]): readonly ReportFinding[] {
  const merged = new Map<string, ReportFinding>();
  for (const finding of findings) {
    const { file, line, column, endLine, endColumn } = finding.span;
    // Two complaints about one place are two; a design finding says the same of every instance in other names.
    const words = finding.signals.length === 0 ? finding.message : '';
    const { id, certainty, facts, severity } = finding;
    // Two timing checks of one kind at one place are two as well.
    const check = facts.check ?? null;
    const key = JSON.stringify([id, certainty, severity, check, words, file, line, column, endLine, endColumn]);
    const first = merged.get(key);
    merged.set(key, first === undefined ? finding : joined(first, finding));
  }
  return [...merged.values()];
}

function joined(first: ReportFinding, next: ReportFinding): ReportFinding {
  return {
    ...first,
    signals: [...new Set([...first.signals, ...next.signals])],
    instances: [...new Set([...first.instances, ...next.instances])],
    accepted: first.accepted !== null && next.accepted !== null ? first.accepted : null,
  };
}
