// The uses of a name in the files of the workspace, with its declaration where that is asked for: of a signal also those in
// hierarchical names, of a module and its ports also those in files that instantiate it, of a macro those in every file.

import type { Location, Position, ReferenceContext } from 'vscode-languageserver';
import { directiveAt, macroPlaces } from '../../report/directive-at';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { distinctPlaces, meantAt, usesEverywhere } from './meant';
import { locationOf, offsetAt, rangeBetween } from './positions';
import { type Further, noWorkspace, type WorkspaceView } from './workspace-view';

/** What the uses of the name at the caret rest on; null where no name stands. */
export function* filesWithUses(study: Study, path: string, position: Position): Generator<void, Further | null> {
  const macro = macroAt(study, path, position);
  if (macro !== null) return { kind: 'texts', word: macro };
  const meant = yield* meantAt(study, path, position);
  if (meant.length === 0) return null;
  return { kind: 'uses', word: plainWord(meant[0].name), of: meant.flatMap(({ units }) => units) };
}

/** The name alone; null where no macro stands. */
export function macroAt(study: Study, path: string, position: Position): string | null {
  const text = textOf(study, path);
  const directive = directiveAt(text, offsetAt(text, position));
  return directive?.kind === 'macro' ? directive.name : null;
}

/** As it may be written, with or without a backslash. */
function plainWord(name: string): string {
  return name.replace(/^\\/, '').trimEnd();
}

export function* references(
  study: Study,
  path: string,
  position: Position,
  { includeDeclaration }: ReferenceContext,
  view: WorkspaceView = noWorkspace,
): Generator<void, Location[]> {
  const macro = macroAt(study, path, position);
  if (macro !== null) return macroUses(view, macro, includeDeclaration ? 'all' : 'uses');
  const found: Location[] = [];
  for (const meant of yield* meantAt(study, path, position)) {
    const uses = (yield* usesEverywhere(study, meant, view)).flatMap((each) => each.uses);
    const shown = uses.filter(({ isMade, role }) => !isMade && (includeDeclaration || role !== 'declared'));
    found.push(...distinctPlaces(shown).map(({ span }) => locationOf(span)));
  }
  return found;
}

function macroUses({ texts }: WorkspaceView, macro: string, which: 'all' | 'uses'): Location[] {
  return texts.flatMap(({ path, text }) =>
    macroPlaces(text, macro)
      .filter(({ isDefinition }) => which === 'all' || !isDefinition)
      .map(({ end, start }) => ({ uri: path, range: rangeBetween(text, start, end) })),
  );
}
