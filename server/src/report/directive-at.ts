// Directives as an editor asks for them: what a caret stands on, and where a macro is defined. From the words of the text;
// branches that are not taken count too, since a person may be writing in one.

import type { Reading } from '../syntax/read';
import { nextToken, type Token, wordOf } from '../syntax/tokens';
import { spanOfRange } from '../text/origin';
import type { FileOffset, Span } from '../text/place';
import { includeCandidates, shelve } from '../syntax/includes';

export interface DirectiveAt {
  /** macro: a use, a definition, or a question whether it is defined. */
  readonly kind: 'macro' | 'include';
  /** Of the macro, or of the file as written. */
  readonly name: string;
}

/** Null where the offset, both ends included, is on no such thing. */
export function directiveAt(text: string, offset: number): DirectiveAt | null {
  for (const { end, start, ...directive } of directives(text)) {
    if (start > offset) return null;
    if (offset <= end) return directive;
  }
  return null;
}

/** The names in all definitions of the macro, file by file. */
export function macroDefinitions({ files }: Reading, name: string): readonly Span[] {
  return files.flatMap(({ text }, file) =>
    [...directives(text)]
      .filter((each) => each.isDefinition && each.name === name)
      .map(({ end, start }) => spanOfRange(files, { file, start: start as FileOffset, end: end as FileOffset })),
  );
}

/** Where the macro's name stands in a text: definitions, uses without their back tick, questions whether it is defined. */
export function macroPlaces(text: string, name: string): readonly MacroPlace[] {
  return macroUses(text).filter((each) => each.name === name);
}

export interface MacroPlace {
  /** Offsets in the text. */
  readonly start: number;
  readonly end: number;
  readonly isDefinition: boolean;
}

/** All names of macros in a text: definitions, uses without their back tick, questions whether one is defined. */
export function macroUses(text: string): readonly (MacroPlace & { readonly name: string })[] {
  return [...directives(text)]
    .filter(({ kind }) => kind === 'macro')
    .map(({ end, isDefinition, name }) => ({ name, start: end - name.length, end, isDefinition }));
}

/** Names of all macros that the files define. */
export function listMacros({ files }: Reading): readonly string[] {
  const defined = files.flatMap(({ text }) => [...directives(text)].filter(({ isDefinition }) => isDefinition));
  return [...new Set(defined.map(({ name }) => name))];
}

/** The path of the file that an include in `asking` brings in; null where it is not at hand. */
export function includedPath(
  { files }: Reading,
  { asking, folders, name }: { readonly asking: string; readonly folders: readonly string[]; readonly name: string },
): string | null {
  const shelf = shelve(files, []);
  const found = includeCandidates(asking, name, folders).map((path) => shelf.find(path));
  const first = found.find((index) => index !== null);
  return first === undefined ? null : files[first].path;
}

interface Directive extends DirectiveAt {
  readonly isDefinition: boolean;
  readonly start: number;
  readonly end: number;
}

/** In order; each with the stretch that a caret may stand on. */
function* directives(text: string): Generator<Directive> {
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    if (token.kind !== 'directive') continue;
    const word = wordOf(text, token).slice(1);
    const named = namers.has(word) ? nextToken(text, token.end) : null;
    if (word === 'include') yield* includeBehind(text, token);
    else if (named === null)
      yield { kind: 'macro', name: word, isDefinition: false, start: token.start, end: token.end };
    else if (isWord(named))
      yield { kind: 'macro', name: wordOf(text, named), isDefinition: word === 'define', ...stretchOf(named) };
  }
}

/** A macro may be called as a keyword is. */
function isWord({ kind }: Token): boolean {
  return kind === 'name' || kind === 'keyword';
}

function stretchOf({ end, start }: Token): { readonly start: number; readonly end: number } {
  return { start, end };
}

function* includeBehind(text: string, { end, start }: Token): Generator<Directive> {
  const written = /[ \t]*(?:"([^"\r\n]*)"|<([^>\r\n]*)>)/y;
  written.lastIndex = end;
  const found = written.exec(text);
  if (found === null) return;
  yield { kind: 'include', name: found[1] ?? found[2], isDefinition: false, start, end: written.lastIndex };
}

/** Directives that a macro's name follows. */
const namers: ReadonlySet<string> = new Set(['define', 'undef', 'ifdef', 'ifndef', 'elsif']);
