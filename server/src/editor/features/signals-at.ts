// Which signals of the design stand at a caret, and which of their bits.

import type { Position } from 'vscode-languageserver';
import { signalsMeant } from '../../report/signals-meant';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { usesAt } from './names-at';
import { offsetAt, rangeOf, touches } from './positions';

/** Full names, one per instance of the module, in the order of the design; none where no signal of it stands there. */
export function* signalsAt(study: Study, path: string, position: Position): Generator<void, readonly string[]> {
  return yield* signalsMeant(study, yield* usesAt(study, path, position));
}

/** `[3]` where the name at a caret is followed by a number in brackets; else empty. */
export function* bitAt(study: Study, path: string, position: Position): Generator<void, string> {
  const uses = yield* usesAt(study, path, position);
  const here = uses.find(({ span }) => span.file === path && touches(span, position));
  if (here === undefined) return '';
  const text = textOf(study, path);
  const behind = text.slice(offsetAt(text, rangeOf(here.span).end));
  const index = /^\s*\[\s*(\d+)\s*\]/.exec(behind)?.[1];
  return index === undefined ? '' : `[${Number(index)}]`;
}
