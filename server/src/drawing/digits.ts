// Values as a person reads them: digits most significant first, in the radix asked for. A value with an unknown bit is
// written digit by digit in binary and hexadecimal; in decimal it is just x.

import type { Radix } from './view';

export function valueText(digits: string, radix: Radix): string {
  if (digits.length === 1 || radix === 'binary') return digits;
  if (radix === 'hexadecimal') return hexadecimal(digits);
  return /[xz]/.test(digits) ? 'x' : BigInt(`0b${digits}`).toString();
}

function hexadecimal(digits: string): string {
  const padded = digits.padStart(Math.ceil(digits.length / 4) * 4, '0');
  return Array.from({ length: padded.length / 4 }, (_, index) => hexDigit(padded.slice(index * 4, index * 4 + 4))).join(
    '',
  );
}

function hexDigit(four: string): string {
  if (!/[xz]/.test(four)) return Number.parseInt(four, 2).toString(16).toUpperCase();
  return /^z+$/.test(four) ? 'z' : 'x';
}
