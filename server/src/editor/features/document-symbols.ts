// The outline of a document: its modules, what each declares, block within block. From the text alone.

import type { DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import { type OutlineEntry, outlineOf } from '../../report/outline';
import type { Study } from '../../report/study';
import { rangeOf } from './positions';
import { visibleText } from '../../drawing/visible-text';

export function* documentSymbols(study: Study, path: string): Generator<void, DocumentSymbol[]> {
  const entries = yield* outlineOf(yield* study.reading());
  return entries.filter(({ span }) => span.file === path).map(symbolOf);
}

function symbolOf({ detail, inner, kind, name, nameSpan, span }: OutlineEntry): DocumentSymbol {
  return {
    name: visibleText(name),
    detail: visibleText(detail),
    kind: kinds[kind],
    range: rangeOf(span),
    selectionRange: rangeOf(nameSpan),
    children: inner.map(symbolOf),
  };
}

/** Numbers of the protocol's `SymbolKind` (3.17, Document Symbols Request). */
const kinds: Readonly<Record<OutlineEntry['kind'], SymbolKind>> = {
  module: 2,
  package: 4,
  interface: 11,
  block: 3,
  subroutine: 12,
  parameter: 14,
  input: 11,
  output: 11,
  inout: 11,
  net: 8,
  variable: 13,
  'loop-variable': 13,
  instance: 19,
  'interface-port': 8,
  modport: 20,
  type: 26,
  'enum-member': 22,
  gate: 25,
};
