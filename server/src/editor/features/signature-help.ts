// What the list at a caret asks for: the ports or parameters of a module that is instantiated, the arguments of a function or
// task, with the one that the caret stands at.

import type { Position, SignatureHelp } from 'vscode-languageserver';
import { visibleText } from '../../drawing/visible-text';
import { caretContext, type OpenList } from '../../report/caret-context';
import { argumentsThere } from '../../report/arguments-there';
import { namesThere } from '../../report/names-in-scope';
import type { Study } from '../../report/study';
import type { HeaderPart } from '../../report/unit-header';
import { textOf } from './documents';
import { headerOf, lackedUnits } from './known-units';
import { offsetAt } from './positions';
import type { Further, WorkspaceView } from './workspace-view';

export function* filesForSignature(study: Study, path: string, position: Position): Generator<void, Further | null> {
  const text = textOf(study, path);
  const { lists } = caretContext(text, offsetAt(text, position));
  const modules = lists.filter(({ kind }) => kind === 'ports' || kind === 'parameters').map(({ name }) => name);
  const names = yield* lackedUnits(study, modules);
  return names.length === 0 ? null : { kind: 'units', names };
}

/** Of the innermost list that is known. */
export function* signatureHelp(
  study: Study,
  path: string,
  position: Position,
  view: WorkspaceView,
): Generator<void, SignatureHelp | null> {
  const text = textOf(study, path);
  const offset = offsetAt(text, position);
  const { lists } = caretContext(text, offset);
  for (const list of [...lists].reverse()) {
    const parts = yield* partsOf(study, path, offset, list, view);
    if (parts !== null) return helpFor(list, parts);
  }
  return null;
}

function* partsOf(
  study: Study,
  path: string,
  offset: number,
  { kind, name }: OpenList,
  view: WorkspaceView,
): Generator<void, readonly HeaderPart[] | null> {
  if (kind === 'other') return null;
  if (kind === 'arguments') {
    const reading = yield* study.reading();
    return argumentsThere(reading, namesThere(reading, path, offset), name);
  }
  return (yield* headerOf(study, view, name))?.[kind] ?? null;
}

function helpFor({ connection, index, kind, name }: OpenList, parts: readonly HeaderPart[]): SignatureHelp {
  const words = parts.map((part) => visibleText(part.words));
  const head = kind === 'parameters' ? `${visibleText(name)} #(` : `${visibleText(name)}(`;
  const named = connection === null ? -1 : parts.findIndex((part) => part.name === connection);
  const active = named >= 0 ? named : index;
  const starts = words.map(
    (_, place) => head.length + words.slice(0, place).reduce((sum, each) => sum + each.length + 2, 0),
  );
  return {
    signatures: [
      {
        label: `${head}${words.join(', ')})`,
        parameters: words.map((each, place) => ({ label: [starts[place], starts[place] + each.length] })),
      },
    ],
    activeSignature: 0,
    activeParameter: Math.min(active, Math.max(0, parts.length - 1)),
  };
}
