// Reading: files in, tables out, with every complaint about their text. Each file is expanded, cut into
// units, and each unit read by itself; a unit's key tells whether an earlier reading of it still holds.

import type { Limits } from '../budget';
import type { Complaint } from '../text/complaint';
import { indexLines } from '../text/line-index';
import type { IndexedFile, Origin } from '../text/origin';
import type { SourceFile } from '../text/source';
import { openCopier } from './copy-tree';
import { initialSettings, keywordSetOf } from './directives';
import type { CarriedState, DefinedMacro } from './expansion';
import { isHeader, saidOfHeader } from './header-file';
import { type FileShelf, shelve } from './includes';
import { withDefinitionsLater } from './late-macros';
import { expandFile } from './preprocess';
import { complaintOf, type Remark, remark } from './remark';
import type { SliceParser } from './slice-parser';
import type { UnitTable } from './tables';
import { readUnit } from './unit';
import { type UnitSlice, unitsOf } from './units';

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
}

/** Yields after each file's expansion and after each unit. */
export function* readFiles(
  files: readonly SourceFile[],
  options: ReadOptions,
  parser: SliceParser,
): Generator<void, Reading> {
  const shelf = shelve(files, options.provided);
  const tools = { parser, copier: openCopier(parser), limits: options.limits };
  const carried = openState(options.defines);
  const known = new Map(options.previous?.units.map((unit) => [unit.key, unit]));
  const units: Unit[] = [];
  const complaints: Complaint[] = [];
  const wanted = new Set<string>();
  for (let file = 0; file < files.length; file += 1) {
    const expansion = expandFile(file, carried, { ...options, shelf });
    for (const path of expansion.wanted) wanted.add(path);
    let room = options.limits.complaints;
    yield;
    for (const slice of unitsOf(expansion)) {
      const key = keyOf(slice);
      const { table, remarks } = known.get(key) ?? readUnit(slice, tools);
      const all = [...slice.noted, ...remarks];
      const isFragment = slice.slice.what === 'loose' && isHeader(files[file].path);
      const said = inOrder(isFragment ? saidOfHeader(all) : all, room, options.limits);
      room -= said.length;
      complaints.push(...said.map((each) => complaintOf(each, units.length)));
      units.push({
        table,
        text: slice.text,
        file,
        key,
        origin: { map: expansion.map, base: slice.slice.start },
        remarks,
      });
      yield;
    }
  }
  return {
    files: indexFiles(shelf),
    units,
    complaints: withDefinitionsLater(complaints, carried.definitions, shelf.files),
    wanted: [...wanted],
  };
}

function openState(defines: Readonly<Record<string, string>>): CarriedState {
  const macros = new Map(Object.entries(defines).map(([name, text]) => [name, givenMacro(name, text)]));
  return { macros, definitions: new Map(), settings: initialSettings };
}

function givenMacro(name: string, text: string): DefinedMacro {
  return { name, parameters: null, body: { text, start: 0 }, file: null };
}

/** Never offsets, never macros: the text, what is in force, and where a macro has already been complained of. */
function keyOf({ slice, text, settings, noted }: UnitSlice): string {
  const { celldefine, timeUnit, timePrecision, defaultNet } = settings;
  const places = noted.map((each) => each.at.start).join(' ');
  return [
    slice.what,
    slice.closed,
    celldefine,
    timeUnit,
    timePrecision,
    defaultNet,
    keywordSetOf(settings)?.name ?? '',
    places,
    text,
  ].join('\n');
}

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

function indexFiles(shelf: FileShelf): readonly ReadFile[] {
  return shelf.files.map((file) => ({ ...file, lines: indexLines(file.text) }));
}
