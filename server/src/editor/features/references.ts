// The uses of a name within its document, with its declaration where that is asked for.

import type { Location, Position, ReferenceContext } from 'vscode-languageserver';
import type { Study } from '../../report/study';
import { usesAt } from './names-at';
import { locationOf } from './positions';

export function* references(
  study: Study,
  path: string,
  position: Position,
  { includeDeclaration }: ReferenceContext,
): Generator<void, Location[]> {
  const uses = yield* usesAt(study, path, position);
  return uses
    .filter(({ role, span }) => span.file === path && (includeDeclaration || role !== 'declared'))
    .map(({ span }) => locationOf(span));
}
