// Sequences far too long to list: dividers of seconds, free counters of 32 bits. What is claimed of them is exact.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Op } from '../../server/src/netlist/operators';
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

  /** What may hear a count: a test as a circuit, and the same as arithmetic. */
  const listeners: readonly (readonly [
    string,
    (c: Circuit, q: Wire, k: number) => Wire,
    (q: number, k: number) => boolean,
  ])[] = [
    ['equal', (c, q, k) => c.equal(q, c.constant(binary(k, 12))), (q, k) => q === k],
    ['not equal', (c, q, k) => c.notEqual(c.constant(binary(k, 12)), q), (q, k) => q !== k],
    ['below', (c, q, k) => c.less(q, c.constant(binary(k, 12))), (q, k) => q < k],
    ['above', (c, q, k) => c.less(c.constant(binary(k, 12)), q), (q, k) => k < q],
    ['at most', (c, q, k) => c.operator(Op.lessEqualUnsigned, 1, [q, c.constant(binary(k, 12))]), (q, k) => q <= k],
    ['at least', (c, q, k) => c.operator(Op.lessEqualUnsigned, 1, [c.constant(binary(k, 12)), q]), (q, k) => k <= q],
    ['high bits', (c, q, k) => c.equal(q.bits(11, 6), c.constant(binary(k >> 6, 6))), (q, k) => q >> 6 === k >> 6],
    ['low bits', (c, q, k) => c.equal(q.bits(7, 0), c.constant(binary(k & 255, 8))), (q, k) => (q & 255) === (k & 255)],
    ['opposite', (c, q, k) => c.less(c.not(q), c.constant(binary(k, 12))), (q, k) => 4095 - q < k],
    [
      'sum',
      (c, q, k) => c.less(c.add(q, c.constant(binary(700, 12))), c.constant(binary(k, 12))),
      (q, k) => (q + 700) % 4096 < k,
    ],
    [
      'difference',
      (c, q, k) => c.less(c.subtract(c.constant(binary(k, 12)), q), c.constant(binary(900, 12))),
      (q, k) => (k - q + 4096) % 4096 < 900,
    ],
    ['wider', (c, q, k) => c.less(c.zeroExtend(q, 14), c.constant(binary(k, 14))), (q, k) => q < k],
    [
      'joined',
      (c, q, k) => c.equal(c.concat(c.constant('01'), q), c.constant(`01${binary(k, 12)}`)),
      (q, k) => q === k,
    ],
    ['any', (c, q, k) => c.reduceOr(c.subtract(q, c.constant(binary(k, 12)))), (q, k) => q !== k],
    ['all', (c, q) => c.reduceAnd(q.bits(11, 5)), (q) => q >> 5 === 127],
    ['bit', (_, q, k) => q.bit(k % 12), (q, k) => ((q >> (k % 12)) & 1) === 1],
    [
      'case',
      (c, q, k) =>
        c.select(
          q,
          [
            [binary(k, 12), c.constant('1')],
            [binary(k >> 1, 12), c.constant('1')],
          ],
          c.constant('0'),
        ),
      (q, k) => q === k || q === k >> 1,
    ],
    [
      'gates',
      (c, q, k) => c.or(c.less(q, c.constant(binary(k >> 1, 12))), c.and(q.bit(11), q.bit(3))),
      (q, k) => q < k >> 1 || ((q >> 11) & (q >> 3) & 1) === 1,
    ],
  ];

  it.each(listeners)('a register that listens: %s', (_, hears, isHit) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4095 }), fc.integer({ min: 100, max: 4095 }), (k, last) => {
        const c = circuit();
        const clk = c.input('clk');
        const cnt = divider(c, clk, 12, last);
        const hit = hears(c, cnt, k);
        c.register('seen', { clock: clk, data: hit, initial: '0' });
        c.register('turn', { clock: clk, data: (q: Wire) => c.xor(q, hit), initial: '0' });
        const { register } = predictionOf(c.build());
        const hits = Array.from({ length: last + 1 }, (__, q) => isHit(q, k));
        const high = hits.filter(Boolean).length;
        const rises = hits.filter((is, q) => is && !hits[(q + last) % (last + 1)]).length;
        const [seen, turn] = [register('seen'), register('turn')];
        const share = (fraction: (typeof seen.ratios)[0]) =>
          fraction === null ? null : Number(fraction.numerator) / Number(fraction.denominator);
        expect(share(seen.duties[0])).toEqual(rises === 0 ? null : high / (last + 1));
        expect(share(seen.ratios[0])).toEqual(rises === 0 ? null : (last + 1) / rises);
        // Twice round the count it turns an even number of times.
        expect(share(turn.ratios[0])).toEqual(high === 0 ? null : (2 * (last + 1)) / high);
      }),
      { numRuns: 4 },
    );
  });
});
