// A value as a person writes it for a held input: a Verilog constant (IEEE 1364-2005 3.5.1) or a decimal number.

import { type Bits, fromBigInt, bitsOf } from '../netlist/four-state';

/** The value in `width` bits; null where it is no constant or does not fit without losing a digit that counts. */
export function parseDriveValue(written: string, width: number): Bits | null {
  const text = written.trim().replaceAll('_', '');
  const based = /^([1-9][0-9]*)?\s*'s?([bodh])\s*([0-9a-fxz?]+)$/i.exec(text);
  if (based !== null) return fromDigits(based[3].toLowerCase(), based[2].toLowerCase(), based[1], width);
  return /^[+-]?[0-9]+$/.test(text) ? fromDecimal(BigInt(text), width) : null;
}

const digitWidths: Readonly<Record<string, number>> = { b: 1, o: 3, h: 4 };

function fromDecimal(value: bigint, width: number): Bits | null {
  const fits = value < 0n ? -value <= 1n << BigInt(width - 1) : value < 1n << BigInt(width);
  return fits ? fromBigInt(width, value) : null;
}

function fromDigits(digits: string, base: string, size: string | undefined, width: number): Bits | null {
  if (base === 'd') return fromDecimalDigits(digits, Math.min(width, Number(size ?? width)), width);
  const each = [...digits].map((digit) => digitBits(digit, digitWidths[base]));
  if (each.some((bits) => bits === null)) return null;
  const text = each.join('');
  if (size === undefined) return sized(text, width, leftmostFill(text));
  const whole = Number(size) > largestSize ? null : padded(text, Number(size), leftmostFill(text));
  return whole === null ? null : sized(whole, width, '0');
}

/** In a decimal constant an x or z stands alone and fills the whole value. */
function fromDecimalDigits(digits: string, size: number, width: number): Bits | null {
  if (/^[xz?]$/.test(digits)) return bitsOf(digits.repeat(width));
  if (!/^[0-9]+$/.test(digits) || BigInt(digits) >> BigInt(size) !== 0n) return null;
  return fromDecimal(BigInt(digits), width);
}

function digitBits(digit: string, width: number): string | null {
  if (/[xz?]/.test(digit)) return digit.repeat(width);
  const value = Number.parseInt(digit, 16);
  return value < 2 ** width ? value.toString(2).padStart(width, '0') : null;
}

/** A constant without size is filled with x or z where that stands leftmost, else with zeros. */
function leftmostFill(text: string): string {
  return /[xz?]/.test(text[0]) ? text[0] : '0';
}

/** Null where digits other than 0 would be lost. */
function padded(text: string, width: number, fill: string): string | null {
  const lost = text.slice(0, Math.max(0, text.length - width));
  return /^0*$/.test(lost) ? text.slice(lost.length).padStart(width, fill) : null;
}

function sized(text: string, width: number, fill: string): Bits | null {
  const whole = padded(text, width, fill);
  return whole === null ? null : bitsOf(whole);
}

/** No input is wider than this. */
const largestSize = 65_536;
