// Folding ranges of a document, from its own text alone: quick, and the same however broken the text is.

import type { FoldingRange } from 'vscode-languageserver';
import { listFoldings } from '../../report/foldings';
import type { Study } from '../../report/study';
import { textOf } from './documents';

export function* folding(study: Study, path: string): Generator<void, FoldingRange[]> {
  return listFoldings(textOf(study, path)).map(({ endLine, kind, line }) => ({
    startLine: line - 1,
    endLine: endLine - 1,
    ...(kind === 'comment' ? { kind } : {}),
  }));
}
