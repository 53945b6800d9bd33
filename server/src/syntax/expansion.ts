// What an expansion works on and leaves behind: the text being read, where output goes, what was noted.

import { type Budget, budget, type Limits } from '../budget';
import type { LineIndex } from '../text/line-index';
import type { Site, WrittenAt } from '../text/origin';
import type { FileOffset, FileRange, UnitOffset } from '../text/place';
import { append, type Chunk, emptySink, markOf, rewind, type Sink, type SinkMark } from './chunks';
import type { Settings } from './directives';
import type { FileShelf } from './includes';
import type { Macro, Stretch } from './macros';
import type { Reason, ReasonTable } from './reasons';
import { type Remark, remark } from './remark';

/** A macro and the file that its definition stands in; null for one that came with the options. */
export interface DefinedMacro extends Macro {
  readonly file: number | null;
}

/** What one file leaves to the next (IEEE 1364-2005 clause 19). Changed by expanding a file. */
export interface CarriedState {
  readonly macros: Map<string, DefinedMacro>;
  /** Every definition so far by its macro's name, removed or not: where the first one stands. */
  readonly definitions: Map<string, DefinitionAt>;
  settings: Settings;
}

/** A `define in a file as typed; line from one. */
export interface DefinitionAt {
  readonly file: number;
  readonly line: number;
}

export interface ExpansionOptions {
  readonly includeFolders: readonly string[];
  readonly limits: Limits;
  readonly shelf: FileShelf;
}

/** Text being read: a file, or the body of a macro at one use. */
export interface Source {
  readonly kind: 'file' | 'macro';
  readonly text: string;
  /** Index of the file that is read, or in which the use stands. */
  readonly file: number;
  /** What this text came through. */
  readonly site: Site | null;
  /** For a macro: the use as typed in a file. */
  readonly range: FileRange | null;
  /** For a macro: where its text is written; null where that is no file. */
  readonly written: WrittenAt | null;
  /** What the names of a macro's parameters stand for at this use. */
  readonly formals: ReadonlyMap<string, readonly Chunk[]>;
  readonly includeDepth: number;
  readonly macroDepth: number;
}

export interface Run {
  readonly carried: CarriedState;
  readonly options: ExpansionOptions;
  /** The file's expanded text. */
  readonly main: Sink;
  /** Where output goes now: `main`, or the expansion of an argument. */
  sink: Sink;
  readonly work: Budget;
  readonly remarks: Remark[];
  readonly settings: { readonly offset: number; readonly settings: Settings }[];
  readonly wanted: Set<string>;
  /** Files that led back to themselves until the limit: not included again. */
  readonly refused: Set<number>;
  /** What `line has said of a file being read, by its index. */
  readonly renumbered: Map<number, Renumbering>;
  /** Lines of files, once asked for. */
  readonly lineIndices: Map<number, LineIndex>;
  /** The main text's length before the outermost use or include now being expanded. */
  safe: SinkMark;
  stopped: boolean;
}

/** `line: the line behind `offset` counts as `line` of `path`. */
export interface Renumbering {
  readonly offset: number;
  readonly line: number;
  readonly path: string;
}

export function openRun(carried: CarriedState, options: ExpansionOptions): Run {
  const main = emptySink();
  return {
    carried,
    options,
    main,
    sink: main,
    work: budget(options.limits, 'expandedCharacters'),
    remarks: [],
    settings: [{ offset: 0, settings: carried.settings }],
    wanted: new Set(),
    refused: new Set(),
    renumbered: new Map(),
    lineIndices: new Map(),
    safe: markOf(main),
    stopped: false,
  };
}

/** What a stretch of the source is in a file as typed: inside a macro's text, the whole use. */
export function typedRange(source: Source, { start, end }: Stretch): FileRange {
  return source.range ?? { file: source.file, start: start as FileOffset, end: end as FileOffset };
}

/** Passes a stretch of the source on as it stands. */
export function copyStretch(run: Run, source: Source, { start, end }: Stretch): void {
  const { kind, site, written } = source;
  emit(run, {
    text: source.text.slice(start, end),
    kind: kind === 'file' ? 'copied' : 'made',
    range: typedRange(source, { start, end }),
    site,
    written: written === null ? null : { file: written.file, start: (written.start + start) as FileOffset },
  });
}

/** Text that stands for a stretch of the source without being it. */
export function makeText(run: Run, source: Source, stretch: Stretch, text: string): void {
  emit(run, { text, kind: 'made', range: typedRange(source, stretch), site: source.site, written: null });
}

/** Appends, unless the work allowed for one file is used up. */
export function emit(run: Run, chunk: Chunk): void {
  if (run.stopped) return;
  if (run.work.spend(Math.max(chunk.text.length, leastCost))) append(run.sink, chunk);
  else stopAt(run, chunk);
}

/** Work that leaves no text behind counts too, or empty macros could double without end. */
export function spend(run: Run, source: Source, stretch: Stretch, amount: number): void {
  if (run.stopped || run.work.spend(Math.max(amount, leastCost))) return;
  stopAt(run, { text: ' ', kind: 'made', range: typedRange(source, stretch), site: source.site, written: null });
}

/** A piece of text costs more than its characters: a million empty ones are work. */
const leastCost = 16;

/** Says so, once, and ends the file there; the use or include that was too much leaves nothing but a blank. */
function stopAt(run: Run, { range, site }: Chunk): void {
  run.stopped = true;
  rewind(run.main, run.safe);
  const kept = run.remarks.filter((each) => each.at.start < run.main.length);
  run.remarks.splice(0, run.remarks.length, ...kept);
  note(run, 'limit', { limit: 'expandedCharacters', value: run.work.limit });
  let outermost = site;
  while (outermost !== null && outermost.outer !== null) outermost = outermost.outer;
  append(run.main, { text: ' ', kind: 'made', range: outermost?.range ?? range, site: null, written: null });
}

/**
 * Leaves the blank that stands for a directive or an empty use. Returns its offset in the main text; while an
 * argument is expanded, the offset where the use of that argument's macro will begin.
 */
export function leaveBlank(run: Run, source: Source, stretch: Stretch): number {
  const offset = run.main.length;
  makeText(run, source, stretch, ' ');
  return offset;
}

/** Says something about the blank that is left next, or about the one at `offset`. */
export function note<R extends Reason>(run: Run, reason: R, args: ReasonTable[R], offset = run.main.length): void {
  const at = { start: offset as UnitOffset, end: (offset + 1) as UnitOffset };
  run.remarks.push(remark(reason, args, at));
}
