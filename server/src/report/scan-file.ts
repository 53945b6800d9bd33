// What a file declares and what it names, told from its words alone: quick enough for every file of a workspace, and not
// preprocessed, so that a branch which is not taken counts too. Whoever needs certainty reads the file.

import { readDefinition } from '../syntax/macros';
import { canonicalName } from '../syntax/names';
import { type Slice, sliceUnits } from '../syntax/slices';
import { nextToken, type Token, wordOf } from '../syntax/tokens';
import { indexLines, type LineIndex, positionOf } from '../text/line-index';
import type { FileOffset } from '../text/place';

export interface FileFacts {
  /** In source order. */
  readonly units: readonly ScannedUnit[];
  readonly macros: readonly ScannedName[];
}

export interface ScannedName {
  readonly name: string;
  /** One-based line and UTF-16 column of the name, which stands in one line. */
  readonly line: number;
  readonly column: number;
}

export interface ScannedUnit extends ScannedName {
  readonly what: Exclude<Slice['what'], 'loose'>;
  /** Names that may be those of other units: what is written like an instance, a type, or the package of a name. */
  readonly uses: readonly string[];
}

/** Yields after each unit. */
export function* scanFile(text: string): Generator<void, FileFacts> {
  const lines = indexLines(text);
  const units: ScannedUnit[] = [];
  for (const slice of sliceUnits(text, () => true)) {
    if (slice.what !== 'loose') units.push(...unitIn(text, lines, { ...slice, what: slice.what }));
    yield;
  }
  return { units, macros: [...macrosIn(text, lines)] };
}

function unitIn(text: string, lines: LineIndex, slice: Slice & Pick<ScannedUnit, 'what'>): readonly ScannedUnit[] {
  const token = nameBehind(text, slice.opening);
  if (token === null) return [];
  return [{ ...nameAt(text, lines, token), what: slice.what, uses: [...new Set(usesIn(text, token.end, slice.end))] }];
}

/** `module automatic m;` has a word between (IEEE 1800-2017 A.1.2). */
function nameBehind(text: string, opening: Token): Token | null {
  const next = nextToken(text, opening.end);
  const token = next.kind === 'keyword' ? nextToken(text, next.end) : next;
  return token.kind === 'name' ? token : null;
}

function nameAt(text: string, lines: LineIndex, token: Token): ScannedName {
  return { name: canonicalName(wordOf(text, token)), ...positionOf(lines, token.start as FileOffset) };
}

/** Behind no dot: a name before another name, before `#` or `::`, or before `.port name` as a modport is written. */
function* usesIn(text: string, start: number, end: number): Generator<string> {
  let isMember = false;
  let token = nextToken(text, start);
  while (token.kind !== 'end' && token.start < end) {
    const next = nextToken(text, token.end);
    if (token.kind === 'name' && !isMember && isUse(text, next)) yield canonicalName(wordOf(text, token));
    isMember = token.kind === 'mark' && token.end - token.start === 1 && text.charCodeAt(token.start) === dot;
    token = next;
  }
}

const dot = 0x2e;

function isUse(text: string, next: Token): boolean {
  if (next.kind === 'name') return true;
  if (next.kind !== 'mark') return false;
  const mark = wordOf(text, next);
  if (mark !== '.') return mark === '#' || mark === '::';
  const member = nextToken(text, next.end);
  return member.kind === 'name' && nextToken(text, member.end).kind === 'name';
}

function* macrosIn(text: string, lines: LineIndex): Generator<ScannedName> {
  for (const { index, 0: word } of text.matchAll(/`define(?=[ \t])/g)) {
    const { macro } = readDefinition(text, index + word.length);
    const start = macro === null ? -1 : text.indexOf(macro.name, index + word.length);
    if (macro !== null) yield { name: macro.name, ...positionOf(lines, start as FileOffset) };
  }
}
