// The uses of a name within its document, told apart by whether they write it or read it. A declaration counts as text: it
// does neither.

import type { DocumentHighlight, DocumentHighlightKind, Position } from 'vscode-languageserver';
import type { NameUse } from '../../report/name-table';
import type { Study } from '../../report/study';
import { usesAt } from './names-at';
import { rangeOf } from './positions';

export function* highlight(study: Study, path: string, position: Position): Generator<void, DocumentHighlight[]> {
  const uses = yield* usesAt(study, path, position);
  return uses
    .filter(({ span }) => span.file === path)
    .map(({ role, span }) => ({ range: rangeOf(span), kind: kinds[role] }));
}

/** Numbers of the protocol's `DocumentHighlightKind` (3.17, Document Highlights Request). */
const kinds: Readonly<Record<NameUse['role'], DocumentHighlightKind>> = { declared: 1, read: 2, written: 3 };
