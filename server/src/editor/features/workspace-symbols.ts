// Design units and macros of the workspace by name: those whose names hold the letters asked for in their order, whatever
// their case. Names that begin so come first.

import type { SymbolInformation, SymbolKind } from 'vscode-languageserver';
import { visibleText } from '../../drawing/visible-text';
import type { ScannedName, ScannedUnit } from '../../report/scan-file';

/** What the workspace holds, by URI, then in source order. */
export interface Named {
  units(): readonly { readonly uri: string; readonly unit: ScannedUnit }[];
  macros(): readonly { readonly uri: string; readonly macro: ScannedName }[];
}

const mostSymbols = 500;

export function workspaceSymbols({ macros, units }: Named, query: string): SymbolInformation[] {
  const all = [
    ...units().map(({ unit, uri }) => symbolOf(unit, kinds[unit.what], uri)),
    ...macros().map(({ macro, uri }) => symbolOf(macro, constant, uri)),
  ];
  const wanted = all.filter(({ name }) => holds(name.toLowerCase(), query.toLowerCase()));
  const begins = (name: string) => name.toLowerCase().startsWith(query.toLowerCase());
  return [...wanted.filter(({ name }) => begins(name)), ...wanted.filter(({ name }) => !begins(name))].slice(
    0,
    mostSymbols,
  );
}

function holds(name: string, letters: string): boolean {
  let from = 0;
  for (const letter of letters) {
    from = name.indexOf(letter, from) + 1;
    if (from === 0) return false;
  }
  return true;
}

function symbolOf({ column, line, name }: ScannedName, kind: SymbolKind, uri: string): SymbolInformation {
  const start = { line: line - 1, character: column - 1 };
  const end = { line: line - 1, character: column - 1 + name.trimEnd().length };
  return { name: visibleText(name.trimEnd()), kind, location: { uri, range: { start, end } } };
}

/** Numbers of the protocol's `SymbolKind` (3.17, Document Symbols Request); the outline calls modules the same. */
const kinds: Readonly<Record<ScannedUnit['what'], SymbolKind>> = {
  module: 2,
  program: 2,
  interface: 11,
  package: 4,
  class: 5,
  primitive: 25,
};
const constant: SymbolKind = 14;
