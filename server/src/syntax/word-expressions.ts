// Expressions from words alone, for text that the grammar does not read as the standard has it: operators by the table of
// IEEE 1364-2005 5.1.2, names, selects, literals, concatenations, min:typ:max in parentheses. Calls and hierarchical names
// are not read here. What cannot be read stops the walk with the token that does not fit.

import type { UnitOffset } from '../text/place';
import { canonicalName } from './names';
import { plainDecimal } from './numbers';
import type { At, BinaryOperator, Expression, UnaryOperator } from './tables';
import { nextToken, type Token, wordOf } from './tokens';

export interface Words {
  readonly text: string;
  /** What lies behind is not looked at. */
  readonly end: number;
  token: Token;
  depth: number;
  readonly nestingLimit: number;
}

/** The token that does not fit. */
export interface Misfit {
  readonly kind: 'misfit';
  readonly token: Token;
}

export type Read<Value> = { readonly kind: 'read'; readonly value: Value } | Misfit;

export function openWords(text: string, { start, end }: At, nestingLimit: number): Words {
  return { text, end, token: tokenAt(text, start, end), depth: 0, nestingLimit };
}

export function word(words: Words): string {
  return wordOf(words.text, words.token);
}

export function isAtEnd({ token }: Words): boolean {
  return token.kind === 'end';
}

export function advance(words: Words): Token {
  const { token } = words;
  words.token = tokenAt(words.text, token.end, words.end);
  return token;
}

/** Takes the mark or keyword where it stands here. */
export function take(words: Words, wanted: string): boolean {
  if (words.token.kind === 'end' || word(words) !== wanted) return false;
  advance(words);
  return true;
}

function tokenAt(text: string, from: number, end: number): Token {
  const token = nextToken(text, from);
  return token.start >= end ? { kind: 'end', start: end, end } : token;
}

export function misfit(words: Words): Misfit {
  return { kind: 'misfit', token: words.token };
}

/** As an argument or delay: min:typ:max, or one expression for all three. */
export function readTriple(words: Words): Read<Expression> {
  const min = readWords(words);
  if (min.kind === 'misfit' || !take(words, ':')) return min;
  const typ = readWords(words);
  if (typ.kind === 'misfit') return typ;
  if (!take(words, ':')) return misfit(words);
  const max = readWords(words);
  if (max.kind === 'misfit') return max;
  const at = span(min.value.at, max.value.at);
  return read({ kind: 'mintypmax', at, min: min.value, typ: typ.value, max: max.value });
}

/** With commas between. */
export function readList<Value>(words: Words, readOne: (words: Words) => Read<Value>): Read<readonly Value[]> {
  const list: Value[] = [];
  do {
    const one = readOne(words);
    if (one.kind === 'misfit') return one;
    list.push(one.value);
  } while (take(words, ','));
  return { kind: 'read', value: list };
}

/** One value, or several in parentheses. */
export function readDelays(words: Words): Read<readonly Expression[]> {
  const back = words.token;
  if (take(words, '(')) {
    const listed = readList(words, readTriple);
    if (listed.kind === 'read' && take(words, ')') && endsDelays.has(word(words))) return listed;
    words.token = back;
  }
  const only = readTriple(words);
  return only.kind === 'misfit' ? only : { kind: 'read', value: [only.value] };
}

export function readWords(words: Words): Read<Expression> {
  if (words.depth >= words.nestingLimit) return misfit(words);
  words.depth += 1;
  const condition = readBinary(words, 0);
  const whole = condition.kind === 'read' && word(words) === '?' ? readChoice(words, condition.value) : condition;
  words.depth -= 1;
  return whole;
}

function readChoice(words: Words, condition: Expression): Read<Expression> {
  advance(words);
  const then = readWords(words);
  if (then.kind === 'misfit') return then;
  if (!take(words, ':')) return misfit(words);
  const otherwise = readWords(words);
  if (otherwise.kind === 'misfit') return otherwise;
  const at = span(condition.at, otherwise.value.at);
  return read({ kind: 'conditional', at, condition, then: then.value, else: otherwise.value });
}

/** Operators that bind at least as strongly as `least`; equal ones group to the left. */
function readBinary(words: Words, least: number): Read<Expression> {
  let left = readUnary(words);
  while (left.kind === 'read') {
    const operator = word(words) === '^~' ? '~^' : word(words);
    const strength = words.token.kind === 'mark' ? strengths.get(operator) : undefined;
    if (strength === undefined || strength < least) return left;
    advance(words);
    const right = readBinary(words, strength + 1);
    if (right.kind === 'misfit') return right;
    const at = span(left.value.at, right.value.at);
    left = read({
      kind: 'binary',
      at,
      operator: operator as BinaryOperator,
      left: left.value,
      right: right.value,
    });
  }
  return left;
}

function readUnary(words: Words): Read<Expression> {
  const operator = word(words) === '^~' ? '~^' : word(words);
  if (words.token.kind !== 'mark' || !unaryOperators.has(operator)) return readPrimary(words);
  if (words.depth >= words.nestingLimit) return misfit(words);
  const { start } = advance(words);
  words.depth += 1;
  const operand = readUnary(words);
  words.depth -= 1;
  if (operand.kind === 'misfit') return operand;
  const at = { start: start as UnitOffset, end: operand.value.at.end };
  return read({ kind: 'unary', at, operator: operator as UnaryOperator, operand: operand.value });
}

function readPrimary(words: Words): Read<Expression> {
  const { kind } = words.token;
  if (kind === 'name') return readSelects(words, readName(words));
  if (kind === 'number') return readNumber(words);
  if (word(words) === '(') return readParentheses(words);
  return word(words) === '{' ? readBraces(words) : misfit(words);
}

function readName(words: Words): Expression {
  const token = advance(words);
  return { kind: 'name', at: placeOf(token), name: canonicalName(wordOf(words.text, token)) };
}

/** A name with its selects, as the ends of a path are. */
export function readTerminal(words: Words): Read<Expression> {
  return words.token.kind === 'name' ? readSelects(words, readName(words)) : misfit(words);
}

function readSelects(words: Words, name: Expression): Read<Expression> {
  let base = name;
  while (word(words) === '[') {
    advance(words);
    const left = readWords(words);
    if (left.kind === 'misfit') return left;
    const mode = rangeModes.get(word(words));
    if (mode !== undefined) advance(words);
    const right = mode === undefined ? null : readWords(words);
    if (right?.kind === 'misfit') return right;
    const closing = words.token;
    if (!take(words, ']')) return misfit(words);
    const at = span(name.at, placeOf(closing));
    base =
      mode === undefined || right === null
        ? { kind: 'index', at, base, index: left.value }
        : { kind: 'range', at, base, mode, left: left.value, right: right.value };
  }
  return read(base);
}

/** A size and a base are two tokens; so are a fill's apostrophe and digit never. */
function readNumber(words: Words): Read<Expression> {
  const token = advance(words);
  const at = placeOf(token);
  const written = wordOf(words.text, token).replaceAll('_', '');
  if (written.startsWith("'")) return based(words, at, null, written);
  if (words.token.kind === 'number' && word(words).startsWith("'")) {
    const base = advance(words);
    return based(words, span(at, placeOf(base)), Number(written), wordOf(words.text, base).replaceAll('_', ''));
  }
  const time = /^([0-9.eE+-]+)(s|ms|us|ns|ps|fs)$/.exec(written);
  if (time !== null) return read({ kind: 'time', at, value: Number(time[1]), unit: time[2] as 'ns' });
  if (/^[0-9]+$/.test(written)) return read(plainDecimal(at, written));
  return read({ kind: 'real', at, value: Number(written) });
}

function based(words: Words, at: At, size: number | null, written: string): Read<Expression> {
  const parts = /^'([sS]?)([bBoOdDhH])\s*(\S+)$/.exec(written);
  if (parts !== null) {
    const digits = parts[3].toLowerCase().replaceAll('?', 'z');
    const base = parts[2].toLowerCase() as 'b' | 'o' | 'd' | 'h';
    return read({ kind: 'number', at, size, signed: parts[1] !== '', base, digits });
  }
  if (size !== null) return misfit(words);
  return read({ kind: 'fill', at, digit: written.slice(-1).toLowerCase() as '0' | '1' | 'x' | 'z' });
}

function readParentheses(words: Words): Read<Expression> {
  advance(words);
  const inner = readTriple(words);
  if (inner.kind === 'misfit') return inner;
  return take(words, ')') ? inner : misfit(words);
}

/** A concatenation, or one repeated. */
function readBraces(words: Words): Read<Expression> {
  const { start } = advance(words);
  const first = readWords(words);
  if (first.kind === 'misfit') return first;
  const isRepeated = take(words, '{');
  const parts: Expression[] = [];
  if (!isRepeated) parts.push(first.value);
  while (isRepeated ? parts.length === 0 || take(words, ',') : take(words, ',')) {
    const part = readWords(words);
    if (part.kind === 'misfit') return part;
    parts.push(part.value);
  }
  if (isRepeated && !take(words, '}')) return misfit(words);
  const closing = words.token;
  if (!take(words, '}')) return misfit(words);
  const at = { start: start as UnitOffset, end: closing.end as UnitOffset };
  return read(isRepeated ? { kind: 'replicate', at, count: first.value, parts } : { kind: 'concat', at, parts });
}

function read(value: Expression): Read<Expression> {
  return { kind: 'read', value };
}

export function placeOf({ start, end }: Pick<Token, 'start' | 'end'>): At {
  return { start: start as UnitOffset, end: end as UnitOffset };
}

function span(first: At, last: At): At {
  return { start: first.start, end: last.end };
}

const unaryOperators: ReadonlySet<string> = new Set(['+', '-', '!', '~', '&', '~&', '|', '~|', '^', '~^']);

/** Weakest first (Table 5-4). */
const byStrength: readonly (readonly string[])[] = [
  ['||'],
  ['&&'],
  ['|'],
  ['^', '~^'],
  ['&'],
  ['==', '!=', '===', '!=='],
  ['<', '<=', '>', '>='],
  ['<<', '>>', '<<<', '>>>'],
  ['+', '-'],
  ['*', '/', '%'],
  ['**'],
];
const strengths: ReadonlyMap<string, number> = new Map(
  byStrength.flatMap((operators, strength) => operators.map((operator) => [operator, strength] as const)),
);

const rangeModes: ReadonlyMap<string, 'fixed' | 'up' | 'down'> = new Map([
  [':', 'fixed'],
  ['+:', 'up'],
  ['-:', 'down'],
]);

const endsDelays: ReadonlySet<string> = new Set([';', ',']);
