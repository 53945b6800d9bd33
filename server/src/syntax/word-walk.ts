// A walk over a module's words that finds where constructs end without the grammar: the steps that items and
// statements share.

import { lastAtOrBefore } from '../text/line-index';
import type { UnitOffset } from '../text/place';
import type { Edit } from './edits';
import { type Remark, remark } from './remark';
import { closing, closers, openers, neverInExpression, neverInLine, declaring } from './structure-words';
import { isBlank, isLineEnd, nextToken, type Token, wordOf } from './tokens';

/** `inner` are the statements or items it holds. */
export interface Construct {
  /** `one`: a statement where no other may follow. `declaration`: in a function. `stray`: a closing word that closes nothing. */
  readonly kind: 'header' | 'item' | 'statement' | 'one' | 'declaration' | 'stray';
  readonly start: number;
  readonly end: number;
  readonly inner: readonly Construct[];
}

/** All words of a unit, in order. */
export interface UnitWords {
  readonly tokens: readonly Token[];
  readonly words: readonly string[];
  /** Where each begins, for searching. */
  readonly starts: Int32Array;
}

export interface WordWalk extends UnitWords {
  readonly text: string;
  /** Closing words that are missing, put in where they are needed. */
  readonly edits: Edit[];
  readonly remarks: Remark[];
  readonly nestingLimit: number;
  /** Where constructs begin that are nested too deep to be walked. */
  readonly tooDeep: number[];
  index: number;
  depth: number;
  /** Zero-based column of the process being walked; before the first, none is further out. */
  processColumn: number;
  /** Whether closing words are told by where their lines begin. */
  readonly byColumn: boolean;
  readonly closings: Closings;
}

export function splitWords(text: string): UnitWords {
  const tokens: Token[] = [];
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) tokens.push(token);
  const words = tokens.map((token) => wordOf(text, token));
  return { tokens, words, starts: Int32Array.from(tokens, (token) => token.start) };
}

/** How closing words stand that have been taken for what they close. */
export interface Closings {
  /** On the line of the opening word, or first on a line that begins where the opening word's does. */
  aligned: number;
  askew: number;
}

export function openWalk(
  text: string,
  { nestingLimit, byColumn }: Pick<WordWalk, 'nestingLimit' | 'byColumn'>,
): WordWalk {
  return {
    text,
    ...splitWords(text),
    edits: [],
    remarks: [],
    tooDeep: [],
    nestingLimit,
    index: 0,
    depth: 0,
    processColumn: -1,
    byColumn,
    closings: { aligned: 0, askew: 0 },
  };
}

/** Index of the first word that begins at or behind `offset`. */
export function firstFrom({ starts }: Pick<UnitWords, 'starts'>, offset: number): number {
  const last = lastAtOrBefore(starts, offset);
  return starts.length > 0 && starts[last] < offset ? last + 1 : last;
}

/** Indices of the words that lie whole in the stretch. */
export function wordsIn(words: UnitWords, start: number, end: number): readonly number[] {
  const indices: number[] = [];
  for (let index = firstFrom(words, start); index < words.tokens.length && words.tokens[index].end <= end; index += 1) {
    indices.push(index);
  }
  return indices;
}

/** The word the walk stands at; empty behind the last one. */
export function current(walk: WordWalk): string {
  return walk.words[walk.index] ?? '';
}

export function isAtEnd(walk: WordWalk): boolean {
  return walk.index >= walk.tokens.length;
}

function endBefore(walk: WordWalk): number {
  return walk.index === 0 ? 0 : walk.tokens[walk.index - 1].end;
}

/** The construct from the token at `first` to the one before the walk. */
export function constructFrom(
  walk: WordWalk,
  first: number,
  kind: Construct['kind'],
  inner: readonly (Construct | null)[] = [],
): Construct {
  const { start } = walk.tokens[first];
  const held = inner.filter((each): each is Construct => each !== null);
  return { kind, start, end: Math.max(start, endBefore(walk)), inner: held };
}

/** Takes the closing word and its label, or says at `opening` that it is missing and puts it in. */
export function close(walk: WordWalk, opening: number, closers: readonly string[]): void {
  if (closers.includes(current(walk)) && !isFurtherOut(walk, opening)) {
    walk.closings[isAligned(walk, opening) ? 'aligned' : 'askew'] += 1;
    walk.index += 1;
    skipLabel(walk);
    return;
  }
  const token = walk.tokens[opening];
  const at = { start: token.start as UnitOffset, end: token.end as UnitOffset };
  walk.remarks.push(remark('unclosed', { what: walk.words[opening], expected: closers[0] }, at));
  walk.edits.push({ start: endBefore(walk), end: endBefore(walk), text: ` ${closers[0]} `, owner: token.start });
}

/** Whether the word the walk stands at closes what a construct further out has opened. */
function isFurtherOut(walk: WordWalk, opening: number): boolean {
  return walk.byColumn && standsAt(walk, opening) === 'further out';
}

/** Whether it is a closing word that what opens at `opening` does not hold and that closes nothing around it. */
export function isStray(walk: WordWalk, opening: number): boolean {
  return walk.byColumn && closers.has(current(walk)) && standsAt(walk, opening) === 'further in';
}

function isAligned(walk: WordWalk, opening: number): boolean {
  return standsAt(walk, opening) === 'there';
}

/** Where the walk's word stands, against the line of the word at `opening`. In the middle of another line nothing is closed. */
function standsAt({ index, text, tokens }: WordWalk, opening: number): 'further out' | 'there' | 'further in' {
  const { start } = tokens[index];
  const line = lineStart(text, tokens[opening].start);
  if (lineStart(text, start) === line) return 'there';
  if (!isFirstOnLine(text, start)) return 'further in';
  const column = start - lineStart(text, start);
  const indent = indentOf(text, line);
  return column === indent ? 'there' : column < indent ? 'further out' : 'further in';
}

export function lineStart(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && !isLineEnd(text.charCodeAt(start - 1))) start -= 1;
  return start;
}

function indentOf(text: string, line: number): number {
  let offset = line;
  while (offset < text.length && isBlank(text.charCodeAt(offset)) && !isLineEnd(text.charCodeAt(offset))) offset += 1;
  return offset - line;
}

/** : label */
export function skipLabel(walk: WordWalk): void {
  if (current(walk) === ':' && walk.tokens[walk.index + 1]?.kind === 'name') walk.index += 2;
}

/**
 * From an opening parenthesis to behind the one that closes it, or to a word that cannot stand inside. Where
 * there is none, up to where the line ends or a construct begins.
 */
export function skipParentheses(walk: WordWalk, { semicolons }: { readonly semicolons: boolean }): void {
  const hasOpening = current(walk) === '(';
  let depth = 0;
  for (; !isAtEnd(walk); walk.index += 1) {
    const word = current(walk);
    // for (genvar i = 0; …)
    const declares = word === 'genvar' && semicolons && walk.words[walk.index - 1] === '(';
    if ((neverInLine.has(word) && !declares) || (word === ';' && !(semicolons && hasOpening))) return;
    if (word === '(') depth += 1;
    else if (word === ')') depth -= 1;
    if (depth === 0 && hasOpening) {
      walk.index += 1;
      return;
    }
  }
}

/** At least one word, then up to and with a semicolon, or up to where something else must begin. */
export function skipLine(walk: WordWalk): void {
  walk.index += 1;
  if (walk.words[walk.index - 1] === ';') return;
  for (; !isAtEnd(walk); walk.index += 1) {
    if (current(walk) === ';') {
      walk.index += 1;
      return;
    }
    if (beginsAfresh(walk)) return;
  }
}

/** A construct that is nested too deep, with all that it holds: only its opening and closing words are counted. */
export function skipTooDeep(walk: WordWalk): void {
  walk.tooDeep.push(walk.tokens[walk.index].start);
  let open = 0;
  for (; !isAtEnd(walk); walk.index += 1) {
    const word = current(walk);
    if (word === 'endmodule' || (open === 0 && closers.has(word))) return;
    if (openers.has(word)) open += 1;
    else if (closers.has(word)) open -= 1;
    if (open === 0 && (word === ';' || closers.has(word))) {
      walk.index += 1;
      return;
    }
  }
}

/** A word that opens a declaration also ends what came before, if it stands first on its line: behind a whole operand, or where no operand can be. */
function beginsAfresh(walk: WordWalk): boolean {
  const word = current(walk);
  if (neverInLine.has(word)) return true;
  if (!isFirstOnLine(walk.text, walk.tokens[walk.index].start)) return false;
  if (neverInExpression.has(word) || isInstance(walk)) return true;
  return declaring.has(word) && endsOperand(walk, walk.index - 1);
}

/** module name ( or module #( : nowhere else do two names meet so. */
export function isInstance({ index, tokens, words }: WordWalk): boolean {
  if (tokens[index]?.kind !== 'name') return false;
  return words[index + 1] === '#'
    ? words[index + 2] === '('
    : tokens[index + 1]?.kind === 'name' && words[index + 2] === '(';
}

function endsOperand(walk: WordWalk, index: number): boolean {
  const kind = walk.tokens[index].kind;
  return kind === 'name' || kind === 'number' || kind === 'string' || closing.has(walk.words[index]);
}

export function isFirstOnLine(text: string, offset: number): boolean {
  let before = offset - 1;
  while (before >= 0 && isBlank(text.charCodeAt(before)) && !isLineEnd(text.charCodeAt(before))) before -= 1;
  return before < 0 || isLineEnd(text.charCodeAt(before));
}
