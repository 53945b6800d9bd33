// A specify block (IEEE 1364-2005 14 and 15), read from its words: the grammar refuses forms that the standard allows.
// Its specparams become parameters of the module. A statement that does not fit is said and left out; the rest is read.

import { canonicalName } from './names';
import type { Reader } from './reader';
import { shortened } from './reasons';
import { type Remark, remark } from './remark';
import { readCheck } from './specify-checks';
import { readPath } from './specify-paths';
import type { At, Declarator, Item, SpecifyPart } from './tables';
import { nextToken, wordOf } from './tokens';
import {
  advance,
  isAtEnd,
  misfit,
  openWords,
  placeOf,
  type Read,
  readDelays,
  readList,
  readTerminal,
  readTriple,
  readWords,
  take,
  type Words,
  word,
} from './word-expressions';

/** `at`: from `specify` on, or a specparam by itself (4.10.3). What stands behind `endspecify` is not looked at. */
export function readSpecify({ text, remarks, nestingLimit }: Reader, at: At): readonly Item[] {
  const words = openWords(text, at, nestingLimit);
  const isBlock = take(words, 'specify');
  const parts: SpecifyPart[] = [];
  const parameters: Item[] = [];
  while (!isAtEnd(words) && word(words) !== 'endspecify') {
    const { start } = words.token;
    const found = readStatement(words, parameters, parts);
    if (found.kind === 'read' && take(words, ';')) continue;
    remarks.push(refusal(words, start));
    while (!isAtEnd(words) && word(words) !== 'endspecify' && !take(words, ';')) advance(words);
  }
  return isBlock || parts.length > 0 ? [...parameters, { kind: 'specify', at, parts }] : parameters;
}

/** Whether a lost stretch of the unit's text is such a block. */
export function isSpecify(text: string, { start }: At): boolean {
  return wordOf(text, nextToken(text, start)) === 'specify';
}

function refusal(words: Words, start: number): Remark {
  if (words.depth > 0) words.depth = 0;
  const { token, text } = words;
  if (token.kind === 'end')
    return remark('unexpected-end', {}, placeOf({ start, end: Math.max(start + 1, token.end) }));
  return remark('unexpected', { text: shortened(wordOf(text, token)) }, placeOf(token));
}

/** Up to its semicolon. */
function readStatement(words: Words, parameters: Item[], parts: SpecifyPart[]): Read<unknown> {
  const first = word(words);
  if (first === 'specparam') return readSpecparams(words, parameters, parts);
  const style = styles.get(first);
  if (style !== undefined) return readStyle(words, style, parts);
  const part = words.token.kind === 'system' ? readCheck(words) : readPath(words);
  if (part.kind === 'read') parts.push(part.value);
  return part;
}

function readStyle(
  words: Words,
  style: Extract<SpecifyPart, { kind: 'pulse-style' }>['style'],
  parts: SpecifyPart[],
): Read<unknown> {
  const at = placeOf(advance(words));
  const outputs = readList(words, readTerminal);
  if (outputs.kind === 'read') parts.push({ kind: 'pulse-style', at, style, outputs: outputs.value });
  return outputs;
}

function readSpecparams(words: Words, parameters: Item[], parts: SpecifyPart[]): Read<unknown> {
  const { start } = advance(words);
  const ranges = [];
  if (word(words) === '[') {
    const range = readRange(words);
    if (range.kind === 'misfit') return range;
    ranges.push(range.value);
  }
  const declarators: Declarator[] = [];
  const found = readList(words, () => readSpecparam(words, declarators, parts));
  const type = { signed: false, ranges };
  if (declarators.length > 0)
    parameters.push({
      kind: 'parameter',
      at: placeOf({ start, end: words.token.start }),
      local: true,
      variable: null,
      type,
      declarators,
    });
  return found;
}

function readRange(words: Words) {
  const { start } = advance(words);
  const msb = readWords(words);
  if (msb.kind === 'misfit') return msb;
  if (!take(words, ':')) return misfit(words);
  const lsb = readWords(words);
  if (lsb.kind === 'misfit') return lsb;
  const { end } = words.token;
  if (!take(words, ']')) return misfit(words);
  const range = { at: placeOf({ start, end }), msb: msb.value, lsb: lsb.value };
  return { kind: 'read' as const, value: range };
}

function readSpecparam(words: Words, declarators: Declarator[], parts: SpecifyPart[]): Read<unknown> {
  if (words.token.kind !== 'name') return misfit(words);
  const name = placeOf(advance(words));
  const written = canonicalName(words.text.slice(name.start, name.end));
  if (!take(words, '=')) return misfit(words);
  if (written.startsWith(pulseName)) return readPulseLimits(words, name, written, parts);
  const value = readTriple(words);
  if (value.kind === 'misfit') return value;
  const at = { start: name.start, end: value.value.at.end };
  declarators.push({ at, name: { ...name, name: written }, dimensions: [], value: value.value });
  return value;
}

/** One limit for both, or (reject, error). The terminals stand in the name (14.6.1). */
function readPulseLimits(words: Words, at: At, name: string, parts: SpecifyPart[]): Read<unknown> {
  const limits = readDelays(words);
  if (limits.kind === 'misfit') return limits;
  const [from, to] = name.slice(pulseName.length).split('$');
  const isOfModule = to === undefined;
  parts.push({
    kind: 'pulse-limits',
    at,
    from: isOfModule ? null : from,
    to: isOfModule ? null : to,
    limits: limits.value,
  });
  return limits;
}

const pulseName = 'PATHPULSE$';

const styles: ReadonlyMap<string, Extract<SpecifyPart, { kind: 'pulse-style' }>['style']> = new Map([
  ['pulsestyle_onevent', 'onevent'],
  ['pulsestyle_ondetect', 'ondetect'],
  ['showcancelled', 'showcancelled'],
  ['noshowcancelled', 'noshowcancelled'],
]);
