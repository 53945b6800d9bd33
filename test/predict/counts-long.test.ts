// Sequences far too long to list: dividers of seconds, free counters of 32 bits. What is claimed of them is exact.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { falling, flipFlops, fractionText, predictionOf, toggleChain } from './predicted';

const binary = (value: number, width: number) => value.toString(2).padStart(width, '0');

/** Counts 0 … last. */
function divider(c: Circuit, clk: Wire, width: number, last: number, start = 0): Wire {
  return c.register('cnt', {
    width,
    clock: clk,
    initial: binary(start, width),
    data: (q: Wire) => c.mux(c.equal(q, c.constant(binary(last, width))), c.constant(binary(0, width)), c.increment(q)),
  });
}

describe('dividers', () => {
  it('50 MHz to 1 Hz: a count of 25 million and a toggle', () => {
    const c = circuit();
    const clk = c.input('clk');
    const cnt = divider(c, clk, 25, 24_999_999);
    const full = c.equal(cnt, c.constant(binary(24_999_999, 25)));
    const led = c.register('led', { clock: clk, data: (q: Wire) => c.mux(full, c.not(q), q), initial: '0' });
    c.register('blink', { width: 3, clock: led, data: (q: Wire) => c.increment(q), initial: '000' });
    const { register, clock, count } = predictionOf(c.build());
    expect(fractionText(register('led').ratios[0])).toBe('50000000/1');
    expect(fractionText(register('led').duties[0])).toBe('1/2');
    expect(clock('led')).toMatchObject({ hertz: 1, uniform: true });
    expect(fractionText(register('blink').ratios[0])).toBe('400000000/1');
    expect(count('cnt')).toMatchObject({
      period: 25_000_000,
      kind: 'up',
      modulus: 25_000_000,
      valuesTotal: 25_000_000,
    });
    expect(count('cnt').values).toHaveLength(1024);
  });

  it('a tick of the divider enables seconds: updateEvery, and the count holds', () => {
    const c = circuit();
    const clk = c.input('clk');
    const tick = c.net('tick', c.equal(divider(c, clk, 24, 9_999_999), c.constant(binary(9_999_999, 24))));
    const wrap = (q: Wire) => c.mux(c.equal(q, c.constant(binary(59, 6))), c.constant(binary(0, 6)), c.increment(q));
    c.register('sec', {
      width: 6,
      clock: clk,
      initial: '000000',
      data: (q: Wire) => c.mux(tick, wrap(q), q),
      enables: [{ condition: tick }],
    });
    const { register, count } = predictionOf(c.build());
    expect(fractionText(register('sec').updateEvery)).toBe('10000000/1');
    expect(fractionText(register('sec').ratios[0])).toBe('600000000/1');
    expect(count('sec')).toMatchObject({ period: 600_000_000, kind: 'up', modulus: 60 });
  });

  it('a bit of a free 32-bit counter as a clock: 2^23, whatever the high bits do', () => {
    const c = circuit();
    const clk = c.input('clk');
    const cnt = c.register('cnt', { width: 32, clock: clk, data: (q: Wire) => c.increment(q), initial: binary(0, 32) });
    c.register('led', { clock: cnt.bit(22), data: (q: Wire) => c.not(q), initial: '0' });
    const { register, clock, count } = predictionOf(c.build());
    expect(fractionText(clock('cnt[22]').ratio)).toBe(`${2 ** 23}/1`);
    expect(fractionText(register('led').ratios[0])).toBe(`${2 ** 24}/1`);
    expect(fractionText(register('cnt').ratios[0])).toBe(`${2 ** 32}/1`);
    expect(fractionText(register('cnt').ratios[31])).toBe('2/1');
    // The two form a chain: the counter's 32 bits below, the toggle above.
    expect(count()).toMatchObject({ chain: 0, width: 33, kind: 'other' });
  });

  it('a pulse width: high while the count is below a level', () => {
    const c = circuit();
    const clk = c.input('clk');
    const cnt = divider(c, clk, 20, 999_999);
    c.register('pwm', { clock: clk, data: c.less(cnt, c.constant(binary(250_000, 20))), initial: '0' });
    expect(fractionText(predictionOf(c.build()).register('pwm').duties[0])).toBe('1/4');
  });

  it('a start away from zero belongs to the cycle, one outside it leads in', () => {
    const inside = circuit();
    divider(inside, inside.input('clk'), 20, 99_999, 77_777);
    expect(predictionOf(inside.build()).count()).toMatchObject({
      start: '77777',
      leadInTotal: 0,
      period: 100_000,
      kind: 'up',
      values: expect.arrayContaining(['77777', '77778']),
    });
    const outside = circuit();
    divider(outside, outside.input('clk'), 17, 99_999, 131_000);
    const count = predictionOf(outside.build()).count();
    expect(count).toMatchObject({ start: '131000', leadInTotal: 72, period: 100_000, kind: 'up' });
    expect(count.leadIn[71]).toBe('131071');
    expect(count.values[0]).toBe('0');
  });

  it('settling of a chain whose first member is a long count takes its slower direction', () => {
    const c = circuit();
    const cnt = c.register('cnt', {
      width: 20,
      clock: c.input('clk'),
      data: (q: Wire) => c.increment(q),
      initial: binary(0, 20),
    });
    c.register('led', { clock: cnt.bit(19), edge: 'falling', data: (q: Wire) => c.not(q), initial: '0' });
    const both = { rise: { min: 1000, typ: 2000, max: 3000 }, fall: { min: 1000, typ: 4000, max: 5000 } };
    const { prediction, count } = predictionOf(c.build(), { delaySet: flipFlops(both) });
    expect(prediction.chains[0].settle).toEqual({ min: 2000, typ: 8000, max: 10_000 });
    expect(prediction.chains[0].worst).toEqual({ from: 2n ** 21n - 1n, to: 0n });
    expect(count()).toMatchObject({ kind: 'up', period: 2 ** 21, modulus: 2 ** 21 });
    // Read with typical delays: the falling bits are late, so 1→2 passes 3.
    expect(count().steps[1]).toEqual({ from: '1', to: '2', passes: [{ at: 2000, value: '3' }] });
  });
});

describe('ripples of any length', () => {
  const chainOf = (edges: readonly ('rising' | 'falling')[], start?: string) => {
    const c = circuit();
    toggleChain(c, c.input('clk'), edges, start);
    return c.build();
  };

  it('24 stages: every ratio, the period, and the wrap as the slowest step', () => {
    const { prediction, count, clock } = predictionOf(chainOf(falling(24)), { delaySet: flipFlops(1000) });
    expect(prediction.registers.map(({ ratios }) => fractionText(ratios[0]))).toEqual(
      Array.from({ length: 24 }, (_, stage) => `${2 ** (stage + 1)}/1`),
    );
    expect(clock('q[22]')).toMatchObject({ uniform: true, hertz: 50e6 / 2 ** 23 });
    expect(count()).toMatchObject({ period: 2 ** 24, modulus: 2 ** 24, kind: 'up', explored: true, trapped: [] });
    expect(count().values.slice(0, 4)).toEqual(['0', '1', '2', '3']);
    expect(prediction.chains[0]).toMatchObject({
      settle: { min: 24_000, typ: 24_000, max: 24_000 },
      worst: { from: 2n ** 23n - 1n, to: 2n ** 23n },
    });
  });

  it('the closed form says what stepping says', () => {
    const edge = fc.constantFrom('rising' as const, 'falling' as const);
    const shape = fc.record({
      edges: fc.array(edge, { minLength: 2, maxLength: 6 }),
      start: fc.integer({ min: 0, max: 63 }),
    });
    const both = { rise: { min: 1, typ: 2, max: 3 }, fall: { min: 1, typ: 3, max: 5 } };
    fc.assert(
      fc.property(shape, ({ edges, start }) => {
        const netlist = chainOf(edges, binary(start % 2 ** edges.length, edges.length));
        const stepped = predictionOf(netlist, { delaySet: flipFlops(both) });
        const closed = predictionOf(netlist, { delaySet: flipFlops(both), limits: { period: 1 } });
        const period = 2 ** edges.length;
        expect(closed.count()).toMatchObject({ period, kind: stepped.count().kind, modulus: stepped.count().modulus });
        expect(closed.count().values.slice(0, period)).toEqual(stepped.count().values);
        expect(closed.count().steps.slice(0, period)).toEqual(stepped.count().steps);
        expect(closed.prediction.chains[0].settle).toEqual(stepped.prediction.chains[0].settle);
        expect(closed.prediction.registers).toEqual(stepped.prediction.registers);
      }),
      { numRuns: 30 },
    );
  });
});

describe('any divider', () => {
  it('bits of a count down or up, compared with counting one by one', () => {
    const shape = fc.record({
      last: fc.integer({ min: 20, max: 3000 }),
      border: fc.integer({ min: 0, max: 3000 }),
      down: fc.boolean(),
      edge: fc.constantFrom('rising' as const, 'falling' as const),
    });
    fc.assert(
      fc.property(shape, ({ last, border, down, edge }) => {
        const c = circuit();
        const clk = c.input('clk');
        const [zero, top] = [c.constant(binary(0, 12)), c.constant(binary(last, 12))];
        const next = (q: Wire) =>
          down
            ? c.mux(c.equal(q, zero), top, c.subtract(q, c.constant(binary(1, 12))))
            : c.mux(c.equal(q, top), zero, c.increment(q));
        const cnt = c.register('cnt', { width: 12, clock: clk, edge, data: next, initial: binary(0, 12) });
        c.register('below', { clock: clk, data: c.less(cnt, c.constant(binary(border, 12))), initial: '0' });
        const { register } = predictionOf(c.build());
        const values = Array.from({ length: last + 1 }, (_, value) => value);
        const bitHigh = (bit: number) => values.filter((value) => (value >> bit) & 1).length;
        const rises = (bit: number) =>
          values.filter((value) => !((value >> bit) & 1) && (((value + 1) % (last + 1)) >> bit) & 1).length;
        for (let bit = 0; bit < 12; bit++) {
          const high = bitHigh(bit);
          const duty = register('cnt').duties[11 - bit];
          const ratio = register('cnt').ratios[11 - bit];
          if (high === 0) expect([duty, ratio]).toEqual([null, null]);
          else {
            expect(Number(duty?.numerator) / Number(duty?.denominator)).toBeCloseTo(high / (last + 1), 12);
            const up = rises(bit);
            const fell = values.filter(
              (value) => (value >> bit) & 1 && !((((value + 1) % (last + 1)) >> bit) & 1),
            ).length;
            expect(Number(ratio?.numerator) / Number(ratio?.denominator)).toBeCloseTo(
              (last + 1) / (down ? fell : up),
              12,
            );
          }
        }
        const below = values.filter((value) => value < border).length;
        const duty = register('below').duties[0];
        if (below === 0 || below === last + 1) expect(duty).toBeNull();
        else expect(Number(duty?.numerator) / Number(duty?.denominator)).toBeCloseTo(below / (last + 1), 12);
      }),
      { numRuns: 12 },
    );
  });
});
