import { describe, expect, it } from 'vitest';
import { nameSequence, nameSteps } from '../../server/src/predict/sequence';
import { affineMapOf } from '../../server/src/predict/sequence-linear';
import { fixedStateOfMaximal, primeFactors } from '../../server/src/predict/sequence-order';
import { finished } from './predicted';

const name = (values: readonly number[], width: number) => {
  const { kind, modulus } = finished(nameSequence(values.map(BigInt), width));
  return `${kind} ${modulus}`;
};

describe('names are proven over the full period', () => {
  it.each([
    [[0, 1, 2, 3], 2, 'up 4'],
    [[3, 4, 5, 0, 1, 2], 3, 'up 6'],
    [[2, 1, 0], 2, 'down 3'],
    [[0, 0, 1, 1, 2, 2], 2, 'up 3'],
    [[0, 2, 4, 6], 3, 'other 4'],
    [[0, 1, 2, 4], 3, 'other 4'],
    // The reflected code upward; a one-bit code that is another; one that is not closed at its end.
    [[0, 1, 3, 2], 2, 'gray 4'],
    [[0, 1, 3, 7, 5, 4], 3, 'gray 6'],
    [[0, 1, 3, 2, 6], 3, 'other 5'],
    // Rings and twisted rings, both ways round.
    [[1, 2, 4], 3, 'ring 3'],
    [[3, 6, 12, 9], 4, 'ring 4'],
    [[4, 2, 1], 3, 'ring 3'],
    [[1, 2], 2, 'ring 2'],
    [[0, 1, 3, 7, 6, 4], 3, 'johnson 6'],
    [[0, 4, 6, 7, 3, 1], 3, 'johnson 6'],
    [[2, 5], 3, 'johnson 2'],
    // Stands still; comes back to a value on the way.
    [[5], 3, 'other null'],
    [[5, 5, 5], 3, 'other null'],
    [[0, 1, 0, 2], 2, 'other 3'],
  ] as const)('%j', (values, width, expected) => {
    expect(name(values, width)).toBe(expected);
  });

  it('one wrong step anywhere and the name is gone', () => {
    const up = Array.from({ length: 16 }, (_, value) => value);
    for (let at = 0; at < 16; at++) {
      const changed = up.map((value, index) =>
        index === at ? up[(at + 7) % 16] : index === (at + 7) % 16 ? up[at] : value,
      );
      expect(name(changed, 4)).toBe('other 16');
    }
  });

  it('an unknown reading proves nothing', () => {
    expect(finished(nameSequence([0n, 'x1', 2n], 2))).toEqual({
      kind: 'other',
      modulus: null,
      polynomial: [],
    });
    expect(nameSteps(null)).toEqual({
      kind: 'other',
      modulus: null,
      polynomial: [],
    });
  });

  it('a long sequence by its steps', () => {
    expect(
      nameSteps([
        { step: 1n, count: 99 },
        { step: -99n, count: 1 },
      ]),
    ).toMatchObject({ kind: 'up', modulus: 100 });
    expect(
      nameSteps([
        { step: -1n, count: 50 },
        { step: 0n, count: 7 },
        { step: -1n, count: 49 },
        { step: 99n, count: 1 },
      ]),
    ).toMatchObject({
      kind: 'down',
      modulus: 100,
    });
    expect(
      nameSteps([
        { step: 1n, count: 99 },
        { step: -98n, count: 1 },
      ]),
    ).toMatchObject({
      kind: 'other',
      modulus: null,
      polynomial: [],
    });
    expect(
      nameSteps([
        { step: 1n, count: 49 },
        { step: -49n, count: 1 },
        { step: 1n, count: 49 },
        { step: -49n, count: 1 },
      ]).kind,
    ).toBe('other');
  });
});

describe('linear feedback', () => {
  it('Fibonacci and Galois forms of one polynomial', () => {
    // x^4 + x^3 + 1, primitive: any table.
    expect(name([15, 14, 12, 8, 1, 2, 4, 9, 3, 6, 13, 10, 5, 11, 7], 4)).toBe('lfsr 15');
    const galois = [1];
    for (let value = 2; value !== 1; value = (value << 1) ^ (value & 8 ? 0b11001 : 0)) galois.push(value);
    expect(galois).toHaveLength(15);
    expect(name(galois, 4)).toBe('lfsr 15');
  });

  it('a cycle too short to determine the map is not called linear', () => {
    expect(name([1, 2, 5, 3], 3)).toBe('other 4');
  });

  it('a count is no linear map', () => {
    expect(finished(affineMapOf([0n, 1n, 2n, 3n, 4n, 5n, 6n, 7n], 3))).toBeNull();
  });

  it('an order that is not maximal', () => {
    // Rotation by one place has the order of its width; the identity has order 1.
    expect(fixedStateOfMaximal({ columns: [2n, 4n, 1n], constant: 0n }, 3)).toBeNull();
    expect(fixedStateOfMaximal({ columns: [1n, 2n, 4n], constant: 0n }, 3)).toBeNull();
  });

  it('prime factors of Mersenne numbers', () => {
    // Any text on number theory (from memory): 2^11 - 1 is the least that is composite, 2^31 - 1 is prime (Euler).
    expect(primeFactors(2 ** 11 - 1)).toEqual([23, 89]);
    expect(primeFactors(2 ** 23 - 1)).toEqual([47, 178_481]);
    expect(primeFactors(2 ** 31 - 1)).toEqual([2 ** 31 - 1]);
    expect(primeFactors(2 ** 12 - 1)).toEqual([3, 5, 7, 13]);
  });
});
