// Values as a person reads them: digits most significant first, in the radix asked for. In hexadecimal a digit with an
// unknown bit is x, of released bits alone z; a decimal number with such a bit is written in binary, so that it is seen
// which bit it is. Where numbers are read in decimal, a value of an enumeration is read by its name.

import type { Radix } from './view';

export function valueText(digits: string, radix: Radix, names?: Readonly<Record<string, string>>): string {
  const name = radix === 'decimal' ? names?.[digits] : undefined;
  if (name !== undefined) return name;
  if (digits.length === 1 || radix === 'binary') return digits;
  if (radix === 'hexadecimal') return hexadecimal(digits);
  if (/^x+$|^z+$/.test(digits)) return digits[0];
  return /[xz]/.test(digits) ? digits : BigInt(`0b${digits}`).toString();
}

function hexadecimal(digits: string): string {
  const padded = digits.padStart(Math.ceil(digits.length / 4) * 4, '0');
  const fours = padded.match(/.{4}/g) ?? [];
  // A z in the left-most digit of a width that is no multiple of four stands beside padding, not beside a zero.
  const first = digits.slice(0, digits.length % 4 || 4);
  return fours.map((four, index) => hexDigit(index === 0 ? first : four)).join('');
}

function hexDigit(bits: string): string {
  if (/^[01]+$/.test(bits)) return Number.parseInt(bits, 2).toString(16).toUpperCase();
  return /^z+$/.test(bits) ? 'z' : 'x';
}
