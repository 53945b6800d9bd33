// Holds a circuit's margin notes against the report: the only caller of the core from circuit tests. Both ways: a note
// that nothing meets is a failure, and so is a finding that no note expects. `factChecks` below is the list of facts.

import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Report, ReportChain, ReportClock, ReportFinding, ReportRegister } from '../../server/src/report/report';
import { type FileNote, type Note, readCircuit } from './notes';
import type { PreviewBand, PreviewData } from '../../server/src/report/preview-data';
import { type ReportOptions, reportOf, studyOf, toEnd, type Trace, wavesOf } from './report-of';

/** What does not agree, one sentence each; empty where all is well. */
export async function disagreements(path: string): Promise<string[]> {
  const circuit = readCircuit(basename(path), readFileSync(path, 'utf8'));
  const options = optionsOf(circuit.fileNotes);
  const report = await reportOf(circuit.files, options);
  const instants = circuit.notes.flatMap(({ fact }) => /^at (\d+) /.exec(fact)?.[1] ?? []).map(Number);
  const traceOf = instants.length === 0 ? noTrace : await wavesOf(circuit.files, Math.max(...instants) + 1, options);
  const asksPreview = circuit.notes.some(({ fact }) => /^(band|no-band|gap) /.test(fact));
  const preview = asksPreview ? toEnd((await studyOf(circuit.files, options)).preview()) : null;
  const expected = circuit.notes.filter((note) => note.fact.startsWith('finding '));
  return [
    ...circuit.notes.flatMap((note) => unmet(note, { report, traceOf, preview })),
    ...report.findings.filter((finding) => !expected.some((note) => meets(note, finding))).map(unexpected),
  ];
}

/** File notes: `top NAME`, `delays NAME`, `start 0|1|x`, `project {JSON}`, `limit NAME=N`; `because` is for the reader. */
function optionsOf(fileNotes: readonly FileNote[]): ReportOptions {
  const text = (keyword: string) => fileNotes.find((note) => note.keyword === keyword)?.text;
  for (const { keyword } of fileNotes) {
    if (!['top', 'delays', 'start', 'project', 'limit', 'because'].includes(keyword)) {
      throw new Error(`no such file note: ${keyword}`);
    }
  }
  const limits = fileNotes.filter((note) => note.keyword === 'limit').map((note) => note.text.split('='));
  return {
    top: text('top'),
    delays: text('delays'),
    start: text('start') as '0' | '1' | 'x' | undefined,
    project: text('project'),
    limits: Object.fromEntries(limits.map(([name, value]) => [name, Number(value)])),
  };
}

function unexpected(finding: ReportFinding): string {
  const { file, line, column } = finding.span;
  return `${file}:${line}:${column}: no note expects ${finding.certainty ?? ''} ${finding.severity} ${finding.id}: ${finding.message}`;
}

interface Found {
  readonly report: Report;
  /** By full name; runs to the last instant that a note asks for. */
  readonly traceOf: (name: string) => Trace;
  /** Null where no note asks for it. */
  readonly preview: PreviewData | null;
}

function noTrace(): never {
  throw new Error('no note asks for a level at an instant');
}

function unmet(note: Note, { preview, report, traceOf }: Found): string[] {
  const [word, ...rest] = note.fact.split(/\s+/);
  const check = factChecks[word];
  if (!check) throw new Error(`${note.file}:${note.line}: no such fact: '${word}'`);
  const found = check(note, rest, report, traceOf, preview);
  return found === true ? [] : [`${note.file}:${note.line}: ${note.subject}: expected '${note.fact}', found ${found}`];
}

/** True, or what was found instead. */
type FactCheck = (
  note: Note,
  words: readonly string[],
  report: Report,
  traceOf: (name: string) => Trace,
  preview: PreviewData | null,
) => true | string;

const factChecks: Readonly<Record<string, FactCheck>> = {
  /** clock NAME rising|falling */
  clock: ofRegisters((register) => `${register.clock.signal} ${register.clock.edge}`),
  /** root NAME rising|falling|either, or root none */
  root: ofRegisters((register) => (register.root ? `${register.root.signal} ${register.root.edge}` : 'none')),
  stage: ofRegisters((register) => String(register.stage)),
  /** of a register or latch */
  domain: (note, words, report) =>
    same(
      [...registersOf(note, report), ...latchesOf(note, report)].map(({ domain }) => domain ?? 'none'),
      words,
    ),
  start: ofRegisters((register) => register.start),
  'start-from': ofRegisters((register) => register.startFrom),
  ratio: ofRegisters((register) => register.ratio ?? 'none'),
  duty: ofRegisters((register) => register.duty ?? 'none'),
  constant: ofRegisters((register) => (register.constant ? '' : 'a register that moves')),
  /** typical, ps after the root edge */
  arrival: ofRegisters((register) => String(register.arrival?.typ ?? 'none')),
  settles: ofRegisters((register) => String(register.settles?.typ ?? 'none')),
  /** asynchronous NAME high|low, in priority order; or none */
  asynchronous: ofRegisters((register) => controls(register.asynchronous)),
  synchronous: ofRegisters((register) => controls(register.synchronous)),
  enable: ofRegisters((register) => (register.enable ? controls([register.enable]) : 'none')),
  'update-every': ofRegisters((register) => register.updateEvery ?? 'none'),
  /** no register | no latch: the subject is none. */
  no: (note, [what], report) =>
    (what === 'register' ? registersOf(note, report) : latchesOf(note, report)).length === 0 || `a ${what}`,
  /** latch intended|unintended */
  latch: (note, words, report) => {
    const found = latchesOf(note, report).map((latch) => (latch.intended ? 'intended' : 'unintended'));
    return same(found, words);
  },
  /** gate NAME high|low, or gate none: of a latch */
  gate: (note, words, report) =>
    same(
      latchesOf(note, report).map(({ gate }) => (gate === null ? 'none' : `${gate.signal} ${gate.active}`)),
      words,
    ),
  /** forced NAME high|low VALUE …: what sets and clears a latch, in priority order; or none */
  forced: (note, words, report) =>
    same(
      latchesOf(note, report).map(({ asynchronous }) =>
        asynchronous.length === 0
          ? 'none'
          : asynchronous.map(({ signal, active, value }) => `${signal} ${active} ${value}`).join(' '),
      ),
      words,
    ),
  /** at PS DIGITS: the level in the run after everything that happens at that instant; the subject is a full name */
  at: (note, [ps, ...digits], _report, traceOf) => same([traceOf(note.subject).at(Number(ps))], digits),
  /** window MIN TYP MAX: when the output has changed, ps after the root edge */
  window: ofRegisters(({ settles }) => (settles === null ? 'none' : triple(settles))),
  /** band FROM TO once|many exact|wide: in which a signal of the preview may change, ps from the start of the run */
  band: (note, words, _report, _traceOf, preview) => {
    const found = bandsOf(note, preview).map(
      ({ exact, from, moves, to }) => `${from} ${to} ${moves} ${exact ? 'exact' : 'wide'}`,
    );
    return found.includes(words.join(' ')) || found.join(', ') || 'none';
  },
  /** no-band FROM TO: nothing may change between these instants, ps */
  'no-band': (note, [from, to], _report, _traceOf, preview) => {
    const within = bandsOf(note, preview).filter((band) => band.to >= Number(from) && band.from <= Number(to));
    return within.length === 0 || within.map((band) => `${band.from} ${band.to}`).join(', ');
  },
  /** gap FROM TO: between these instants, ps, the group of which the subject is a part has no reading */
  gap: (note, words, _report, _traceOf, preview) => {
    const readings = (preview?.readings ?? []).filter(({ bits }) => bits.some((name) => isSubject(note, name)));
    const gaps = readings.flatMap(({ stretches }) => stretches.filter(({ value }) => value === null));
    const found = gaps.map(({ from, to }) => `${from} ${to}`);
    return found.includes(words.join(' ')) || found.join(', ') || 'none';
  },
  /** settle MIN TYP MAX FROM TO: of the chain that the subject is the first stage of, and its worst transition */
  settle: ofChains(({ settle, worst }) =>
    settle === null || worst === null ? 'none' : `${triple(settle)} ${worst.from} ${worst.to}`,
  ),
  /** rates MAX READABLE TOGGLE: the clock rates of a chain in Hz, or none */
  rates: ofChains(({ maxClockHz, readableClockHz, toggleClockHz }) =>
    [maxClockHz, readableClockHz, toggleClockHz].map((hertz) => (hertz === null ? 'none' : String(hertz))).join(' '),
  ),
  /** glitch certain|possible|none: whether a signal passes a wrong value, told by a finding of its own or with others */
  glitch: (note, words, report) => {
    const found = report.glitches.filter(({ signal }) => isSubject(note, signal)).map(({ certainty }) => certainty);
    return same(found.length === 0 ? ['none'] : found, words);
  },
  /** kind KIND [sound|unsound]: of a clock by its canonical name */
  kind: ofClocks((clock) => `${clock.kind}${clock.sound === null ? '' : clock.sound ? ' sound' : ' unsound'}`),
  'clock-ratio': ofClocks((clock) => clock.ratio ?? 'none'),
  'clock-duty': ofClocks((clock) => clock.duty ?? 'none'),
  /** counts up 16, counts gray: kind, and modulus where given, of the group that the subject is the first or only one of */
  counts: (note, words, report) => {
    const groups = report.counts.filter((count) => count.registers.some((name) => isSubject(note, name)));
    return same(
      groups.map((count) => [count.kind, ...(words.length > 1 ? [String(count.modulus)] : [])].join(' ')),
      words,
    );
  },
  /** reads 0,1,2,…: the values of the count up to as many as are given */
  reads: (note, words, report) => {
    const [values] = words;
    const group = report.counts.find((count) => count.registers.some((name) => isSubject(note, name)));
    const found = group?.values.slice(0, values.split('-').length).join('-') ?? 'no count';
    return found === values || found;
  },
  /** crossing bare|protected|assumed|accepted none|two-flop|…: of the register that samples */
  crossing: (note, words, report) => {
    const found = report.crossings.filter((crossing) => isSubject(note, crossing.to));
    return same(
      found.map((crossing) => `${crossing.status} ${crossing.synchronizer}`),
      words,
    );
  },
  /** held DIGITS: the level that an input is held at */
  held: (note, words, report) =>
    same(
      report.drive.inputs.filter(({ signal }) => signal === note.subject).map(({ value }) => value),
      words,
    ),
  /** held-for N: periods of its clock for which a reset is active */
  'held-for': (note, words, report) =>
    same(
      report.drive.resets.filter(({ signal }) => signal === note.subject).map(({ periods }) => String(periods)),
      words,
    ),
  /** form registered|decoded|…: of an output port */
  form: (note, words, report) =>
    same(
      report.outputs.filter((output) => output.name === note.subject).map((output) => output.form),
      words,
    ),
  /** finding ID [certain|possible] [error|warning|information|hint] */
  finding: (note, _words, report) => {
    if (report.findings.some((finding) => meets(note, finding))) return true;
    const near = report.findings.filter((finding) => overlaps(note, finding)).map(describe);
    return near.length > 0 ? near.join('; ') : 'no finding there';
  },
  /** No finding at the subject: a silence stated on purpose. */
  quiet: (note, _words, report) => {
    const found = report.findings.filter((finding) => overlaps(note, finding)).map(describe);
    return found.length === 0 || found.join('; ');
  },
};

function ofRegisters(read: (register: ReportRegister) => string): FactCheck {
  return (note, words, report) => same(registersOf(note, report).map(read), words);
}

function ofClocks(read: (clock: ReportClock) => string): FactCheck {
  return (note, words, report) => same(report.clocks.filter((clock) => isSubject(note, clock.signal)).map(read), words);
}

function ofChains(read: (chain: ReportChain) => string): FactCheck {
  return (note, words, report) =>
    same(report.chains.filter(({ registers }) => isSubject(note, registers[0])).map(read), words);
}

function bandsOf(note: Note, preview: PreviewData | null): readonly PreviewBand[] {
  return (preview?.traces ?? []).filter(({ name }) => isSubject(note, name)).flatMap(({ settling }) => settling);
}

function triple({ min, typ, max }: { readonly min: number; readonly typ: number; readonly max: number }): string {
  return `${min} ${typ} ${max}`;
}

/** Every one found must say what is expected, and there must be one. */
function same(found: readonly string[], words: readonly string[]): true | string {
  if (found.length === 0) return 'none of that name';
  const different = found.filter((text) => text !== words.join(' '));
  return different.length === 0 || different.map((text) => `'${text}'`).join(', ');
}

function registersOf(note: Note, report: Report): readonly ReportRegister[] {
  return report.registers.filter((register) => isSubject(note, register.name));
}

function latchesOf(note: Note, report: Report): Report['latches'] {
  return report.latches.filter((latch) => isSubject(note, latch.name));
}

/** A subject `q` stands for `q`, `q[3]`, `q[3:0]` and `u1.q` of any instance; `q[3]` for that bit alone. */
function isSubject(note: Note, name: string): boolean {
  const local = name.slice(name.lastIndexOf('.') + 1);
  return local === note.subject || local.replace(/\[[^\]]*\]$/, '') === note.subject || name === note.subject;
}

function controls(list: readonly { readonly signal: string; readonly active: string }[]): string {
  return list.length === 0 ? 'none' : list.map(({ signal, active }) => `${signal} ${active}`).join(' ');
}

function meets(note: Note, finding: ReportFinding): boolean {
  const [, id, ...qualities] = note.fact.split(/\s+/);
  return (
    finding.id === id &&
    overlaps(note, finding) &&
    qualities.every((quality) => quality === finding.certainty || quality === finding.severity)
  );
}

function overlaps(note: Note, { span }: ReportFinding): boolean {
  if (span.file !== note.file || note.line < span.line || note.line > span.endLine) return false;
  // Something missing is told where it should stand: right behind the word before it.
  const startsAfter = note.line === span.line && note.endColumn < span.column;
  const endsBefore = note.line === span.endLine && note.column >= span.endColumn;
  return !startsAfter && !endsBefore;
}

function describe(finding: ReportFinding): string {
  return `${finding.certainty ?? ''} ${finding.severity} ${finding.id}`.trim();
}
