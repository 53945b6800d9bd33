// Decodes against published delays.

import { describe, expect, it } from 'vitest';
import { builtInDelaySet } from '../../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../../server/src/delays/delay-set';
import { tripleOf } from '../../../server/src/delays/triple';
import { falling, flipFlops, toggleChain } from '../../predict/predicted';
import { circuit, type Wire } from '../../tools/circuit';
import { glitchesIn, transitionLines } from './glitched';

function directional(fall: number, rise: number) {
  return { rise: tripleOf(rise * 1000), fall: tripleOf(fall * 1000) };
}

describe('HEF40163B, a synchronous counter of 4 (Philips, January 1995; DS-18)', () => {
  function decodeOf(value: string) {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.register('q', { width: 4, clock: clk, data: (self: Wire) => c.increment(self), initial: '0000' });
    c.output('y', c.equal(q, c.constant(value)));
    return c.build();
  }
  const at = (volts: keyof typeof figures): DelaySet => flipFlops(figures[volts]);
  const figures = { 5: directional(110, 115), 10: directional(45, 45), 15: directional(35, 30) };

  it('at 5 V the step 7 to 8 passes code 0 for 5 ns: bits fall 5 ns before one rises', () => {
    const found = glitchesIn(decodeOf('0000'), { delaySet: at(5) });
    expect(transitionLines(found.find('y', 'certain'))).toContain('7>8 1@110000 0@115000 [5000 5000 5000]');
  });

  it('at 10 V the same times fix no order: possible', () => {
    const found = glitchesIn(decodeOf('0000'), { delaySet: at(10) });
    expect(found.find('y', 'certain')).toBeNull();
    expect(transitionLines(found.find('y', 'possible'))).toContain('7>8 1@45000 0@45000 [0 0 0]');
  });

  it('at 15 V bits rise first: the step 7 to 8 passes code 15, from 30 to 35 ns', () => {
    const found = glitchesIn(decodeOf('1111'), { delaySet: at(15) });
    expect(transitionLines(found.find('y', 'certain'))).toContain('7>8 1@30000 0@35000 [5000 5000 5000]');
    expect(glitchesIn(decodeOf('0000'), { delaySet: at(15) }).find('y', 'certain')).toBeNull();
  });
});

describe('HEF4024B, a ripple counter of 7 (Philips, January 1995; DS-6)', () => {
  const set = (first: [number, number], next: [number, number]): DelaySet =>
    flipFlops(directional(...first), { clockToQ: { first: directional(...first), next: directional(...next) } });

  it.each([
    [5, set([100, 105], [60, 50]), 450, 460],
    [10, set([40, 45], [25, 20]), 185, 190],
    [15, set([25, 30], [20, 15]), 140, 145],
  ] as const)(
    'at %s V: 63 to 64 passes 0 before the last bit rises; the wrap passes 64 until it falls',
    (_, delaySet, rise, fall) => {
      const c = circuit();
      const q = toggleChain(c, c.input('clk'), falling(7));
      c.output('zero', c.equal(q, c.constant('0000000')));
      c.output('top', c.equal(q, c.constant('1000000')));
      const found = glitchesIn(c.build(), { delaySet });
      const last = (signal: string, pair: string) =>
        transitionLines(found.find(signal, 'certain')).find((line) => line.startsWith(pair)) ?? 'none';
      expect(last('zero', '63>64 ')).toContain(`0@${rise * 1000} `);
      expect(last('top', '127>0 ')).toContain(`0@${fall * 1000} `);
    },
  );
});

describe('74HC393: decoded outputs carry spikes (Philips; Motorola DL129; DS-17)', () => {
  it.each(['74HC393', '74HCT393'])('%s', (name) => {
    const c = circuit();
    const q = toggleChain(c, c.input('clk'), falling(4));
    c.output('y', c.equal(q, c.constant('1000')));
    const found = glitchesIn(c.build(), { delaySet: builtInDelaySet(name) as DelaySet });
    expect(found.find('y', 'certain')?.transitions.map(({ from, to }) => `${from}>${to}`)).toEqual([
      '9>10',
      '11>12',
      '15>0',
    ]);
  });
});
