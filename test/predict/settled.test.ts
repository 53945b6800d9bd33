import { describe, expect, it } from 'vitest';
import { circuit, type Wire } from '../tools/circuit';
import { benchOf } from './settled-bench';

/** Values of `q` after each of `count` periods of clk, the start first. */
function readings(netlist: ReturnType<ReturnType<typeof circuit>['build']>, name: string, count: number): string {
  const bench = benchOf(netlist);
  const values = [bench.read(name)];
  for (let index = 0; index < count; index++) {
    bench.period('clk');
    values.push(bench.read(name));
  }
  return values.join(' ');
}

/** A chain of toggles, one edge per stage; every stage but the first is clocked by the one before. */
function chain(edges: readonly ('rising' | 'falling')[], start: string) {
  const c = circuit();
  const clk = c.input('clk');
  c.registers(
    'q',
    { width: edges.length },
    edges.map((edge, index) => ({
      low: index,
      width: 1,
      clock: (q: Wire) => (index === 0 ? clk : q.bit(index - 1)),
      edge,
      data: (q: Wire) => c.not(q.bit(index)),
      initial: start[edges.length - 1 - index],
    })),
  );
  return c.build();
}

describe('one instant', () => {
  it('a register samples what stood before the edge: two that swap', () => {
    // IEEE 1364-2005 9.2, the swap by nonblocking assignments (NBA-1).
    const c = circuit();
    const clk = c.input('clk');
    const a = c.register('a', { clock: clk, data: () => b, initial: '0' });
    const b: Wire = c.register('b', { clock: clk, data: a, initial: '1' });
    const bench = benchOf(c.build());
    bench.change('clk', '1');
    expect([bench.read('a'), bench.read('b')]).toEqual(['1', '0']);
    bench.change('clk', '0');
    expect([bench.read('a'), bench.read('b')]).toEqual(['1', '0']);
  });

  // Common practice, no source: only the second stage's edge sets the direction of a chain of two.
  it.each([
    [['rising', 'rising'], '00', '0 3 2 1 0'],
    [['falling', 'falling'], '00', '0 1 2 3 0'],
    [['falling', 'rising'], '00', '0 3 2 1 0'],
    [['rising', 'falling'], '00', '0 1 2 3 0'],
    [['rising', 'rising'], '11', '3 2 1 0 3'],
    [['rising', 'rising'], '01', '1 0 3 2 1'],
  ] as const)('a ripple counts through: %s from %s', (edges, start, expected) => {
    expect(readings(chain(edges, start), 'q', 4)).toBe(expected);
  });

  it('a ripple of 4 on falling edges counts up through 16', () => {
    // Floyd, Digital Fundamentals, 11th ed., Example 9-1 (the circuit).
    expect(readings(chain(['falling', 'falling', 'falling', 'falling'], '0000'), 'q', 16)).toBe(
      '0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 0',
    );
  });

  it('an asynchronous control acts as a level, also at time 0 and while what it loads moves', () => {
    const c = circuit();
    const clk = c.input('clk');
    const load = c.input('load');
    const value = c.input('value', { width: 4 });
    c.register('q', {
      width: 4,
      clock: clk,
      data: (q: Wire) => c.increment(q),
      initial: '0000',
      asynchronous: [{ control: load, active: 'high', value }],
    });
    const bench = benchOf(c.build(), { load: '1', value: '1001' });
    expect(bench.read('q')).toBe('9');
    bench.change('value', '0110');
    expect(bench.read('q')).toBe('6');
    bench.period('clk');
    expect(bench.read('q')).toBe('6');
    bench.change('load', '0');
    bench.period('clk');
    expect(bench.read('q')).toBe('7');
  });

  it('of two asynchronous controls the first wins', () => {
    const c = circuit();
    const clk = c.input('clk');
    const [clear, preset] = [c.input('clear'), c.input('preset')];
    c.register('q', {
      clock: clk,
      data: (q: Wire) => q,
      asynchronous: [
        { control: clear, active: 'high', value: '0' },
        { control: preset, active: 'high', value: '1' },
      ],
    });
    const bench = benchOf(c.build());
    expect(bench.read('q')).toBe('x');
    bench.change('preset', '1');
    expect(bench.read('q')).toBe('1');
    bench.change('clear', '1');
    expect(bench.read('q')).toBe('0');
    bench.change('clear', '0');
    expect(bench.read('q')).toBe('1');
  });

  it('a count that clears itself passes the cleared state within the instant', () => {
    // Floyd ch. 9, asynchronous decade counter (partial decoding of 1010): 0 … 9, then 0.
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
    expect(readings(c.build(), 'q', 11)).toBe('0 1 2 3 4 5 6 7 8 9 0 1');
  });
});

describe('races and perhaps edges', () => {
  /** d and divided leave together at clk; r samples d at divided. */
  function late() {
    const c = circuit();
    const clk = c.input('clk');
    const d = c.register('d', { clock: clk, data: (self: Wire) => c.not(self), initial: '0' });
    const divided = c.register('divided', { clock: clk, data: (self: Wire) => c.not(self), initial: '0' });
    c.register('r', { clock: divided, data: d, initial: '0' });
    return c.build();
  }

  it('data and clock that leave together: unknown, unless the order is known', () => {
    const race = benchOf(late());
    race.change('clk', '1');
    expect(race.read('r')).toBe('x');
    expect(race.machine.races).toBe(1);
    for (const [order, expected] of [
      ['new', '1'],
      ['old', '0'],
    ] as const) {
      const bench = benchOf(late(), {}, { order: () => order });
      bench.change('clk', '1');
      expect(bench.read('r')).toBe(expected);
      expect(bench.machine.races).toBe(0);
    }
  });

  it('data that did not move in the instant is no race', () => {
    const c = circuit();
    const clk = c.input('clk');
    const d = c.input('d');
    const divided = c.register('divided', { clock: clk, data: (self: Wire) => c.not(self), initial: '0' });
    c.register('r', { clock: divided, data: d, initial: '0' });
    const bench = benchOf(c.build());
    bench.change('d', '1');
    bench.change('clk', '1');
    expect(bench.read('r')).toBe('1');
    expect(bench.machine.races).toBe(0);
  });

  it('an edge to or from an unknown level may have sampled or not', () => {
    // IEEE 1364-2005 Table 9-1 says what is an edge; hardware may not have met it.
    const c = circuit();
    const clk = c.input('clk');
    c.register('same', { clock: clk, data: c.constant('1'), initial: '1' });
    c.register('other', { clock: clk, data: c.constant('1'), initial: '0' });
    c.register('falling', { clock: clk, edge: 'falling', data: c.constant('1'), initial: '0' });
    const bench = benchOf(c.build());
    bench.change('clk', 'x');
    expect(['same', 'other', 'falling'].map(bench.read)).toEqual(['1', 'x', '0']);
    bench.change('clk', '1');
    expect(['same', 'other', 'falling'].map(bench.read)).toEqual(['1', 'x', '0']);
    bench.change('clk', 'x');
    expect(bench.read('falling')).toBe('x');
  });

  it('at time 0 nothing is an edge', () => {
    const c = circuit();
    const clk = c.input('clk');
    c.register('q', { clock: clk, data: c.constant('1'), initial: '0' });
    expect(benchOf(c.build(), { clk: '1' }).read('q')).toBe('0');
  });
});

describe('latches and knots', () => {
  it('a latch passes while open and keeps what it held when it closes', () => {
    const c = circuit();
    const [gate, d] = [c.input('gate'), c.input('d')];
    c.latch('q', { gate, data: d, initial: '0' });
    const bench = benchOf(c.build());
    bench.change('d', '1');
    expect(bench.read('q')).toBe('0');
    bench.change('gate', '1');
    expect(bench.read('q')).toBe('1');
    bench.change('gate', '0');
    bench.change('d', '0');
    expect(bench.read('q')).toBe('1');
    bench.change('gate', 'x');
    expect(bench.read('q')).toBe('x');
  });

  it('a master and a slave latch with feedback halve the clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    const master: Wire = c.latch('master', { gate: clk, active: 'low', data: () => c.not(slave), initial: '0' });
    const slave: Wire = c.latch('slave', { gate: clk, active: 'high', data: master, initial: '0' });
    expect(readings(c.build(), 'slave', 4)).toBe('0 1 0 1 0');
  });

  it('cross-coupled gates keep a bit, and do not know it after both inputs were released together', () => {
    // The forbidden input of a latch of two NAND gates; any textbook.
    const c = circuit();
    const [set, reset] = [c.input('set'), c.input('reset')];
    const q: Wire = c.net('q', () => c.nand(set, other), {});
    const other: Wire = c.net('other', () => c.nand(reset, q), {});
    const bench = benchOf(c.build(), { set: '0', reset: '1' });
    expect([bench.read('q'), bench.read('other')]).toEqual(['1', '0']);
    bench.change('set', '1');
    expect([bench.read('q'), bench.read('other')]).toEqual(['1', '0']);
    bench.change('reset', '0');
    bench.change('reset', '1');
    expect([bench.read('q'), bench.read('other')]).toEqual(['0', '1']);
    bench.set('set', '0');
    bench.change('reset', '0');
    expect([bench.read('q'), bench.read('other')]).toEqual(['1', '1']);
    bench.set('set', '1');
    bench.change('reset', '1');
    expect([bench.read('q'), bench.read('other')]).toEqual(['x', 'x']);
  });

  it('a vector whose bits feed other bits of it is no loop', () => {
    const c = circuit();
    const [a, b] = [c.input('a', { width: 4 }), c.input('b', { width: 4 })];
    c.net('carry', (carry) => c.concat(c.and(a.bits(2, 0), c.or(b.bits(2, 0), carry.bits(2, 0))), c.constant('1')), {
      width: 4,
    });
    const bench = benchOf(c.build(), { a: '0111', b: '0000' });
    expect(bench.read('carry')).toBe('15');
    bench.change('a', '0101');
    expect(bench.read('carry')).toBe('3');
  });

  it('registers that chase each other without end become unknown', () => {
    const c = circuit();
    const start = c.input('start');
    const a: Wire = c.register('a', { clock: () => c.xor(start, b), data: (self: Wire) => c.not(self), initial: '0' });
    const b: Wire = c.register('b', { clock: () => a, data: (self: Wire) => c.not(self), initial: '0' });
    const bench = benchOf(c.build(), {}, { stepLimit: 50 });
    bench.change('start', '1');
    expect([bench.read('a'), bench.read('b')]).not.toEqual(['0', '0']);
  });
});
