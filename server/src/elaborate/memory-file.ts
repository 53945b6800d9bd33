// The text of a file that `$readmemh` or `$readmemb` reads (IEEE 1364-2005 17.2.9): numbers between white space and
// comments, `@` and a hexadecimal address before those that do not follow the last.

import { type Bits, bitsOf } from '../netlist/four-state';

export interface MemoryWord {
  /** Null: behind the word before it. */
  readonly address: number | null;
  readonly value: Bits;
}

/**
 * Word by word. `width`: bits of a word; a longer number is cut, a shorter one gets zeros before it. Gives in the end the
 * first stretch that is no number, behind which nothing is read; null where there is none.
 */
export function* readMemoryFile(text: string, base: 'h' | 'b', width: number): Generator<MemoryWord, string | null> {
  let address: number | null = null;
  for (const [stretch] of withoutComments(text).matchAll(/\S+/g)) {
    if (/^@[0-9a-f]+$/i.test(stretch)) {
      address = parseInt(stretch.slice(1), 16);
      continue;
    }
    const digits = (base === 'h' ? hexadecimal : binary).test(stretch) ? binaryDigits(stretch, base) : null;
    if (digits === null) return stretch.slice(0, 40);
    yield { address, value: bitsOf(digits.padStart(width, '0').slice(-width)) };
    address = null;
  }
  return null;
}

const hexadecimal = /^[0-9a-fxz?_]+$/i;
const binary = /^[01xz?_]+$/i;

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?(\*\/|$)|\/\/[^\r\n]*/g, ' ');
}

function binaryDigits(written: string, base: 'h' | 'b'): string {
  const plain = written.toLowerCase().replaceAll('_', '').replaceAll('?', 'z');
  if (base === 'b') return plain;
  return [...plain]
    .map((digit) => (/[xz]/.test(digit) ? digit.repeat(4) : parseInt(digit, 16).toString(2).padStart(4, '0')))
    .join('');
}
