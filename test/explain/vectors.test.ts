// Bits of vectors told as stretches, and the sentences that tell a step by them.

import { describe, expect, it } from 'vitest';
import { findingWords } from '../../server/src/explain/findings';
import { stretchesOf, stretchNames } from '../../server/src/explain/vectors';
import type { Finding } from '../../server/src/hazards/finding';

describe('stretches', () => {
  it('join neighbors in the order given, downwards or upwards, and nothing else', () => {
    expect(stretchesOf(['q[3]', 'q[2]', 'q[1]', 'r', 'q[0]', 'u.g[1].q[4]', 'u.g[1].q[5]', 's[7]', 's[5]'])).toEqual([
      { name: 'q[3:1]', bits: 3 },
      { name: 'r', bits: 1 },
      { name: 'q[0]', bits: 1 },
      { name: 'u.g[1].q[4:5]', bits: 2 },
      { name: 's[7]', bits: 1 },
      { name: 's[5]', bits: 1 },
    ]);
    expect(stretchesOf(['q[1]', 'q[2]', 'q[1]'])).toEqual([
      { name: 'q[1:2]', bits: 2 },
      { name: 'q[1]', bits: 1 },
    ]);
  });

  it('take the same bits of words that follow each other as one', () => {
    const words = (bit: string) => Array.from({ length: 8 }, (_, word) => `m[${word}]${bit}`);
    expect(stretchesOf([...words('[2]'), 'a[1]', 'a[0]'])).toEqual([
      { name: 'bit 2 of m[0] to m[7]', bits: 8 },
      { name: 'a[1:0]', bits: 2 },
    ]);
    const parts = [3, 2, 1].flatMap((word) => [`m[${word}][1]`, `m[${word}][0]`]);
    expect(stretchesOf(parts)).toEqual([{ name: 'bits 1:0 of m[3] to m[1]', bits: 6 }]);
    // Two are told as they are, other bits and words that are not neighbors are no row.
    expect(stretchesOf(['m[0][1]', 'm[1][1]']).map(({ name }) => name)).toEqual(['m[0][1]', 'm[1][1]']);
    expect(stretchesOf(['m[0][1]', 'm[1][1]', 'm[3][1]', 'm[4][2]']).length).toBe(4);
    expect(stretchesOf(['m[0][1]', 'm[1][1]', 'm[0][1]', 'm[1][1]']).length).toBe(4);
  });

  it('of a list whose order says nothing begin with the highest bit', () => {
    expect(stretchNames(['y[1]', 'y[2]', 'y[3]', 'z'])).toEqual(['y[3:1]', 'z']);
  });
});

describe('a step', () => {
  const step = (registers: readonly string[], from: string, to: string) =>
    /when (.*): harmless/.exec(findingWords(decode(registers, from, to)))?.[1];

  it('of one vector is told by its numbers', () => {
    expect(step(['n[2]', 'n[1]', 'n[0]'], '3', '4')).toBe('n[2:0] goes from 3 to 4');
  });

  it('of several vectors is told by the numbers of each, those that keep still behind', () => {
    expect(step(['w[1]', 'w[0]', 'r[1]', 'r[0]', 'go'], '12', '19')).toBe(
      'w[1:0] goes from 1 to 2, r[1:0] from 2 to 1 and go from 0 to 1',
    );
    expect(step(['w[1]', 'w[0]', 'go'], '3', '5')).toBe('w[1:0] goes from 1 to 2, with go at 1');
  });

  it('of single registers is told as one number', () => {
    expect(step(['c', 'b', 'a'], '3', '4')).toBe('c, b and a go from 3 to 4');
  });

  it('with unknown bits is told as one number', () => {
    expect(step(['w[1]', 'w[0]', 'r'], '01x', '10x')).toBe('w[1:0] and r go from 01x to 10x');
  });
});

function decode(registers: readonly string[], from: string, to: string): Finding {
  return {
    id: 'decoded-glitch',
    certainty: 'possible',
    severity: 'hint',
    signals: [],
    instances: [],
    place: { unit: 0, start: 0, end: 0 } as Finding['place'],
    related: [],
    facts: { signal: 'y', registers, from, to, widestPs: 0, certainTransitions: 0, possibleTransitions: 1 },
  };
}
