// The uses of what stands at a caret: nothing where no name stands, two things at `.clk` alone.

import type { Position } from 'vscode-languageserver';
import { listNames, type NameUse } from '../../report/name-table';
import type { Study } from '../../report/study';
import { touches } from './positions';

/** In all files of the study, in source order. */
export function* usesAt(study: Study, path: string, position: Position): Generator<void, readonly NameUse[]> {
  const uses = yield* listNames(yield* study.reading());
  const here = uses.filter(({ span }) => span.file === path && touches(span, position));
  const meanings = new Set(here.map(({ meaning }) => meaning));
  return uses.filter(({ meaning }) => meanings.has(meaning));
}
