// What it takes to give a name another one, and why that is not safe where it is not: a name that is taken, text that a macro
// makes, text that is not read, a port that is connected without being named. Rather refused than half done.

import type { Reading } from '../syntax/read';
import type { ModuleTable } from '../syntax/tables';
import { rangeOf, spanOfRange } from '../text/origin';
import type { FileOffset, FileRange, Span, UnitOffset } from '../text/place';
import { type EveryUse, unknownMember } from './name-table';
import { scopesOf } from './scopes';
import { isPlainName, wordPlaces } from './word-places';

export interface Replacement {
  readonly span: Span;
  readonly text: string;
}

/** One reading with all its names, and those of them that are to be replaced. */
export interface NamesRead {
  readonly reading: Reading;
  readonly all: readonly EveryUse[];
  readonly uses: readonly EveryUse[];
}

export type Replacing =
  | { readonly kind: 'replacements'; readonly replacements: readonly Replacement[] }
  | { readonly kind: 'unsafe'; readonly why: string };

/** `from`: as the name table has it. A place that two readings hold stands there twice. */
export function replaceName(readings: readonly NamesRead[], from: string, to: string): Replacing {
  if (!isPlainName(to)) return unsafe(`${to} is no name that Verilog allows without a backslash`);
  const what = readings.some(({ uses }) => uses.some(({ isModule }) => isModule)) ? 'module' : 'other';
  for (const names of readings) {
    const why = whyUnsafe(names, from, to, what);
    if (why !== null) return unsafe(why);
  }
  const replacements = readings.flatMap(({ uses }) => uses.map((use) => ({ span: use.span, text: textFor(use, to) })));
  return { kind: 'replacements', replacements };
}

function unsafe(why: string): Replacing {
  return { kind: 'unsafe', why };
}

/** `.clk` alone names a port and a signal: whichever of them keeps its name is written out. */
function textFor({ form, name }: EveryUse, to: string): string {
  if (form === 'port') return `${to}(${name})`;
  return form === 'signal' ? `${name}(${to})` : to;
}

function whyUnsafe(names: NamesRead, from: string, to: string, what: 'module' | 'other'): string | null {
  const { uses } = names;
  const readWhole = () => madeByMacro(names, from) ?? inIncludedFile(names, from);
  if (what === 'module') return readWhole() ?? inUnreadText(names, from, what);
  if (uses.length === 0) return throughUnknown(names, from);
  return (
    readWhole() ??
    throughUnknown(names, from) ??
    inUnreadText(names, from, what) ??
    connectedUnnamed(names, from, to) ??
    clash(names, to)
  );
}

function madeByMacro({ uses }: NamesRead, from: string): string | null {
  const made = uses.find(({ isMade }) => isMade);
  return made === undefined ? null : `a macro also spells ${from} out: ${where(made.span)}`;
}

/** Other files may include that text and mean something else by the name. */
function inIncludedFile({ reading, uses }: NamesRead, from: string): string | null {
  const included = uses.find(({ span, unit }) => span.file !== reading.files[reading.units[unit].file].path);
  return included === undefined ? null : `${from} also stands in text that is included: ${where(included.span)}`;
}

function throughUnknown({ all }: NamesRead, from: string): string | null {
  const member = all.find(({ meaning, name }) => name === from && meaning === unknownMember);
  return member === undefined ? null : `it cannot be told what ${from} belongs to here: ${where(member.span)}`;
}

/** Every place of the word must have been read: in the units that use a signal, in the whole file that may use a module. */
function inUnreadText({ all, reading, uses }: NamesRead, from: string, what: 'module' | 'other'): string | null {
  const stretches =
    what === 'module' ? [wholeFirstFile(reading)] : [...unitsOf(uses)].map((unit) => unitRange(reading, unit));
  for (const { end: last, file, start: first } of stretches) {
    const { path, text } = reading.files[file];
    const known = new Set(all.flatMap(({ span }) => (span.file === path ? [`${span.line}:${span.column}`] : [])));
    for (const { end, start } of wordPlaces(text, from, first, last)) {
      const span = spanOfRange(reading.files, { file, start: start as FileOffset, end: end as FileOffset });
      if (!known.has(`${span.line}:${span.column}`))
        return `${from} also stands in text that is not read, a branch that is not taken or the text of a macro: ${where(span)}`;
    }
  }
  return null;
}

function wholeFirstFile({ files }: Reading): FileRange {
  return { file: 0, start: 0 as FileOffset, end: files[0].text.length as FileOffset };
}

function unitRange({ units }: Reading, unit: number): FileRange {
  const { origin, text } = units[unit];
  return rangeOf(origin, { start: 0 as UnitOffset, end: text.length as UnitOffset });
}

/** `.*` connects what bears one name, so that both names must stay apart from it. */
function connectedUnnamed({ reading, uses }: NamesRead, from: string, to: string): string | null {
  const modules = new Map(
    reading.units.flatMap(({ table }) => (table.kind === 'module' ? [[table.name.name, table]] : [])),
  );
  const declaring = new Set(uses.filter(({ role }) => role === 'declared').map(({ unit }) => unit));
  for (const [index, { table, text }] of reading.units.entries()) {
    if (table.kind !== 'module') continue;
    for (const { connection, module } of scopesOf(table, text).connected) {
      const child = modules.get(module);
      const isConcerned = uses.some(({ unit }) => unit === index) || declaring.has(indexOf(reading, child));
      if (connection.implied !== 'all' || !isConcerned || !mayConnect(child, [from, to])) continue;
      const span = spanOfRange(reading.files, rangeOf(reading.units[index].origin, connection.at));
      return `.* connects ${module} by names: ${where(span)}`;
    }
  }
  return null;
}

function indexOf({ units }: Reading, table: ModuleTable | undefined): number {
  return units.findIndex((unit) => unit.table === table);
}

/** Of a module that is not given nobody knows its ports. */
function mayConnect(module: ModuleTable | undefined, names: readonly string[]): boolean {
  if (module === undefined) return true;
  const declared = scopesOf(module, '').scope.declarations;
  return names.some((name) => (declared.get(name) ?? []).some(({ kind }) => ports.has(kind)));
}

const ports: ReadonlySet<string> = new Set(['input', 'output', 'inout']);

/** The new name must mean nothing yet wherever the old one is seen, so that no name changes what it means. */
function clash({ all, reading, uses }: NamesRead, to: string): string | null {
  const seen = unitsOf(uses.filter(({ form }) => form === 'plain' || form === 'signal'));
  const taken = all.find(
    ({ form, name, unit }) => name === to && seen.has(unit) && form !== 'connection' && form !== 'port',
  );
  if (taken === undefined) return null;
  const { table } = reading.units[taken.unit];
  return `${to} has a meaning in ${table.name?.name ?? 'this text'} already: ${where(taken.span)}`;
}

function unitsOf(uses: readonly EveryUse[]): ReadonlySet<number> {
  return new Set(uses.map(({ unit }) => unit));
}

function where({ file, line }: Span): string {
  return `${file.slice(file.lastIndexOf('/') + 1)}, line ${line}`;
}
