// Reading: files in, tables out, with every complaint about their text. Each file is expanded, cut into
// units, and each unit read by itself; a unit's key tells whether an earlier reading of it still holds.

import type { Limits } from '../budget';
import type { Complaint } from '../text/complaint';
import { indexLines, indexLinesAgain } from '../text/line-index';
import type { IndexedFile, Origin } from '../text/origin';
import type { SourceFile } from '../text/source';
import { copierOf } from './copy-tree';
import { initialSettings, keywordSetOf, type Settings } from './directives';
import type { CarriedState, DefinedMacro } from './expansion';
import { isHeader, saidOfHeader } from './header-file';
import { type FileShelf, shelve } from './includes';
import { withDefinitionsLater } from './late-macros';
import { type Expansion, expandFile } from './preprocess';
import { complaintOf, type Remark, remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { UnitTable } from './tables';
import { readUnit } from './unit';
import type { ReadingTools } from './unit-reading';
import { type CutFile, type UnitSlice, unitsOf } from './units';

export interface ReadOptions {
  /** Macros that stand defined before the first file, by name. */
  readonly defines: Readonly<Record<string, string>>;
  /** Where includes are looked for after the including file's own folder, with `/`. */
  readonly includeFolders: readonly string[];
  readonly limits: Limits;
  /** Files at hand for includes that are not themselves compiled. */
  readonly provided: readonly SourceFile[];
  /** An earlier reading with the same limits: units whose key it knows are taken from it. */
  readonly previous?: Reading;
}

export interface Unit {
  readonly table: UnitTable;
  /** The unit's expanded text, which places index. */
  readonly text: string;
  /** Index into the reading's files: the file it was compiled from. */
  readonly file: number;
  /** Two units with one key have the same table and remarks: their text and all that decides how it is read. */
  readonly key: string;
  readonly origin: Origin;
  readonly remarks: readonly Remark[];
}

export interface ReadFile extends SourceFile, IndexedFile {}

export interface Reading {
  /** Those given, in their order, then those included, in the order of their first use. */
  readonly files: readonly ReadFile[];
  /** In source order; a place's `unit` is the index in this list. */
  readonly units: readonly Unit[];
  /** Ordered by unit and offset. */
  readonly complaints: readonly Complaint[];
  /** Paths where an include that is not at hand may be found, in the order to try them. */
  readonly wanted: readonly string[];
  /** By path, what was compiled as it was cut; for a later reading. */
  readonly cut: ReadonlyMap<string, UnitsOfFile>;
}

/** `units`: by index of their slices. */
interface UnitsOfFile extends Pick<CutFile, 'isPlain' | 'sliced'> {
  readonly units: ReadonlyMap<number, Unit>;
}

/** Yields after each file's expansion and after each unit. */
export function* readFiles(
  files: readonly SourceFile[],
  options: ReadOptions,
  parser: SliceParser,
): Generator<void, Reading> {
  const shelf = shelve(files, options.provided);
  const carried = openState(options.defines);
  const { limits, previous } = options;
  const tools = { parser, copier: copierOf(parser), limits };
  const known = new Map(previous?.units.map((unit) => [unit.key, unit]));
  const progress: Progress = { tools, known, units: [], complaints: [] };
  const wanted = new Set<string>();
  const cut = new Map<string, UnitsOfFile>();
  for (let file = 0; file < files.length; file += 1) {
    const { path } = files[file];
    const expansion = expandFile(file, carried, { ...options, shelf });
    for (const path of expansion.wanted) wanted.add(path);
    yield;
    cut.set(path, yield* readExpanded(progress, { file, path }, expansion, previous?.cut.get(path) ?? null));
  }
  const { complaints, units } = progress;
  return {
    files: indexFiles(shelf, previous),
    units,
    complaints: withDefinitionsLater(complaints, carried.definitions, shelf.files),
    wanted: [...wanted],
    cut,
  };
}

interface Progress {
  readonly tools: ReadingTools;
  /** Units of an earlier reading by their keys. */
  readonly known: ReadonlyMap<string, Unit>;
  readonly units: Unit[];
  readonly complaints: Complaint[];
}

/** The units of one file; `last`: the same file in an earlier reading. */
function* readExpanded(
  { complaints, known, tools, units }: Progress,
  { file, path }: { readonly file: number; readonly path: string },
  expansion: Expansion,
  last: UnitsOfFile | null,
): Generator<void, UnitsOfFile> {
  const { isPlain, sliced, units: slices } = unitsOf(expansion, last);
  const here = new Map<number, Unit>();
  let room = tools.limits.complaints;
  for (const slice of slices) {
    const { key, remarks, table, text } =
      unchanged(slice, last?.units.get(slice.before)) ?? readOrTake(slice, known, tools);
    const all = [...slice.noted, ...remarks];
    const isFragment = slice.slice.what === 'loose' && isHeader(path);
    const said = inOrder(isFragment ? saidOfHeader(all) : all, room, tools.limits);
    room -= said.length;
    complaints.push(...said.map((each) => complaintOf(each, units.length)));
    const unit = { table, text, file, key, origin: { map: expansion.map, base: slice.slice.start }, remarks };
    here.set(slice.index, unit);
    units.push(unit);
    yield;
  }
  return { isPlain, sliced, units: here };
}

type KeyedReading = Pick<Unit, 'key' | 'remarks' | 'table' | 'text'>;

/** The unit of before that has the slice's text, where all else that decides how it is read is the same too. */
function unchanged(slice: UnitSlice, before: Unit | undefined): KeyedReading | null {
  if (before === undefined) return null;
  const head = headOf(slice);
  const isSame = before.key.length === head.length + slice.text.length && before.key.startsWith(head);
  return isSame ? before : null;
}

/** The unit's text is part of its key, so that neither it nor what is read of it holds on to the whole file's text. */
function readOrTake(slice: UnitSlice, known: ReadonlyMap<string, Unit>, tools: ReadingTools): KeyedReading {
  const head = headOf(slice);
  const key = [head, slice.text].join('');
  const text = key.slice(head.length);
  const { remarks, table } = known.get(key) ?? readUnit({ ...slice, text }, tools);
  return { key, remarks, table, text };
}

function openState(defines: Readonly<Record<string, string>>): CarriedState {
  const macros = new Map(Object.entries(defines).map(([name, text]) => [name, givenMacro(name, text)]));
  return { macros, definitions: new Map(), settings: initialSettings };
}

function givenMacro(name: string, text: string): DefinedMacro {
  return { name, parameters: null, body: { text, start: 0 }, file: null };
}

/** What stands before its text in a unit's key: what is in force, and where a macro has already been complained of. */
function headOf({ slice, settings, noted }: UnitSlice): string {
  const places = noted.length === 0 ? '' : noted.map((each) => each.at.start).join(' ');
  return `${slice.what}\n${slice.closed}\n${wordsOf(settings)}\n${places}\n`;
}

/** Told once for all units that it holds for. */
function wordsOf(settings: Settings): string {
  const known = settingWords.get(settings);
  if (known !== undefined) return known;
  const { celldefine, timeUnit, timePrecision, defaultNet } = settings;
  const keywords = keywordSetOf(settings)?.name ?? '';
  const words = [celldefine, timeUnit, timePrecision, defaultNet, keywords].join('\n');
  settingWords.set(settings, words);
  return words;
}

const settingWords = new WeakMap<Settings, string>();

/** By offset; where there is no room for all, the last that fits says so. */
function inOrder(remarks: readonly Remark[], room: number, limits: Limits): readonly Remark[] {
  const sorted = [...remarks].sort((left, right) => left.at.start - right.at.start || left.at.end - right.at.end);
  if (sorted.length <= room) return sorted;
  const kept = sorted.slice(0, room);
  const last = kept.pop();
  return last === undefined
    ? []
    : [...kept, remark('limit', { limit: 'complaints', value: limits.complaints }, last.at)];
}

function indexFiles(shelf: FileShelf, previous: Reading | undefined): readonly ReadFile[] {
  const before = new Map(previous?.files.map((file) => [file.path, file]));
  return shelf.files.map((file) => {
    const last = before.get(file.path);
    return {
      ...file,
      lines: last === undefined ? indexLines(file.text) : indexLinesAgain(last.lines, last.text, file.text),
    };
  });
}
