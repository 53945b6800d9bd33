// From a name to where it is declared: signals, parameters, instances, the module of an instance, the port of a connection;
// from a macro to its definitions; from an include to its file. Text alone decides, so half-typed text keeps its names.

import type { Location, Position } from 'vscode-languageserver';
import { type DirectiveAt, directiveAt, includedPath, macroDefinitions, macroPlaces } from '../../report/directive-at';
import type { Study } from '../../report/study';
import type { SourceFile } from '../../text/source';
import { textOf } from './documents';
import { usesAt } from './names-at';
import { locationOf, offsetAt, rangeBetween } from './positions';
import { macroAt } from './references';
import { type Further, noWorkspace, type WorkspaceView } from './workspace-view';

/** A macro of no file of the study is looked for in the others. */
export function* filesWithDefinition(study: Study, path: string, position: Position): Generator<void, Further | null> {
  const macro = macroAt(study, path, position);
  const near = macro === null ? [] : macroDefinitions(yield* study.reading(), macro);
  return macro === null || near.length > 0 ? null : { kind: 'texts', word: macro };
}

export function* definition(
  study: Study,
  path: string,
  position: Position,
  view: WorkspaceView = noWorkspace,
): Generator<void, Location[]> {
  const text = textOf(study, path);
  const directive = directiveAt(text, offsetAt(text, position));
  if (directive !== null) return yield* behindDirective(study, path, directive, view);
  const uses = yield* usesAt(study, path, position);
  return uses.filter(({ role }) => role === 'declared').map(({ span }) => locationOf(span));
}

function* behindDirective(
  study: Study,
  path: string,
  { kind, name }: DirectiveAt,
  { texts }: WorkspaceView,
): Generator<void, Location[]> {
  const reading = yield* study.reading();
  if (kind === 'macro') {
    const near = macroDefinitions(reading, name).map(locationOf);
    return near.length > 0 ? near : texts.flatMap((file) => definitionsIn(file, name));
  }
  const file = includedPath(reading, { asking: path, folders: study.input.includeFolders, name });
  return file === null ? [] : [{ uri: file, range: fileStart }];
}

const fileStart = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

function definitionsIn({ path, text }: SourceFile, macro: string): readonly Location[] {
  return macroPlaces(text, macro)
    .filter(({ isDefinition }) => isDefinition)
    .map(({ end, start }) => ({ uri: path, range: rangeBetween(text, start, end) }));
}
