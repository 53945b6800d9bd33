// Where a word stands in a text as it is typed, whatever is read of that text: for who replaces a name and must know that
// nothing was passed over. Comments and strings do not count.

import { isKeyword } from '../syntax/keywords';
import { canonicalName } from '../syntax/names';
import { nextToken, type Token, wordOf } from '../syntax/tokens';

export interface WordPlace {
  /** Offsets in the text. */
  readonly start: number;
  readonly end: number;
}

/** Names that are not those of macros, between two offsets. */
export function wordPlaces(text: string, name: string, from: number, to: number): readonly WordPlace[] {
  const places: WordPlace[] = [];
  let before: Token | null = null;
  for (
    let token = nextToken(text, from);
    token.kind !== 'end' && token.start < to;
    token = nextToken(text, token.end)
  ) {
    const isMacro = before?.kind === 'directive' && namers.has(wordOf(text, before));
    if (token.kind === 'name' && !isMacro && canonicalName(wordOf(text, token)) === name)
      places.push({ start: token.start, end: token.end });
    before = token;
  }
  return places;
}

/** Whether it can be written without a backslash and is no reserved word of either standard (IEEE 1364-2005 3.7, 1800 annex B). */
export function isPlainName(word: string): boolean {
  return /^[A-Za-z_][A-Za-z0-9_$]*$/.test(word) && !isKeyword(word);
}

/** Directives that a macro's name follows. */
const namers: ReadonlySet<string> = new Set(['`define', '`undef', '`ifdef', '`ifndef', '`elsif']);
