// Definition 4: which operand of a gate is the clock, rule by rule, in order.
import { describe, expect, it } from 'vitest';
import type { ClockOptions } from '../../server/src/clocks/network';
import { isNamedAsClock } from '../../server/src/clocks/operand-evidence';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { flop, toggle } from './parts';

/** A register clocked by `a` and `b` through an and gate `g`, beside whatever else is built. */
function gateOf(names: readonly [string, string], also: (c: Circuit, a: Wire, b: Wire) => void = () => {}) {
  const c = circuit();
  const [a, b] = names.map((name) => c.input(name));
  also(c, a, b);
  toggle(c, 'q', 'rising', c.net('g', c.and(a, b)));
  return (stated: Partial<ClockOptions> = {}) => describeClocks(c.build(), stated);
}

describe('the clock of a gate', () => {
  it('is the operand stated, above all else', () => {
    const found = gateOf(['clk', 'x'], (c, clk) => toggle(c, 'p', 'rising', clk))({ clockOperands: { g: 'x' } });
    expect(found.clocks.g).toBe('gated of x');
    expect(found.register('q').root).toMatchObject({ edge: 'rising' });
  });

  it('is decided by the rules where what is stated names no operand', () => {
    const found = gateOf(['a', 'b'], (c, a) => toggle(c, 'p', 'rising', a))({ clockOperands: { g: 'nobody' } });
    expect(found.clocks.g).toBe('gated of a');
  });

  it('is the one that stands in an edge list elsewhere', () => {
    const found = gateOf(['a', 'b'], (c, _a, b) => toggle(c, 'p', 'falling', b))();
    expect(found.clocks.g).toBe('gated of b');
    expect(found.clock('g').assumedFromName).toBeNull();
  });

  it('is the one in an edge list, seen through inverters, buffers and other gates', () => {
    const c = circuit();
    const a = c.input('a');
    const b = c.input('b');
    const d = c.input('d');
    toggle(c, 'p', 'rising', c.net('a_n', c.not(a)));
    const inner = c.net('inner', c.or(c.buf(a), b));
    toggle(c, 'q', 'rising', c.net('g', c.and(inner, d)));
    const found = describeClocks(c.build());
    expect(found.clocks).toMatchObject({ inner: 'gated of a', g: 'gated of inner' });
  });

  it('is not a reset: a tested edge signal clocks nothing', () => {
    const found = gateOf(['clk', 'rst_n'], (c, clk, rst) =>
      c.register('p', {
        clock: clk,
        data: (p) => c.not(p),
        asynchronous: [{ control: rst, active: 'low', value: '0' }],
      }),
    )();
    expect(found.clocks.g).toBe('gated of clk');
  });

  it('is the root where a register that gates it clocks something too', () => {
    const c = circuit();
    const clk = c.input('clk');
    const half = toggle(c, 'half', 'rising', clk);
    toggle(c, 'p', 'rising', half);
    toggle(c, 'q', 'rising', c.net('g', c.and(clk, half)));
    const found = describeClocks(c.build());
    expect(found.clocks.g).toBe('gated of clk');
    expect(found.clock('g').gate?.controls.map(({ name }) => name)).toEqual(['half']);
  });

  it('is the one that opens the latch beside it', () => {
    const c = circuit();
    const c1 = c.input('c1');
    const en = c.input('en');
    const held = c.latch('held', { gate: c1, active: 'low', data: en });
    toggle(c, 'q', 'rising', c.net('g', c.and(c1, held)));
    expect(describeClocks(c.build()).clocks.g).toBe('gated of c1');
  });

  it('is each datum of a multiplexer, the select being a control', () => {
    const c = circuit();
    const [a, b, s] = ['a', 'b', 's'].map((name) => c.input(name));
    toggle(c, 'q', 'rising', c.net('g', c.mux(s, a, b)));
    const found = describeClocks(c.build());
    expect(found.clocks.g).toBe('switched of a, b');
    expect(found.clock('g').gate?.controls.map(({ name }) => name)).toEqual(['s']);
  });

  it('is the select where that stands in an edge list and no datum does', () => {
    const c = circuit();
    const [clk, d0, d1] = ['clk', 'd0', 'd1'].map((name) => c.input(name));
    const high = flop(c, 'high', 'rising', clk, d0);
    const low = flop(c, 'low', 'falling', clk, d1);
    toggle(c, 'q', 'rising', c.net('g', c.mux(clk, high, low)));
    expect(describeClocks(c.build()).clocks.g).toBe('gated of clk');
  });

  it('is the port that feeds nothing else, where the other feeds data or an enable', () => {
    const data = gateOf(['a', 'b'], (c, a) => flop(c, 'p', 'rising', c.input('other'), a))();
    expect(data.clocks.g).toBe('gated of b');
    const enable = gateOf(['a', 'b'], (c, _a, b) =>
      c.register('p', { clock: c.input('other'), data: (p) => c.mux(b, c.not(p), p) }),
    )();
    expect(enable.clocks.g).toBe('gated of a');
    expect(enable.clock('g').assumedFromName).toBeNull();
  });

  it('is told by its name in the end, and that is said', () => {
    const found = gateOf(['sys_clk', 'run'])();
    expect(found.clocks.g).toBe('gated of sys_clk');
    expect(found.clock('g').assumedFromName).toBe('sys_clk');
  });

  it('is unclear where nothing tells it, and the candidates are named', () => {
    const found = gateOf(['left', 'right'])();
    expect(found.clock('g')).toMatchObject({
      kind: 'gated',
      root: null,
      roots: [],
      domain: null,
      risesOn: null,
      candidates: ['left', 'right'],
      assumedFromName: null,
      gate: null,
    });
    expect(found.register('q')).toMatchObject({ root: null, domain: null, stage: 1 });
  });

  it('is asked for by the named clock, where the gate in question is a nameless part of it', () => {
    const c = circuit();
    const [a, b] = ['a', 'b'].map((name) => c.input(name));
    toggle(c, 'q', 'rising', c.net('g', c.not(c.or(a, c.not(b)))));
    const found = describeClocks(c.build());
    expect(found.network.clocks.map(({ name, candidates }) => [name, candidates])).toEqual([['g', ['a', 'b']]]);
  });

  it('is unclear between a port and a register of which nothing is known', () => {
    const c = circuit();
    const port = c.input('port');
    const q = flop(c, 'en', 'rising', c.input('clk'), c.input('d'));
    toggle(c, 'q', 'rising', c.net('g', c.and(port, q)));
    expect(describeClocks(c.build()).clock('g').candidates).toEqual(['port', 'en']);
  });

  it('is the only operand that is no constant', () => {
    const c = circuit();
    const a = c.input('a');
    toggle(c, 'q', 'rising', c.net('g', c.and(a, c.net('tied', c.constant('1')))));
    const found = describeClocks(c.build());
    expect(found.clocks.g).toBe('gated of a');
    expect(found.clock('g').gate).toMatchObject({ verdict: 'strapped' });
  });
});

describe('one expression', () => {
  it('is one gate, however many operators of one kind it has', () => {
    const c = circuit();
    const clk = c.input('clk');
    const en = flop(c, 'en', 'falling', clk, c.input('d'));
    const go = flop(c, 'go', 'falling', clk, c.input('e'));
    toggle(c, 'q', 'rising', c.net('g', c.and(c.and(clk, en), go)));
    const found = describeClocks(c.build());
    expect(found.clocks).toEqual({ clk: 'root', g: 'gated of clk' });
    expect(found.clock('g').gate?.controls.map(({ name }) => name)).toEqual(['en', 'go']);
  });

  it('shows the controls of its nameless gates as its own', () => {
    const c = circuit();
    const clk = c.input('clk');
    const en = flop(c, 'en', 'falling', clk, c.input('d'));
    const stop = flop(c, 'stop', 'rising', clk, c.input('e'));
    toggle(c, 'q', 'rising', c.net('g', c.or(c.and(clk, en), stop)));
    const found = describeClocks(c.build());
    expect(found.clocks).toEqual({ clk: 'root', g: 'gated of clk' });
    expect(found.clock('g').gate?.controls.map(({ name }) => name)).toEqual(['stop', 'en']);
  });

  it('of a condition written as a comparison or a conditional is the same buffer or inverter', () => {
    const c = circuit();
    const clk = c.input('clk');
    const zero = c.constant('0');
    const one = c.constant('1');
    toggle(c, 'a', 'rising', c.net('is0', c.equal(clk, zero)));
    toggle(c, 'b', 'rising', c.net('not0', c.notEqual(clk, zero)));
    toggle(c, 'd', 'rising', c.net('pick', c.mux(clk, zero, one)));
    expect(describeClocks(c.build()).registers).toEqual({
      a: 'is0 rising, clk falling, stage 1, clk',
      b: 'not0 rising, clk rising, stage 1, clk',
      d: 'pick rising, clk falling, stage 1, clk',
    });
  });
});

describe('a clock word', () => {
  it.each(['clk', 'CLK', 'sys_clk', 'clk_in', 'clkA', 'clk2', 'u1.osc', 'mainClock', 'ck', 'clk[0]'])(
    'is in %s',
    (name) => expect(isNamedAsClock(name)).toBe(true),
  );
  it.each(['clkdiv', 'ack', 'tick', 'clk_tree.en', 'oscillating', 'block', 'lock', ''])('is not in %s', (name) =>
    expect(isNamedAsClock(name)).toBe(false),
  );
});
