// Links from the names of files in a document to those files: includes and the files that memories start from.

import type { DocumentLink } from 'vscode-languageserver';
import { linkedFiles } from '../../report/linked-files';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { rangeBetween } from './positions';

export function* documentLinks(study: Study, path: string): Generator<void, DocumentLink[]> {
  yield;
  const text = textOf(study, path);
  return linkedFiles(text, path, study.input).map(({ end, path: target, start }) => ({
    range: rangeBetween(text, start, end),
    target,
  }));
}
