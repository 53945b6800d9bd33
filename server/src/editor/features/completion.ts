// What may be written at a caret: ports and parameters of the instance being written that are not connected yet, members of
// an instance, block, interface or package, macros, names in scope, modules of the workspace, and a few keywords.

import type { CompletionItem, CompletionItemKind, Position } from 'vscode-languageserver';
import { visibleText } from '../../drawing/visible-text';
import { type CaretContext, caretContext } from '../../report/caret-context';
import { listMacros } from '../../report/directive-at';
import { membersOf, type NamesThere, namesThere, seenFrom } from '../../report/names-in-scope';
import { knowUnits } from '../../report/name-lookup';
import type { Declaration, DeclarationKind, KnownModule } from '../../report/scopes';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { headerOf, lackedUnits } from './known-units';
import { offsetAt, rangeBetween } from './positions';
import { innerForms, outerForms } from './statement-forms';
import type { Further, WorkspaceView } from './workspace-view';

export interface CompletionOptions {
  /** Whether the client shows places to fill in. */
  readonly fillsIn: boolean;
  /** The character that made the client ask; null where a person did, or a letter. */
  readonly trigger: string | null;
}

/** Only the unit that is written about; the names of all others come with it. */
export function* filesForCompletion(study: Study, path: string, position: Position): Generator<void, Further | null> {
  const text = textOf(study, path);
  const { kind, lists } = caretContext(text, offsetAt(text, position));
  if (kind.kind === 'nothing') return null;
  const name = kind.kind === 'connection' ? (lists.at(-1)?.name ?? '') : kind.kind === 'package' ? kind.name : '';
  return { kind: 'units', names: yield* lackedUnits(study, [name]) };
}

export function* completion(
  study: Study,
  path: string,
  position: Position,
  view: WorkspaceView,
  options: CompletionOptions,
): Generator<void, CompletionItem[]> {
  const text = textOf(study, path);
  const caret = offsetAt(text, position);
  const context = caretContext(text, caret);
  // A colon means the end of a label more often than half of `::`.
  if (options.trigger === ':' && context.kind.kind !== 'package') return [];
  const there = namesThere(yield* study.reading(), path, context.wordStart);
  const proposals = yield* proposalsFor(study, context, there, view);
  const range = rangeBetween(text, context.wordStart, caret);
  return proposals.map(({ detail, kind, label, snippet, text: written }, index) => ({
    label: visibleText(label),
    kind,
    ...(detail === '' ? {} : { detail: visibleText(detail) }),
    // As they stand here: what is nearest comes first.
    sortText: String(index).padStart(5, '0'),
    filterText: label,
    textEdit: { range, newText: options.fillsIn && snippet !== null ? snippet : written },
    ...(options.fillsIn && snippet !== null ? { insertTextFormat: 2 as const } : {}),
  }));
}

interface Proposal {
  readonly label: string;
  readonly detail: string;
  readonly kind: CompletionItemKind;
  readonly text: string;
  /** With places to fill in; null where there are none. */
  readonly snippet: string | null;
}

function* proposalsFor(
  study: Study,
  { kind, lists }: CaretContext,
  there: NamesThere,
  view: WorkspaceView,
): Generator<void, readonly Proposal[]> {
  switch (kind.kind) {
    case 'nothing':
      return [];
    case 'macro':
      return [
        ...(yield* macroProposals(study, view)),
        ...directives.map((word) => plain(`\`${word}`, '', kinds.keyword)),
      ];
    case 'connection':
      return yield* connectionProposals(study, lists.at(-1), there, view);
    case 'member':
      return membersOf(there, kind.path).map(declared);
    case 'package':
      return yield* packageProposals(kind.name, there, view);
    case 'name':
      return nameProposals(there, view, kind.begins ? 'begins' : 'goes on');
  }
}

function* macroProposals(study: Study, { macros }: WorkspaceView): Generator<void, readonly Proposal[]> {
  const near = listMacros(yield* study.reading());
  const names = new Set([
    ...near,
    ...Object.keys(study.input.options.defines),
    ...macros.map(({ macro }) => macro.name),
  ]);
  return [...names].map((name) => plain(`\`${name}`, '', kinds.constant));
}

/** What bears the name of a signal here is connected to it. */
function* connectionProposals(
  study: Study,
  list: CaretContext['lists'][number] | undefined,
  there: NamesThere,
  view: WorkspaceView,
): Generator<void, readonly Proposal[]> {
  const header = list === undefined ? null : yield* headerOf(study, view, list.name);
  if (list === undefined || header === null) return [];
  const names = new Set(seenFrom(there).map(({ name }) => name.name));
  const left = header[list.kind === 'parameters' ? 'parameters' : 'ports'].filter(
    ({ name }) => !list.connected.includes(name),
  );
  return left.map(({ name, words }) => {
    const value = names.has(name) && list.kind === 'ports' ? name : '';
    return {
      label: name.trimEnd(),
      detail: words,
      kind: kinds.port,
      text: `${name}(${value})`,
      snippet: `${snippetText(name)}(\${1:${snippetText(value)}})`,
    };
  });
}

function* packageProposals(
  name: string,
  there: NamesThere,
  { readings }: WorkspaceView,
): Generator<void, readonly Proposal[]> {
  const own = there.units.byName.get(name);
  if (own !== undefined) return namesIn(own);
  for (const { reading } of readings) {
    const found = knowUnits(reading).byName.get(name);
    if (found !== undefined) return namesIn(found);
    yield;
  }
  return [];
}

function namesIn({ scopes }: KnownModule): readonly Proposal[] {
  return [...scopes.scope.declarations.values()].map(([first]) => declared(first));
}

function nameProposals(there: NamesThere, { units }: WorkspaceView, how: 'begins' | 'goes on'): readonly Proposal[] {
  const seen = seenFrom(there).map(declared);
  const packages = units.filter(({ unit }) => unit.what === 'package').map(({ unit }) => unit.name);
  const own = there.known?.table.name.name;
  const modules = units
    .filter(({ unit }) => instantiable.has(unit.what) && unit.name !== own)
    .map(({ unit }) => unit.name);
  const named = how === 'begins' ? [...new Set([...modules, ...packages])] : [...new Set(packages)];
  return [...seen, ...named.map((name) => plain(name, '', kinds.module)), ...(how === 'begins' ? formsAt(there) : [])];
}

function formsAt({ known }: NamesThere): readonly Proposal[] {
  return (known === null ? outerForms : innerForms).map(({ snippet, word }) => ({
    ...plain(word, '', snippet === null ? kinds.keyword : kinds.snippet),
    snippet,
  }));
}

const instantiable: ReadonlySet<string> = new Set(['module', 'interface', 'primitive']);

function declared({ detail, kind, name }: Declaration): Proposal {
  return plain(name.name, detail === '' ? kind.replaceAll('-', ' ') : detail, kindOf[kind]);
}

function plain(name: string, detail: string, kind: CompletionItemKind): Proposal {
  return { label: name.trimEnd(), detail, kind, text: name, snippet: null };
}

/** Protocol 3.17, Snippet Syntax: these three are escaped. */
function snippetText(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

/** Numbers of the protocol's `CompletionItemKind` (3.17, Completion Request). */
const kinds = { module: 9, port: 5, constant: 21, keyword: 14, snippet: 15 } as const;

const kindOf: Readonly<Record<DeclarationKind, CompletionItemKind>> = {
  module: 9,
  parameter: 21,
  input: 6,
  output: 6,
  inout: 6,
  net: 6,
  variable: 6,
  'loop-variable': 6,
  instance: 10,
  gate: 10,
  block: 9,
  subroutine: 3,
  'interface-port': 8,
  modport: 8,
  type: 25,
  'enum-member': 20,
};

/** Directives that are read (IEEE 1364-2005 clause 19). */
const directives: readonly string[] =
  'define undef include ifdef ifndef elsif else endif timescale default_nettype celldefine endcelldefine resetall'.split(
    ' ',
  );
