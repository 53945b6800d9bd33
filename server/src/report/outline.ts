// The outline of the source: modules with what they declare, block within block, each with the stretch it takes and the
// stretch of its name. From tables alone. What a macro or an include brings in stands at its use and is left out.

import type { Reading, Unit } from '../syntax/read';
import type { At } from '../syntax/tables';
import { rangeOf, spanOfRange } from '../text/origin';
import type { Span, UnitOffset } from '../text/place';
import { type Declaration, type DeclarationKind, type Scope, scopesOf } from './scopes';

export interface OutlineEntry {
  readonly kind: DeclarationKind | 'package' | 'interface';
  readonly name: string;
  readonly detail: string;
  readonly span: Span;
  readonly nameSpan: Span;
  readonly inner: readonly OutlineEntry[];
}

/** Modules in source order. Yields after each unit. */
export function* outlineOf(reading: Reading): Generator<void, readonly OutlineEntry[]> {
  const entries: OutlineEntry[] = [];
  for (const unit of reading.units) {
    entries.push(...unitEntry(reading, unit));
    yield;
  }
  return entries;
}

function unitEntry(reading: Reading, unit: Unit): readonly OutlineEntry[] {
  const { table, text } = unit;
  const read = table.kind === 'module' ? table : table.describes;
  if (read === null || (table.kind === 'other' && !opened.has(table.what))) return [];
  const desk = { reading, unit };
  const at = { start: read.at.start, end: text.trimEnd().length as UnitOffset };
  const inner = scopeEntries(desk, scopesOf(read, text).scope);
  const kind = table.kind === 'module' ? 'module' : (table.what as 'package' | 'interface');
  return entryOf(desk, { kind, name: read.name, at, detail: '' }, inner);
}

/** Besides modules. */
const opened: ReadonlySet<string> = new Set(['package', 'interface']);

interface Desk {
  readonly reading: Reading;
  readonly unit: Unit;
}

function scopeEntries(desk: Desk, scope: Scope): readonly OutlineEntry[] {
  const inners = new Map(scope.inner.map((inner) => [inner.at.start, inner]));
  const declared = [...scope.declarations.values()]
    .flatMap((list) => list.slice(0, 1))
    .filter(({ kind }) => kind !== 'loop-variable');
  const named = declared.flatMap((declaration) => {
    const inner = opening.has(declaration.kind) ? inners.get(declaration.at.start) : undefined;
    return entryOf(desk, declaration, inner === undefined ? [] : scopeEntries(desk, inner));
  });
  const opened = new Set(declared.filter(({ kind }) => opening.has(kind)).map(({ at }) => at.start));
  const nameless = scope.inner.filter(({ at }) => !opened.has(at.start)).flatMap((inner) => scopeEntries(desk, inner));
  return [...named, ...nameless].sort(
    (left, right) => left.nameSpan.line - right.nameSpan.line || left.nameSpan.column - right.nameSpan.column,
  );
}

/** What has declarations of its own inside. */
const opening: ReadonlySet<DeclarationKind> = new Set(['block', 'subroutine']);

type Entered = Omit<Declaration, 'kind'> & Pick<OutlineEntry, 'kind'>;

function entryOf(desk: Desk, declaration: Entered, inner: readonly OutlineEntry[]): readonly OutlineEntry[] {
  const { at, detail, kind, name } = declaration;
  const span = spanAt(desk, at);
  const nameSpan = spanAt(desk, name);
  const written = name.name.trimEnd();
  // The name may stand elsewhere than the rest: made by a macro, brought in by an include.
  if (span.file !== desk.reading.files[desk.unit.file].path || !isWithin(nameSpan, span)) return [];
  return [{ kind, name: written, detail, span, nameSpan, inner }];
}

function spanAt({ reading, unit }: Desk, at: At): Span {
  return spanOfRange(reading.files, rangeOf(unit.origin, at));
}

export function isWithin(inner: Span, outer: Span): boolean {
  const begins = inner.line > outer.line || (inner.line === outer.line && inner.column >= outer.column);
  const ends = inner.endLine < outer.endLine || (inner.endLine === outer.endLine && inner.endColumn <= outer.endColumn);
  return inner.file === outer.file && begins && ends;
}
