// What a person may write into a field of the drive: times, rates, numbers of periods, constants. Reads and writes them;
// whether the design can follow is the server's to say. What is not understood is answered by what is expected.

import { timeWords } from '../../server/src/text/time-words';

export type Written<T> =
  | { readonly kind: 'value'; readonly value: T }
  | { readonly kind: 'refused'; readonly expected: string };

const periodExpected = 'a time or a rate, such as 20 ns or 50 MHz';
const timeExpected = 'a time of whole ps, such as 10 ns, or 0';

/** ps; a rate may give a part of a ps, kept to 15 digits. */
export function parsePeriod(text: string): Written<number> {
  const hertz = quantityOf(text, rateUnits);
  const ps = hertz === null ? quantityOf(text, timeUnits) : Number((1e12 / hertz).toPrecision(15));
  if (ps === null || !Number.isFinite(ps) || ps > longest) return refused(periodExpected);
  return ps < shortest ? refused(`at least ${timeWords(shortest)}`) : { kind: 'value', value: ps };
}

/** ps */
export function parseTime(text: string): Written<number> {
  const ps = /^\s*0+\s*$/.test(text) ? 0 : quantityOf(text, timeUnits);
  if (ps === null || !Number.isInteger(ps) || ps > longest) return refused(timeExpected);
  return { kind: 'value', value: ps };
}

export function parseCount(text: string): Written<number> {
  const match = /^\s*(\d{1,6})(?:\s*periods?)?\s*$/.exec(text);
  return match === null ? refused('a number of periods, such as 2') : { kind: 'value', value: Number(match[1]) };
}

export function parseActive(text: string): Written<'high' | 'low'> {
  const word = text.trim().toLowerCase();
  return word === 'high' || word === 'low' ? { kind: 'value', value: word } : refused('high or low');
}

/**
 * A constant of `width` bits as written, IEEE 1364-2005 3.5.1: a decimal number, or digits after 'b, 'o, 'd or 'h with or
 * without a size; not one whose digits need more bits.
 */
export function parseConstant(text: string, width: number): Written<string> {
  const written = text.trim();
  const expected = constantExpected(width);
  const needed = bitsNeeded(written.replaceAll('_', ''));
  if (needed === null) return refused(expected);
  return needed > width
    ? refused(`${expected}; ${written} needs ${needed} bits`)
    : { kind: 'value', value: normal(written) };
}

export function constantExpected(width: number): string {
  if (width === 1) return 'a constant of 1 bit: 0, 1 or x';
  return `a constant of ${width} bits, such as 5 or ${width}'b${'01'.padStart(Math.min(width, 8), '0')}`;
}

/** `20 ns`; a period that is no whole number of ps, `p/q`, as the nearest thing that is read back as the same. */
export function writePeriod(period: number | string): string {
  if (typeof period === 'number') return timeWords(period);
  const [numerator, denominator] = period.split('/').map(Number);
  const hertz = (1e12 * denominator) / numerator;
  const { name, size } = rates.find((each) => hertz >= each.size) ?? rates[rates.length - 1];
  return `${Number((hertz / size).toPrecision(9))} ${name}`;
}

/** Binary digits as a constant of the language; long ones in hexadecimal, where no digit is unknown. */
export function writeConstant(digits: string): string {
  if (digits.length === 1) return digits;
  const isShort = digits.length <= 8 || /[^01]/.test(digits);
  return isShort ? `${digits.length}'b${digits}` : `${digits.length}'h${BigInt(`0b${digits}`).toString(16)}`;
}

const shortest = 2;
/** 1000 s; beyond it numbers of ps are not exact. */
const longest = 1e15;
const timeUnits: Readonly<Record<string, number>> = { ps: 1, ns: 1e3, us: 1e6, µs: 1e6, μs: 1e6, ms: 1e9, s: 1e12 };
const rates = [
  { name: 'GHz', size: 1e9 },
  { name: 'MHz', size: 1e6 },
  { name: 'kHz', size: 1e3 },
  { name: 'Hz', size: 1 },
] as const;
const rateUnits: Readonly<Record<string, number>> = Object.fromEntries(
  rates.map(({ name, size }) => [name.toLowerCase(), size]),
);

/** A number with one of the units, in whichever case; exact where the result is a whole number; null where it is none. */
function quantityOf(text: string, units: Readonly<Record<string, number>>): number | null {
  const match = /^\s*(\d{1,24})(?:[.,](\d{1,24}))?\s*([a-zµμ]+)\s*$/i.exec(text);
  const unit = match === null ? undefined : units[match[3].toLowerCase()];
  if (match === null || unit === undefined) return null;
  const fraction = match[2] ?? '';
  const scaled = BigInt(match[1] + fraction) * BigInt(unit);
  const divisor = 10n ** BigInt(fraction.length);
  const value = scaled % divisor === 0n ? Number(scaled / divisor) : Number(scaled) / Number(divisor);
  return value > 0 ? value : null;
}

/** Bits that the digits take at least; null where the text is no constant. */
function bitsNeeded(text: string): number | null {
  if (/^\d+$/.test(text)) return BigInt(text).toString(2).length;
  if (/^[xz]$/i.test(text)) return 1;
  const match = /^(?:[1-9]\d*)?\s*'s?([bodh])\s*([0-9a-fxz?]+)$/i.exec(text);
  if (match === null) return null;
  const [base, digits] = [match[1].toLowerCase(), match[2].toLowerCase().replace(/^0+(?=.)/, '')];
  if (base === 'd') return /^[xz?]$/.test(digits) ? 1 : /^\d+$/.test(digits) ? BigInt(digits).toString(2).length : null;
  if (!digitsOf[base].test(digits)) return null;
  return (digits.length - 1) * bitsPerDigit[base] + leadingBits(digits[0]);
}

const digitsOf: Readonly<Record<string, RegExp>> = { b: /^[01xz?]+$/, o: /^[0-7xz?]+$/, h: /^[0-9a-fxz?]+$/ };
const bitsPerDigit: Readonly<Record<string, number>> = { b: 1, o: 3, h: 4 };

/** A leading x may stand for no more than what is left of the value. */
function leadingBits(digit: string): number {
  return /[xz?]/.test(digit) ? 1 : Number.parseInt(digit, 16).toString(2).length;
}

/** A lone letter is short for a constant of one bit. */
function normal(written: string): string {
  return /^[xz]$/i.test(written) ? `'b${written.toLowerCase()}` : written;
}

function refused(expected: string): { readonly kind: 'refused'; readonly expected: string } {
  return { kind: 'refused', expected };
}
