// Pieces of sentences: times exact to the ps, lists, changes.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeWords, countWords, listWords, rateWords, shortListWords } from '../../server/src/explain/words';
import { timeWords } from '../../server/src/text/time-words';

describe('timeWords', () => {
  it.each([
    [0, '0 ns'],
    [1, '1 ps'],
    [999, '999 ps'],
    [1_000, '1 ns'],
    [1_250, '1.25 ns'],
    [347_000, '347 ns'],
    [1_000_001, '1000.001 ns'],
    [20_000_000, '20 µs'],
    [1_000_000_000_000, '1000 ms'],
    [-40, '-40 ps'],
    [-12_500, '-12.5 ns'],
    [Number.MAX_SAFE_INTEGER, '9007.199254740991 s'],
  ])('says %d ps as %s', (ps, words) => {
    expect(timeWords(ps)).toBe(words);
  });

  it('loses nothing: the words say the number of ps again', () => {
    const scale: Readonly<Record<string, bigint>> = { ps: 0n, ns: 3n, µs: 6n, ms: 9n, s: 12n };
    fc.assert(
      fc.property(fc.maxSafeInteger(), (ps) => {
        const [value, unit] = timeWords(ps).split(' ');
        const [integer, fraction = ''] = value.split('.');
        const digits = BigInt(scale[unit]) - BigInt(fraction.length);
        expect(BigInt(integer + fraction) * 10n ** digits).toBe(BigInt(ps));
      }),
    );
  });
});

describe('other pieces', () => {
  it('name rates, changes, lists and counts', () => {
    expect([50e6, 32_768, 2.5, 1e9, 1e12 / 27_000].map(rateWords)).toEqual([
      '50 MHz',
      '32.768 kHz',
      '2.5 Hz',
      '1 GHz',
      '37.037 MHz',
    ]);
    expect([changeWords('0', '1'), changeWords('1', '0'), changeWords('1', 'x'), changeWords('x', '0')]).toEqual([
      'rose',
      'fell',
      'became unknown',
      'became 0',
    ]);
    expect([listWords([]), listWords(['a']), listWords(['a', 'b']), listWords(['a', 'b', 'c'])]).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ]);
    expect(shortListWords(['a', 'b', 'c', 'd'], 2)).toBe('a, b and 2 more');
    expect([countWords(1, 'register'), countWords(0, 'register')]).toEqual(['1 register', '0 registers']);
  });
});
