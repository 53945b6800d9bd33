// Values and names as they are written on the picture.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { valueText } from '../../server/src/drawing/digits';
import { shorten, textWidth } from '../../server/src/drawing/shape';

describe('a value', () => {
  it.each([
    ['1010', 'decimal', '10'],
    ['1010', 'hexadecimal', 'A'],
    ['1010', 'binary', '1010'],
    ['11010', 'hexadecimal', '1A'],
    ['x', 'decimal', 'x'],
    ['xxxx', 'decimal', 'x'],
    ['00x1', 'decimal', '00x1'],
    ['00x10001', 'hexadecimal', 'x1'],
    ['zzzzz', 'hexadecimal', 'zz'],
    ['zzz0z', 'hexadecimal', 'zx'],
  ] as const)('%s in %s is %s', (digits, radix, text) => expect(valueText(digits, radix)).toBe(text));

  it('of any width is exact', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 0n, max: 2n ** 200n }), (value) => {
        const digits = value.toString(2).padStart(2, '0');
        expect(valueText(digits, 'decimal')).toBe(value.toString());
        expect(BigInt(`0x${valueText(digits, 'hexadecimal')}`)).toBe(value);
      }),
    );
  });
});

describe('a text too long', () => {
  it('is cut between characters, with an ellipsis, and fits', () => {
    expect(shorten('counter', 'name', 1000)).toBe('counter');
    expect(shorten('counter', 'name', 5 * 7.3)).toBe('coun…');
    expect(shorten('counter', 'name', 3)).toBe('');
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 0, max: 200 }), (text, width) => {
        expect(textWidth(shorten(text, 'note', width), 'note')).toBeLessThanOrEqual(width);
      }),
    );
  });
});
