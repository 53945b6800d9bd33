// What an editor can fold away: from an opening word to its closing word, and comments of several lines. From the words of
// the file as typed, so that text which is half typed folds as far as it goes.

import { closingWords } from './closing-words';
import { isBlank, isLineEnd, nextToken, skipBlank, wordOf } from '../syntax/tokens';
import { indexLines, positionOf } from '../text/line-index';
import type { FileOffset } from '../text/place';

/** Lines from one; `endLine` is the last that is folded away. */
export interface Folding {
  readonly kind: 'code' | 'comment';
  readonly line: number;
  readonly endLine: number;
}

/** By where they begin; only those of more than one line. */
export function listFoldings(text: string): readonly Folding[] {
  const lines = indexLines(text);
  const lineAt = (offset: number) => positionOf(lines, offset as FileOffset).line;
  const found = [...foldBlocks(text), ...foldComments(text)].map(({ end, kind, start }) => ({
    kind,
    line: lineAt(start),
    // The closing word stays in sight.
    endLine: kind === 'code' ? lineAt(end) - 1 : lineAt(end - 1),
  }));
  return found.filter(({ endLine, line }) => endLine > line).sort((left, right) => left.line - right.line);
}

interface Stretch {
  readonly kind: Folding['kind'];
  readonly start: number;
  readonly end: number;
}

/**
 * A closing word closes the nearest opening word that it fits; those between them were never closed. Words and conditional
 * directives are paired apart from each other: either branch may open what stands closed behind both.
 */
function* foldBlocks(text: string): Generator<Stretch> {
  const open = { keyword: openPairs(closingWords), directive: openPairs(closingDirectives) };
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    if (token.kind !== 'keyword' && token.kind !== 'directive') continue;
    const start = meet(open[token.kind], wordOf(text, token), token.start);
    if (start !== null) yield { kind: 'code', start, end: token.start };
  }
}

interface Pairs {
  /** Opening word → the words that close it. */
  readonly closings: ReadonlyMap<string, readonly string[]>;
  readonly open: { readonly closings: readonly string[]; readonly start: number }[];
}

function openPairs(closings: Pairs['closings']): Pairs {
  return { closings, open: [] };
}

/** Where the block begins that the word closes; null where it closes none. */
function meet({ closings, open }: Pairs, word: string, start: number): number | null {
  const closed = open.map((each) => each.closings.includes(word)).lastIndexOf(true);
  const begun = closed < 0 ? null : open[closed].start;
  if (closed >= 0) open.length = closed;
  const own = closings.get(word);
  // `else opens its branch only behind an `ifdef.
  if (own !== undefined && (begun !== null || !middles.has(word))) open.push({ closings: own, start });
  return begun;
}

/** Block comments, and neighboring lines that are nothing but comment. */
function* foldComments(text: string): Generator<Stretch> {
  for (let offset = 0; offset < text.length; ) {
    const token = nextToken(text, offset);
    yield* commentsBetween(text, offset, token.start);
    offset = Math.max(token.end, offset + 1);
  }
}

function* commentsBetween(text: string, from: number, to: number): Generator<Stretch> {
  if (skipBlank(text, from) === from) return;
  let lines: { start: number; end: number } | null = null;
  for (const { index, 0: comment } of text.slice(from, to).matchAll(blanks)) {
    const start = from + index;
    const end = start + comment.length;
    if (comment.startsWith('(')) continue;
    const isLine = comment.startsWith('//') && standsAlone(text, start);
    if (isLine && lines !== null && !hasEmptyLine(text.slice(lines.end, start))) lines.end = end;
    else {
      if (lines !== null) yield { kind: 'comment', ...lines };
      lines = isLine ? { start, end } : null;
      if (!comment.startsWith('//')) yield { kind: 'comment', start, end };
    }
  }
  if (lines !== null) yield { kind: 'comment', ...lines };
}

/** Comments, and attributes, in which nothing is a comment that does not end in them. */
const blanks = /\(\*[\s\S]*?\*\)|\/\*[\s\S]*?(?:\*\/|$)|\/\/[^\r\n]*/g;

function standsAlone(text: string, start: number): boolean {
  let offset = start - 1;
  while (offset >= 0 && isBlank(text.charCodeAt(offset)) && !isLineEnd(text.charCodeAt(offset))) offset -= 1;
  return offset < 0 || isLineEnd(text.charCodeAt(offset));
}

function hasEmptyLine(between: string): boolean {
  return /\n[^\S\n]*\n|\r\r/.test(between.replaceAll('\r\n', '\n'));
}

const middles: ReadonlySet<string> = new Set(['`else', '`elsif']);
const conditionalEnds = ['`elsif', '`else', '`endif'];
const closingDirectives: Pairs['closings'] = new Map(
  ['`ifdef', '`ifndef', '`elsif', '`else'].map((word) => [word, conditionalEnds]),
);
