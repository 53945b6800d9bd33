// What each name of a document is, for colors: a module, a parameter, a signal and whether registers hold or follow it. The
// types are the protocol's own; `clock` and `register` are modifiers of ours, declared in the extension's manifest.

import type { Range, SemanticTokens, SemanticTokensLegend } from 'vscode-languageserver';
import { listMacros, macroUses } from '../../report/directive-at';
import { listNames, type NameUse } from '../../report/name-table';
import { type NameRoles, nameRoles } from '../../report/name-roles';
import type { DeclarationKind } from '../../report/scopes';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { isBefore, rangeBetween, rangeOf } from './positions';

/** Protocol 3.17, SemanticTokenTypes and SemanticTokenModifiers; the last two modifiers are ours. */
const types = [
  'namespace',
  'class',
  'interface',
  'type',
  'variable',
  'property',
  'enumMember',
  'function',
  'macro',
] as const;
const modifiers = ['declaration', 'modification', 'readonly', 'clock', 'register'] as const;

export const legend: SemanticTokensLegend = { tokenTypes: [...types], tokenModifiers: [...modifiers] };

type TokenType = (typeof types)[number];
type Modifier = (typeof modifiers)[number];

/** Of the whole document, or of what a range touches. */
export function* semanticTokens(study: Study, path: string, within: Range | null): Generator<void, SemanticTokens> {
  const reading = yield* study.reading();
  const uses = yield* listNames(reading);
  const roles = yield* nameRoles(study);
  const marksOf = meaningMarks(uses, roles);
  const text = textOf(study, path);
  const known = new Set([...listMacros(reading), ...Object.keys(study.input.options.defines)]);
  const names = uses.filter(({ span }) => span.file === path).map((use) => tokenOf(use, marksOf(use)));
  const macros = macroUses(text)
    .filter(({ name }) => known.has(name))
    .map(({ end, start }) => ({ range: rangeBetween(text, start, end), type: 'macro' as const, modifiers: [] }));
  const shown = [...names, ...macros].filter(({ range }) => within === null || overlaps(range, within));
  return { data: encoded(shown) };
}

interface Token {
  readonly range: Range;
  readonly type: TokenType;
  readonly modifiers: readonly Modifier[];
}

/** A name has the marks of its declarations, wherever it stands. */
function meaningMarks(uses: readonly NameUse[], { isClock, isRegister }: NameRoles): (use: NameUse) => Modifier[] {
  const marks = new Map<string, Set<Modifier>>();
  for (const { meaning, role, span } of uses) {
    if (role !== 'declared') continue;
    const own = marks.get(meaning) ?? new Set();
    if (isClock(span)) own.add('clock');
    if (isRegister(span)) own.add('register');
    marks.set(meaning, own);
  }
  return ({ meaning }) => [...(marks.get(meaning) ?? [])];
}

function tokenOf({ role, span, what }: NameUse, marks: readonly Modifier[]): Token {
  const constant = what === 'parameter' || what === 'loop-variable' ? ['readonly' as const] : [];
  const done = role === 'declared' ? ['declaration' as const] : role === 'written' ? ['modification' as const] : [];
  return { range: rangeOf(span), type: typeOf[what ?? 'net'], modifiers: [...done, ...constant, ...marks] };
}

const typeOf: Readonly<Record<DeclarationKind | 'package' | 'interface', TokenType>> = {
  package: 'namespace',
  interface: 'interface',
  module: 'class',
  // A part of what holds it, in no color that a clock could be taken for.
  instance: 'property',
  gate: 'property',
  block: 'namespace',
  modport: 'type',
  type: 'type',
  'enum-member': 'enumMember',
  'interface-port': 'variable',
  parameter: 'variable',
  input: 'variable',
  output: 'variable',
  inout: 'variable',
  net: 'variable',
  variable: 'variable',
  'loop-variable': 'variable',
  subroutine: 'function',
};

function overlaps(range: Range, within: Range): boolean {
  return !isBefore(range.end, within.start) && !isBefore(within.end, range.start);
}

/**
 * Five numbers for each token, lines and characters relative to the one before (protocol 3.17, Semantic Tokens). None
 * spans lines, and of two at one place the first counts.
 */
function encoded(tokens: readonly Token[]): number[] {
  const sorted = tokens
    .filter(({ range: { end, start } }) => start.line === end.line)
    .sort(({ range: left }, { range: right }) =>
      isBefore(left.start, right.start) ? -1 : isBefore(right.start, left.start) ? 1 : 0,
    );
  const data: number[] = [];
  let line = 0;
  let character = 0;
  let end = 0;
  for (const { modifiers: marks, range, type } of sorted) {
    const { start } = range;
    if (start.line === line && start.character < end) continue;
    const across = start.line === line ? start.character - character : start.character;
    const bits = marks.reduce((sum, mark) => sum | (1 << modifiers.indexOf(mark)), 0);
    data.push(start.line - line, across, range.end.character - start.character, types.indexOf(type), bits);
    line = start.line;
    character = start.character;
    end = range.end.character;
  }
  return data;
}
