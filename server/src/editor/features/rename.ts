// Gives a name another one wherever it stands in the workspace: signals, parameters, ports with the connections that name
// them, instances, blocks, functions, modules, macros. What is not safe is refused with the reason; nothing is half done.

import type { Position, Range, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { macroPlaces } from '../../report/directive-at';
import { refuse } from '../../report/refusal';
import { type Replacement, replaceName } from '../../report/replace-name';
import type { Study } from '../../report/study';
import { isPlainName } from '../../report/word-places';
import { distinctPlaces, type Meant, meantAt, usesEverywhere } from './meant';
import { rangeBetween, rangeOf } from './positions';
import { macroAt } from './references';
import { textOf } from './documents';
import { offsetAt } from './positions';
import type { WorkspaceView } from './workspace-view';

/** Null where no name stands. Throws a `Refusal` where one stands that cannot be changed. */
export function* prepareRename(
  study: Study,
  path: string,
  position: Position,
): Generator<void, { readonly range: Range; readonly placeholder: string } | null> {
  const macro = macroAt(study, path, position);
  if (macro !== null) return prepareMacro(study, path, position, macro);
  const meant = yield* nameMeant(study, path, position);
  return meant === null ? null : { range: rangeOf(meant.here.span), placeholder: meant.name.trimEnd() };
}

function prepareMacro(study: Study, path: string, position: Position, macro: string) {
  const text = textOf(study, path);
  const offset = offsetAt(text, position);
  const place = macroPlaces(text, macro).find(({ end, start }) => start - 1 <= offset && offset <= end);
  if (Object.hasOwn(study.input.options.defines, macro)) refuse(`${macro} is defined in foretick.json`);
  return place === undefined ? null : { range: rangeBetween(text, place.start, place.end), placeholder: macro };
}

/** At `.clk` alone the signal is meant: the port belongs to another module. */
function* nameMeant(study: Study, path: string, position: Position): Generator<void, Meant | null> {
  const meant = (yield* meantAt(study, path, position)).at(-1) ?? null;
  if (meant !== null && meant.declared.length === 0 && isElsewhere(meant))
    refuse(`it is not known where ${meant.name.trimEnd()} is declared`);
  return meant;
}

/** A net may do without a declaration; a module, and a member of something, may not. */
function isElsewhere({ here }: Meant): boolean {
  return here.isModule || here.form === 'member' || here.form === 'connection' || here.form === 'port';
}

/** Throws a `Refusal` where it is not safe. */
export function* rename(
  study: Study,
  path: string,
  position: Position,
  newName: string,
  view: WorkspaceView,
): Generator<void, WorkspaceEdit | null> {
  if (!view.isWhole) refuse('the workspace has more files than can be looked through for it');
  const macro = macroAt(study, path, position);
  if (macro !== null) return renameMacro(study, macro, newName, view);
  const meant = yield* nameMeant(study, path, position);
  if (meant === null) return null;
  if (newName === meant.name.trimEnd()) return { changes: {} };
  if (meant.here.isModule && view.units.some(({ unit }) => unit.name === newName))
    refuse(`${newName} is a module of the workspace already`);
  const replacing = replaceName(yield* usesEverywhere(study, meant, view), meant.name, newName);
  return replacing.kind === 'unsafe' ? refuse(replacing.why) : editOf(replacing.replacements);
}

function editOf(replacements: readonly Replacement[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { span, text } of distinctPlaces(replacements)) {
    changes[span.file] ??= [];
    changes[span.file].push({ range: rangeOf(span), newText: text });
  }
  return { changes };
}

function renameMacro({ input }: Study, from: string, to: string, { macros, texts }: WorkspaceView): WorkspaceEdit {
  if (!isPlainName(to)) refuse(`${to} is no name that Verilog allows for a macro`);
  if (Object.hasOwn(input.options.defines, from)) refuse(`${from} is defined in foretick.json`);
  if (macros.every(({ macro }) => macro.name !== from)) refuse(`it is not known where ${from} is defined`);
  if (macros.some(({ macro }) => macro.name === to)) refuse(`${to} is a macro of the workspace already`);
  const used = texts.find(({ text }) => macroPlaces(text, to).length > 0);
  if (used !== undefined)
    refuse(`${to} is used as a macro already: ${used.path.slice(used.path.lastIndexOf('/') + 1)}`);
  const changes = texts.map(({ path, text }) => {
    const places = macroPlaces(text, from);
    return [path, places.map(({ end, start }) => ({ range: rangeBetween(text, start, end), newText: to }))] as const;
  });
  return {
    changes: Object.fromEntries(
      changes.filter(([, edits]) => edits.length > 0).map(([uri, edits]) => [uri, [...edits]]),
    ),
  };
}
