// Which signals of the design stand at a caret.

import type { Position } from 'vscode-languageserver';
import { signalsMeant } from '../../report/signals-meant';
import type { Study } from '../../report/study';
import { usesAt } from './names-at';

/** Full names, one per instance of the module, in the order of the design; none where no signal of it stands there. */
export function* signalsAt(study: Study, path: string, position: Position): Generator<void, readonly string[]> {
  return yield* signalsMeant(study, yield* usesAt(study, path, position));
}
