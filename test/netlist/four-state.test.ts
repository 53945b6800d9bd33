// Making, reading, cutting and joining of four-state values, against strings of digits.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allX,
  allZ,
  type Bits,
  bitsOf,
  type Digit,
  digitAt,
  digitBits,
  equalBits,
  fromBigInt,
  fromNumber,
  hasUnknown,
  ones,
  toBigInt,
  toBinary,
  toDecimal,
  toNumber,
  toSignedBigInt,
  zero,
} from '../../server/src/netlist/four-state';
import { concat, merge, replaceSlice, resize, slice } from '../../server/src/netlist/four-state-parts';
import { digits, pairOfDigits } from './arbitraries';
import { byDigit, digitsOf, isKnown, signed, tables, unsigned } from './reference';

/** Nothing may stand above the width: comparing limb by limb depends on it. */
function expectTidy({ width, a, b }: Bits): void {
  const used = width % 32 === 0 ? 0xffffffff : 2 ** (width % 32) - 1;
  expect(a.length).toBe(Math.ceil(width / 32));
  expect(b.length).toBe(a.length);
  expect(((a[a.length - 1] | b[a.length - 1]) & ~used) >>> 0).toBe(0);
}

describe('four-state values', () => {
  it('read back as written', () => {
    fc.assert(
      fc.property(digits(140), (text) => {
        const value = bitsOf(text);
        expectTidy(value);
        expect(toBinary(value)).toBe(text);
        expect(hasUnknown(value)).toBe(!isKnown(text));
        expect([...text].map((_, index) => digitAt(value, text.length - 1 - index)).join('')).toBe(text);
      }),
    );
  });

  it('take numbers modulo their width', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 130 }),
        fc.bigInt({ min: -(2n ** 132n), max: 2n ** 132n }),
        (width, number) => {
          const value = fromBigInt(width, number);
          const text = digitsOf(width, number);
          expectTidy(value);
          expect(toBinary(value)).toBe(text);
          expect(toBigInt(value)).toBe(unsigned(text));
          expect(toSignedBigInt(value)).toBe(signed(text));
          expect(toDecimal(value)).toBe(unsigned(text).toString());
        },
      ),
    );
  });

  it('take plain numbers as big ones', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 70 }), fc.maxSafeInteger(), (width, number) => {
        expect(equalBits(fromNumber(width, number), fromBigInt(width, BigInt(number)))).toBe(true);
      }),
    );
  });

  it('are no number while a digit is unknown', () => {
    for (const text of ['1x', 'z0', `1${'0'.repeat(40)}x`]) {
      expect(toBigInt(bitsOf(text))).toBeNull();
      expect(toNumber(bitsOf(text))).toBeNull();
      expect(toSignedBigInt(bitsOf(text))).toBeNull();
      expect(toDecimal(bitsOf(text))).toBe('x');
    }
    expect(toNumber(ones(53))).toBe(Number.MAX_SAFE_INTEGER);
    expect(toNumber(ones(54))).toBeNull();
  });

  it('come filled', () => {
    for (const width of [1, 3, 4, 5, 10, 11, 31, 32, 33, 64, 65]) {
      const filled: readonly (readonly [Bits, Digit])[] = [
        [zero(width), '0'],
        [ones(width), '1'],
        [allX(width), 'x'],
        [allZ(width), 'z'],
      ];
      for (const [value, digit] of filled) {
        expectTidy(value);
        expect(toBinary(value)).toBe(digit.repeat(width));
      }
    }
    for (const digit of ['0', '1', 'x', 'z'] as const) expect(toBinary(digitBits(digit))).toBe(digit);
  });

  it('are equal by digits, x and z told apart, and by width', () => {
    fc.assert(
      fc.property(digits(70), digits(70), (left, right) => {
        expect(equalBits(bitsOf(left), bitsOf(right))).toBe(left === right);
      }),
    );
    expect(equalBits(bitsOf('x'.repeat(40)), bitsOf('z'.repeat(40)))).toBe(false);
    expect(equalBits(bitsOf('0'), bitsOf('00'))).toBe(false);
  });

  it('have x outside (IEEE 1364-2005 5.2.1)', () => {
    expect([-1, 0, 3, 4, 40].map((bit) => digitAt(bitsOf('1000'), bit))).toEqual(['x', '0', '1', 'x', 'x']);
  });

  it('? is written for z (IEEE 1364-2005 3.5.1, row LIT-10)', () => {
    expect(toBinary(bitsOf('1?0'))).toBe('1z0');
  });
});

describe('parts of values', () => {
  it('are cut out, x where they reach outside (IEEE 1364-2005 5.2.1)', () => {
    fc.assert(
      fc.property(
        digits(100),
        fc.integer({ min: -70, max: 170 }),
        fc.integer({ min: 1, max: 100 }),
        (text, low, width) => {
          const expected = Array.from({ length: width }, (_, bit) => text[text.length - 1 - (low + bit)] ?? 'x');
          const part = slice(bitsOf(text), low, width);
          expectTidy(part);
          expect(toBinary(part)).toBe(expected.reverse().join(''));
        },
      ),
    );
  });

  it('join, most significant first', () => {
    fc.assert(
      fc.property(fc.array(digits(50), { minLength: 1, maxLength: 6 }), (texts) => {
        const joined = concat(texts.map(bitsOf));
        expectTidy(joined);
        expect(toBinary(joined)).toBe(texts.join(''));
      }),
    );
  });

  it('widen with zeros or with the first digit, x and z too (IEEE 1364-2005 5.5.4)', () => {
    fc.assert(
      fc.property(digits(70), fc.integer({ min: 1, max: 140 }), (text, width) => {
        for (const [fill, digit] of [
          ['zero', '0'],
          ['sign', text[0]],
        ] as const) {
          const resized = resize(bitsOf(text), width, fill);
          expectTidy(resized);
          expect(toBinary(resized)).toBe(text.padStart(width, digit).slice(-width));
        }
      }),
    );
  });

  it('are replaced in place, dropping what falls outside', () => {
    fc.assert(
      fc.property(digits(80), digits(80), fc.integer({ min: -90, max: 90 }), (text, piece, low) => {
        const expected = [...text].reverse();
        [...piece].reverse().forEach((digit, bit) => {
          if (low + bit in expected) expected[low + bit] = digit;
        });
        const before = bitsOf(text);
        expect(toBinary(replaceSlice(before, low, bitsOf(piece)))).toBe(expected.reverse().join(''));
        expect(toBinary(before)).toBe(text);
      }),
    );
  });

  it('merge by the table of the conditional operator (IEEE 1364-2005 Table 5-21)', () => {
    fc.assert(
      fc.property(pairOfDigits(70), ([left, right]) => {
        const merged = merge(bitsOf(left), bitsOf(right));
        expectTidy(merged);
        expect(toBinary(merged)).toBe(byDigit(tables.conditional, left, right));
      }),
    );
  });
});
