// Numbers and strings as bits (IEEE 1364-2005 3.5.1, 3.6). A size cuts or pads; an unsized number has at least 32
// bits, and more where its digits need them. Padding is 0, or x or z where the leftmost digit is.

import { type Bits, bitsOf, fromBigInt, fromNumber } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import type { Expression } from '../syntax/tables';

export type NumberLiteral = Extract<Expression, { kind: 'number' }>;

/** Bits of an unsized number whose digits need no more. */
const leastWidth = 32;

const widths = new WeakMap<NumberLiteral, number>();
const values = new WeakMap<NumberLiteral, Bits>();

/** A decimal of less than 32 bits, as most literals are: these need no looking up. */
function isSmall({ base, digits }: NumberLiteral): boolean {
  return base === 'd' && digits.length < 10 && digits !== 'x' && digits !== 'z';
}

/** Width on its own, before any context widens it. */
export function literalWidth(literal: NumberLiteral): number {
  const known = literal.size ?? (isSmall(literal) ? leastWidth : widths.get(literal));
  if (known !== undefined) return known;
  const width = unsizedWidth(literal);
  widths.set(literal, width);
  return width;
}

function unsizedWidth(literal: NumberLiteral): number {
  const digits = binaryDigits(literal);
  const first = digits.search(/[^0]/);
  const needed = first < 0 ? 1 : digits.length - first;
  return Math.max(leastWidth, isDecimalOfSign(literal) ? needed + 1 : needed);
}

/**
 * The literal's bits at a width of at least its own. An unsized literal with x or z leftmost fills all of it (3.5.1);
 * any other widening is left to the caller, who knows the sign of the context.
 */
export function literalBits(literal: NumberLiteral, width: number): Bits {
  if (isSmall(literal)) return fromNumber(literal.size ?? leastWidth, Number(literal.digits));
  const known = values.get(literal);
  if (known !== undefined) return known;
  const digits = binaryDigits(literal);
  const fill = digits[0] === 'x' || digits[0] === 'z' ? digits[0] : '0';
  const own = literal.size ?? (fill === '0' ? literalWidth(literal) : width);
  const bits = slice(bitsOf(digits.padStart(own, fill)), 0, own);
  if (literal.size !== null || fill === '0') values.set(literal, bits);
  return bits;
}

/** Eight bits per character, the first most significant; the empty string is one zero byte (3.6). */
export function stringBits(text: string): Bits {
  if (text === '') return bitsOf('00000000');
  let digits = '';
  for (const character of text) digits += ((character.codePointAt(0) ?? 0) & 0xff).toString(2).padStart(8, '0');
  return bitsOf(digits);
}

/** A plain decimal is signed and never negative: it needs a place for the sign. */
function isDecimalOfSign(literal: NumberLiteral): boolean {
  return literal.signed && literal.base === 'd';
}

const digitWidths = { b: 1, o: 3, h: 4 } as const;

function binaryDigits({ base, digits }: NumberLiteral): string {
  if (base === 'd') return decimalDigits(digits);
  const width = digitWidths[base];
  let binary = '';
  for (const digit of digits) {
    binary +=
      digit === 'x' || digit === 'z'
        ? digit.repeat(width)
        : parseInt(digit, 1 << width)
            .toString(2)
            .padStart(width, '0');
  }
  return binary === '' ? '0' : binary;
}

function decimalDigits(digits: string): string {
  if (digits === 'x' || digits === 'z') return digits;
  return digits === '' ? '0' : BigInt(digits).toString(2);
}

/**
 * A constant as text, for parameters given from outside: `12`, `-3`, `8'hff`, `4'sb1010`, `1.5`, `"text"`. Null for
 * anything else.
 */
export function readLiteral(text: string): LiteralText | null {
  const trimmed = text.trim();
  const string = /^"([^"]*)"$/.exec(trimmed);
  if (string !== null) return { kind: 'bits', bits: stringBits(string[1]), signed: false };
  if (/^[+-]?\d[\d_]*(\.\d+([eE][+-]?\d+)?|[eE][+-]?\d+)$/.test(trimmed)) {
    return { kind: 'real', value: Number(trimmed.replace(/_/g, '')) };
  }
  const match = /^([+-]?)\s*(?:(\d*)\s*'([sS]?)([bodhBODH])\s*)?([0-9a-fA-FxXzZ?_]+)$/.exec(trimmed);
  if (match === null) return null;
  const [, sign, size, signed, base, digits] = match;
  const letter = (base ?? 'd').toLowerCase() as NumberLiteral['base'];
  const plain = digits.toLowerCase().replace(/_/g, '').replace(/\?/g, 'z');
  if (!digitPatterns[letter].test(plain)) return null;
  const width = size === undefined || size === '' ? null : Number(size);
  if (width === 0) return null;
  const literal = { size: width, signed: base === undefined || signed !== '', base: letter, digits: plain };
  return { ...literalValue(literal as NumberLiteral, sign === '-'), kind: 'bits' };
}

export type LiteralText =
  | { readonly kind: 'bits'; readonly bits: Bits; readonly signed: boolean }
  | { readonly kind: 'real'; readonly value: number };

const digitPatterns = { b: /^[01xz]+$/, o: /^[0-7xz]+$/, d: /^([0-9]+|x|z)$/, h: /^[0-9a-fxz]+$/ };

function literalValue(literal: NumberLiteral, negative: boolean): { bits: Bits; signed: boolean } {
  const width = literalWidth(literal);
  const bits = literalBits(literal, width);
  if (!negative) return { bits, signed: literal.signed };
  const digits = binaryDigits(literal);
  if (/[xz]/.test(digits)) return { bits: bitsOf('x'.repeat(width)), signed: literal.signed };
  return { bits: fromBigInt(width, -BigInt(`0b${digits}`)), signed: literal.signed };
}
