import { describe, expect, it } from 'vitest';
import { published } from '../published/published';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { falling, flipFlops, predictionOf, toggleChain } from './predicted';

const upTo = (count: number) => Array.from({ length: count }, (_, value) => String(value));

/** Readings passed on the way, of the steps that pass any: '1→2: 0 | 3→4: 2,0'. */
function passesText(steps: ReturnType<ReturnType<typeof predictionOf>['count']>['steps']): string {
  return steps
    .filter(({ passes }) => passes.length > 0)
    .map(({ from, to, passes }) => `${from}→${to}: ${passes.map(({ value }) => value).join(',')}`)
    .join(' | ');
}

function ripple(edges: readonly ('rising' | 'falling')[], start?: string) {
  const c = circuit();
  toggleChain(c, c.input('clk'), edges, start);
  return c.build();
}

/** One register `q` of `width` bits that takes `next(q)` at each rising edge of clk. */
function machine(width: number, start: string, next: (c: Circuit, q: Wire) => Wire) {
  const c = circuit();
  const clk = c.input('clk');
  c.register('q', { width, clock: clk, data: (q: Wire) => next(c, q), initial: start });
  return c.build();
}

describe('ripple chains', () => {
  it('counts 0 to 15 on falling edges, once per falling edge of the clock', () => {
    const count = predictionOf(ripple(falling(4))).count();
    expect(count.values).toEqual(upTo(16));
    expect(count).toMatchObject({
      start: '0',
      leadIn: [],
      period: 16,
      kind: 'up',
      modulus: 16,
      trapped: [],
      why: null,
    });
  });

  published('TB-4', 'every transient of the 4-bit count, and none that is not', () => {
    const count = predictionOf(ripple(falling(4)), { delaySet: flipFlops(10_000) }).count();
    expect(passesText(count.steps)).toBe(
      '1→2: 0 | 3→4: 2,0 | 5→6: 4 | 7→8: 6,4,0 | 9→10: 8 | 11→12: 10,8 | 13→14: 12 | 15→0: 14,12,8',
    );
  });

  published('TB-6', 'the times of 7→8', () => {
    const count = predictionOf(ripple(falling(4)), { delaySet: flipFlops(10_000) }).count();
    expect(count.steps[7]).toEqual({
      from: '7',
      to: '8',
      passes: [
        { at: 10_000, value: '6' },
        { at: 20_000, value: '4' },
        { at: 30_000, value: '0' },
      ],
    });
  });

  published('TB-3', 'direction by edge and by which output clocks the next stage', () => {
    const count = (edges: readonly ('rising' | 'falling')[]) => predictionOf(ripple(edges)).count();
    expect(count(falling(3))).toMatchObject({ values: ['0', '1', '2', '3', '4', '5', '6', '7'], kind: 'up' });
    expect(count(['rising', 'rising', 'rising'])).toMatchObject({
      values: ['0', '7', '6', '5', '4', '3', '2', '1'],
      kind: 'down',
    });
    const fromInverted = (edge: 'rising' | 'falling') => {
      const c = circuit();
      const clk = c.input('clk');
      c.registers(
        'q',
        { width: 3 },
        [0, 1, 2].map((index) => ({
          low: index,
          width: 1,
          clock: (q: Wire) => (index === 0 ? clk : c.not(q.bit(index - 1))),
          edge,
          data: (q: Wire) => c.not(q.bit(index)),
          initial: '0',
        })),
      );
      return predictionOf(c.build()).count();
    };
    expect(fromInverted('rising').values).toEqual(upTo(8));
    expect(fromInverted('falling').values).toEqual(['0', '7', '6', '5', '4', '3', '2', '1']);
  });

  published(['DIR-1', 'DIR-2'], 'only the second edge sets the direction', () => {
    const values = (edges: readonly ('rising' | 'falling')[], start?: string) =>
      predictionOf(ripple(edges, start)).count().values.join(' ');
    expect(values(['rising', 'rising'])).toBe('0 3 2 1');
    expect(values(['falling', 'falling'])).toBe('0 1 2 3');
    expect(values(['falling', 'rising'])).toBe('0 3 2 1');
    expect(values(['rising', 'falling'])).toBe('0 1 2 3');
    expect(values(['rising', 'rising'], '11')).toBe('3 2 1 0');
    expect(values(['rising', 'rising'], '01')).toBe('1 0 3 2');
  });

  published('TB-8', 'a decade that clears itself: 0 to 9, and what it passes after 9', () => {
    const c = circuit();
    const clk = c.input('clk');
    const clear: Wire = c.net('clear', () => c.nand(q.bit(1), q.bit(3)));
    const q: Wire = c.registers(
      'q',
      { width: 4 },
      [0, 1, 2, 3].map((index) => ({
        low: index,
        width: 1,
        clock: (self: Wire) => (index === 0 ? clk : self.bit(index - 1)),
        edge: 'falling' as const,
        data: (self: Wire) => c.not(self.bit(index)),
        initial: '0',
        asynchronous: [{ control: clear, active: 'low' as const, value: '0' }],
      })),
    );
    const same = (ps: number) => ({ rise: triple(ps), fall: triple(ps) });
    const delaySet = flipFlops(10_000, { clear: same(10_000), logic: { gate: same(5_000) } });
    const { count } = predictionOf(c.build(), { delaySet });
    expect(count().values).toEqual(upTo(10));
    expect(count().steps[9]).toEqual({
      from: '9',
      to: '0',
      passes: [
        { at: 10_000, value: '8' },
        { at: 20_000, value: '10' },
      ],
    });
  });
});

describe('vector registers', () => {
  it('counts down, with a preset, and in steps of an enable', () => {
    const down = machine(3, '101', (c, q) => c.subtract(q, c.constant('001')));
    expect(predictionOf(down).count()).toMatchObject({ kind: 'down', modulus: 8, start: '5' });
    // Floyd, Digital Fundamentals, 11th ed., p. 530 (FUN-30) in small: a preset on overflow shortens the count.
    const preset = machine(4, '0110', (c, q) => c.mux(c.reduceAnd(q), c.constant('0110'), c.increment(q)));
    expect(predictionOf(preset).count()).toMatchObject({
      values: ['6', '7', '8', '9', '10', '11', '12', '13', '14', '15'],
      kind: 'up',
      modulus: 10,
    });
  });

  it('holds a value while a periodic enable is off: the kind is still up', () => {
    const c = circuit();
    const clk = c.input('clk');
    const tick = c.register('tick', { clock: clk, data: (t: Wire) => c.not(t), initial: '0' });
    c.register('q', { width: 2, clock: clk, data: (q: Wire) => c.mux(tick, c.increment(q), q), initial: '00' });
    expect(predictionOf(c.build()).count('q')).toMatchObject({
      values: ['0', '0', '1', '1', '2', '2', '3', '3'],
      period: 8,
      kind: 'up',
      modulus: 4,
    });
  });

  published('DS-18', 'HEF40163B: all bits move together but for the difference of rise and fall', () => {
    // CP to On, fall and rise, at 5, 10 and 15 V.
    const passed = (fall: number, rise: number) => {
      const delaySet = flipFlops({ rise: triple(rise), fall: triple(fall) });
      return predictionOf(
        machine(4, '0000', (c, q) => c.increment(q)),
        { delaySet },
      ).count().steps[7];
    };
    expect(passed(110_000, 115_000)).toEqual({ from: '7', to: '8', passes: [{ at: 110_000, value: '0' }] });
    expect(passed(45_000, 45_000)).toEqual({ from: '7', to: '8', passes: [] });
    expect(passed(30_000, 35_000)).toEqual({ from: '7', to: '8', passes: [{ at: 30_000, value: '0' }] });
  });

  published('TB-11', '4-bit Gray code', () => {
    const c = circuit();
    const clk = c.input('clk');
    const bin = c.register('bin', { width: 4, clock: clk, data: (q: Wire) => c.increment(q), initial: '0000' });
    const next = c.increment(bin);
    c.register('gray', {
      width: 4,
      clock: clk,
      data: c.xor(next, c.concat(c.constant('0'), next.bits(3, 1))),
      initial: '0000',
    });
    const count = predictionOf(c.build()).count('gray');
    expect(count.values.join(' ')).toBe('0 1 3 2 6 7 5 4 12 13 15 14 10 11 9 8');
    expect(count).toMatchObject({ kind: 'gray', modulus: 16 });
  });

  const johnson = (width: number) =>
    machine(width, '0'.repeat(width), (c, q) => c.concat(c.not(q.bit(0)), q.bits(width - 1, 1)));

  published(['TB-12', 'TB-13'], '4-bit Johnson and its closed second cycle', () => {
    const count = predictionOf(johnson(4)).count();
    expect(count.values.map((value) => Number(value).toString(2).padStart(4, '0')).join(' ')).toBe(
      '0000 1000 1100 1110 1111 0111 0011 0001',
    );
    expect(count).toMatchObject({ kind: 'johnson', period: 8, explored: true });
    expect(count.trapped).toEqual(['2', '4', '5', '6', '9', '10', '11', '13']);
  });

  published('TB-15', '3-bit Johnson', () => {
    const { prediction, count, register } = predictionOf(johnson(3));
    expect(count().values).toEqual(['0', '4', '6', '7', '3', '1']);
    expect(count()).toMatchObject({ kind: 'johnson', trapped: ['2', '5'] });
    expect(register('q').duties).toEqual(new Array(3).fill({ numerator: 1n, denominator: 2n }));
    expect(register('q').ratios).toEqual(new Array(3).fill({ numerator: 6n, denominator: 1n }));
    expect(prediction.counts).toHaveLength(1);
  });

  published('TB-14', '4-bit ring and all it never comes back from', () => {
    const ring = machine(4, '1000', (c, q) => c.concat(q.bit(0), q.bits(3, 1)));
    const count = predictionOf(ring).count();
    expect(count.values).toEqual(['8', '4', '2', '1']);
    expect(count).toMatchObject({ kind: 'ring', modulus: 4, explored: true });
    expect(count.trapped).toEqual(upTo(16).filter((value) => !['8', '4', '2', '1'].includes(value)));
  });

  it('a self-correcting ring has no trap', () => {
    // Any textbook: the bit shifted in is the NOR of all others, so every state finds back.
    const ring = machine(4, '0001', (c, q) => c.concat(q.bits(2, 0), c.nor(q.bit(0), q.bit(1), q.bit(2))));
    expect(predictionOf(ring).count()).toMatchObject({ kind: 'ring', trapped: [], explored: true });
  });
});

describe('linear feedback', () => {
  /** Left shift, XOR (or XNOR) of the listed stages into bit 0. Stage 1 is bit 0. */
  const shift = (width: number, taps: readonly number[], start: string, inverted = false) =>
    machine(width, start, (c, q) => {
      const wires = taps.map((tap) => q.bit(tap - 1));
      return c.concat(q.bits(width - 2, 0), inverted ? c.xnor(...wires) : c.xor(...wires));
    });

  published('FUN-11', '4 stages, taps 4 and 3', () => {
    const count = predictionOf(shift(4, [4, 3], '1111')).count();
    expect(count.values.join(' ')).toBe('15 14 12 8 1 2 4 9 3 6 13 10 5 11 7');
    expect(count).toMatchObject({ kind: 'lfsr', period: 15, trapped: ['0'] });
  });

  published('FUN-12', 'the same with XNOR', () => {
    const count = predictionOf(shift(4, [4, 3], '0000', true)).count();
    expect(count.values.join(' ')).toBe('0 1 3 7 14 13 11 6 12 9 2 5 10 4 8');
    expect(count).toMatchObject({ kind: 'lfsr', trapped: ['15'] });
  });

  published('FUN-13', '8 stages, taps 8 and 7: not maximal', () => {
    const count = predictionOf(shift(8, [8, 7], '00000001')).count();
    expect(count).toMatchObject({ kind: 'lfsr', period: 63, explored: true });
    expect(count.trapped).toHaveLength(256 - 63);
  });

  published('FUN-14', '4 stages, taps 4 and 2: not maximal', () => {
    expect(predictionOf(shift(4, [4, 2], '0001')).count().period).toBe(6);
    expect(predictionOf(shift(4, [4, 2], '0110')).count().period).toBe(3);
  });

  published('FUN-15', 'all zeros stay', () => {
    expect(predictionOf(shift(4, [4, 3], '0000')).count()).toMatchObject({ values: ['0'], period: 1, kind: 'other' });
  });

  const maximalTaps: readonly (readonly [number, ...number[]])[] = [
    ...[
      [3, 3, 2],
      [4, 4, 3],
      [5, 5, 3],
      [6, 6, 5],
      [7, 7, 6],
      [8, 8, 6, 5, 4],
      [9, 9, 5],
      [10, 10, 7],
      [11, 11, 9],
    ],
    ...[
      [12, 12, 6, 4, 1],
      [13, 13, 4, 3, 1],
      [14, 14, 5, 3, 1],
      [15, 15, 14],
      [16, 16, 15, 13, 4],
      [17, 17, 14],
    ],
    ...[
      [18, 18, 11],
      [19, 19, 6, 2, 1],
      [20, 20, 17],
      [21, 21, 19],
      [22, 22, 21],
      [23, 23, 18],
      [24, 24, 23, 22, 17],
    ],
    ...[
      [25, 25, 22],
      [26, 26, 6, 2, 1],
      [27, 27, 5, 2, 1],
      [28, 28, 25],
      [29, 29, 27],
      [30, 30, 6, 4, 1],
      [31, 31, 28],
    ],
    [32, 32, 22, 2, 1],
  ].map((row) => row as [number, ...number[]]);
  published('FUN-10', 'periods of the published tap sets, run through up to 13 stages', () => {
    for (const [width, ...taps] of maximalTaps.filter(([stages]) => stages <= 13)) {
      const count = predictionOf(shift(width, taps, '1'.repeat(width)), { limits: { states: 0 } }).count();
      expect([width, count.period, count.kind]).toEqual([width, 2 ** width - 1, 'lfsr']);
    }
  });

  published('FUN-10', 'periods of all published tap sets, by algebra, XOR and XNOR', () => {
    for (const [width, ...taps] of maximalTaps) {
      for (const inverted of [false, true]) {
        const netlist = shift(width, taps, `${'0'.repeat(width - 1)}1`, inverted);
        const { count, register } = predictionOf(netlist, { limits: { period: 1 } });
        expect(count()).toMatchObject({ period: 2 ** width - 1, kind: 'lfsr', why: null });
        expect(count().trapped).toEqual([String(inverted ? 2 ** width - 1 : 0)]);
        expect(register('q').ratios[0]).toEqual({
          numerator: 2n ** BigInt(width) - 1n,
          denominator: 2n ** BigInt(width - 2),
        });
      }
    }
  });

  it('algebra and running through agree on ratios and duties', () => {
    for (const inverted of [false, true]) {
      const netlist = shift(8, [8, 6, 5, 4], '00000001', inverted);
      expect(predictionOf(netlist, { limits: { period: 1 } }).register('q')).toEqual(
        predictionOf(netlist).register('q'),
      );
    }
  });

  it('a tap set that is not maximal is not called so', () => {
    // The published set for 19 stages needs four taps: no two will do.
    const netlist = shift(19, [19, 18], '1'.repeat(19));
    expect(predictionOf(netlist, { limits: { period: 1000 } }).count()).toMatchObject({
      period: null,
      kind: 'other',
      why: { reason: 'period-not-proven', args: { limit: 1000 } },
    });
  });
});

function triple(ps: number) {
  return { min: ps, typ: ps, max: ps };
}
