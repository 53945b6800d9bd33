// Decodes of ripple counters against worked examples and data sheets.

import { describe, expect, it } from 'vitest';
import { falling, flipFlops, toggleChain } from '../../predict/predicted';
import { circuit, type Wire } from '../../tools/circuit';
import { glitchesIn, transitionLines } from './glitched';

function decoder(stages: number) {
  const c = circuit();
  const clk = c.input('clk');
  const q = toggleChain(c, clk, falling(stages));
  const outputs = Array.from({ length: 2 ** stages }, (_, value) =>
    c.equal(q, c.constant(value.toString(2).padStart(stages, '0'))),
  );
  outputs.forEach((wire: Wire, value) => {
    c.output(`y${value}`, wire);
  });
  return c.build();
}

describe('a full decoder on a ripple counter of 4', () => {
  // Floyd, Digital Fundamentals, 11th ed., Example 9-1 (10 ns each); pulses derived from it (TB-4, TB-5).
  const found = glitchesIn(decoder(4), { delaySet: flipFlops(10_000) });

  it('passes what the transient codes say', () => {
    const pulses = Array.from(
      { length: 16 },
      (_, value) => found.find(`y${value}`, 'certain')?.transitions.length ?? 0,
    );
    expect(pulses).toEqual([3, 0, 1, 0, 2, 0, 1, 0, 3, 0, 1, 0, 2, 0, 1, 0]);
    expect(found.glitches.every(({ certainty }) => certainty === 'certain')).toBe(true);
    expect(transitionLines(found.find('y0', 'certain'))).toEqual([
      '1>2 1@10000 0@20000 [10000 10000 10000]',
      '3>4 1@20000 0@30000 [10000 10000 10000]',
      '7>8 1@30000 0@40000 [10000 10000 10000]',
    ]);
    expect(transitionLines(found.find('y8', 'certain'))).toEqual([
      '9>10 1@10000 0@20000 [10000 10000 10000]',
      '11>12 1@20000 0@30000 [10000 10000 10000]',
      '15>0 1@30000 0@40000 [10000 10000 10000]',
    ]);
    expect(found.limits).toEqual([]);
  });
});
