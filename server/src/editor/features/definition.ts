// From a name to where it is declared: signals, parameters, instances, the module of an instance, the port of a connection;
// from a macro to its definitions; from an include to its file. Text alone decides, so half-typed text keeps its names.

import type { Location, Position } from 'vscode-languageserver';
import { type DirectiveAt, directiveAt, includedPath, macroDefinitions } from '../../report/directive-at';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { usesAt } from './names-at';
import { locationOf, offsetAt } from './positions';

export function* definition(study: Study, path: string, position: Position): Generator<void, Location[]> {
  const text = textOf(study, path);
  const directive = directiveAt(text, offsetAt(text, position));
  if (directive !== null) return yield* behindDirective(study, path, directive);
  const uses = yield* usesAt(study, path, position);
  return uses.filter(({ role }) => role === 'declared').map(({ span }) => locationOf(span));
}

function* behindDirective(study: Study, path: string, { kind, name }: DirectiveAt): Generator<void, Location[]> {
  const reading = yield* study.reading();
  if (kind === 'macro') return macroDefinitions(reading, name).map(locationOf);
  const file = includedPath(reading, { asking: path, folders: study.input.includeFolders, name });
  return file === null ? [] : [{ uri: file, range: fileStart }];
}

const fileStart = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
