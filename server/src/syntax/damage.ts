// What is wrong where reading failed, in the terms of `reasons.ts`: a number that is none, a parenthesis that
// is not closed, text that ends too early, or simply a word that does not belong there.

import type { UnitOffset } from '../text/place';
import type { Failing } from './probe';
import { shortened } from './reasons';
import { type Remark, remark } from './remark';
import type { At } from './tables';
import { nextToken, wordOf } from './tokens';
import { type UnitWords, wordsIn } from './word-walk';

export interface DamagedText {
  readonly text: string;
  readonly structure: UnitWords;
}

/** `stretch` is the damaged construct, `failing` the first token in it that no reading allows. */
export function remarkOnFailure(damaged: DamagedText, stretch: Failing, failing: Failing): Remark {
  const { text } = damaged;
  const number = badNumberAt(text, failing);
  if (number !== null)
    return remark('bad-number', { text: shortened(text.slice(number.start, number.end)) }, at(number));
  const open = openString(damaged, stretch);
  if (open !== null) return remark('unclosed', { what: 'string', expected: '"' }, at(open));
  const token = nextToken(text, failing.start);
  if (failing.start >= stretch.end || token.start >= stretch.end) {
    const last = lastTokenIn(damaged, stretch);
    return lacksParenthesis(damaged.structure, stretch.start, stretch.end)
      ? missingParenthesis(last.end)
      : remark('unexpected-end', {}, at(last));
  }
  const word = wordOf(text, token);
  // Of long text no more is known than that it fails.
  if (token.start <= stretch.start && lacksParenthesis(damaged.structure, stretch.start, stretch.end))
    return missingParenthesis(lastTokenIn(damaged, stretch).end);
  const isOpen = [token.start, stretch.end].every((end) => lacksParenthesis(damaged.structure, stretch.start, end));
  if (word === ';' && isOpen) return missingParenthesis(token.start);
  return unexpectedWord(word, at(token));
}

/** A reader of files puts U+FFFD where bytes are no UTF-8. */
export function unexpectedWord(word: string, place: At): Remark {
  if (word.includes('\uFFFD')) return remark('bad-character', {}, place);
  return remark('unexpected', { text: shortened(word) }, place);
}

function missingParenthesis(offset: number): Remark {
  return remark('missing', { what: ')' }, at({ start: offset, end: offset }));
}

/** Digits that run on into what no number has, or a base that no digit follows (IEEE 1364-2005 3.5.1). */
function badNumberAt(text: string, failing: Failing): Failing | null {
  let start = failing.start;
  while (start > 0 && numberPart.test(text[start - 1])) start -= 1;
  let end = failing.start;
  while (end < text.length && numberPart.test(text[end])) end += 1;
  const before = text.slice(start, failing.start);
  if (!/^[0-9]/.test(before)) return null;
  if (end > failing.start) return { start, end };
  return /'[sS]?[bodhBODH]$/.test(before) ? { start, end: Math.max(failing.end, end) } : null;
}

const numberPart = /[A-Za-z0-9_$'?]/;

/** A string that its line ends (IEEE 1364-2005 3.6). */
function openString({ structure }: DamagedText, stretch: Failing): Failing | null {
  const strings = wordsIn(structure, stretch.start, stretch.end).filter(
    (index) => structure.tokens[index].kind === 'string',
  );
  const open = strings.find((index) => !/^"[\s\S]*"$/.test(structure.words[index]));
  return open === undefined ? null : structure.tokens[open];
}

function lastTokenIn({ structure }: DamagedText, stretch: Failing): Failing {
  const last = wordsIn(structure, stretch.start, stretch.end).at(-1);
  return last === undefined ? stretch : structure.tokens[last];
}

/** Whether a parenthesis opened in the stretch is not closed in it; that of a `for` may hold semicolons. */
function lacksParenthesis(structure: UnitWords, start: number, end: number): boolean {
  const open = openParentheses(structure, start, end);
  return open.length > 0 && structure.words[open[open.length - 1] - 1] !== 'for';
}

/** Indices of the parentheses opened in the stretch and not closed in it. */
export function openParentheses(structure: UnitWords, start: number, end: number): readonly number[] {
  const open: number[] = [];
  for (const index of wordsIn(structure, start, end)) {
    if (structure.words[index] === '(') open.push(index);
    if (structure.words[index] === ')') open.pop();
  }
  return open;
}

function at({ start, end }: Failing) {
  return { start: start as UnitOffset, end: end as UnitOffset };
}
