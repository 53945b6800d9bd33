// Definition 5: what is one clock domain, and what is not.
import { describe, expect, it } from 'vitest';
import { circuit } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { counter, flop, toggle } from './parts';

describe('a domain', () => {
  it('is one root with its buffers, inversions, gated and derived clocks and every ripple stage', () => {
    const c = circuit();
    const clk = c.input('clk');
    const en = c.input('en');
    const half = toggle(c, 'half', 'rising', clk);
    toggle(c, 'quarter', 'falling', half);
    flop(c, 'inverted', 'rising', c.net('clk_n', c.not(clk)), en);
    flop(c, 'gated', 'rising', c.net('gclk', c.and(clk, en)), en);
    flop(c, 'tick', 'rising', c.net('decode', c.equal(counter(c, 'n', 3, 'rising', clk), c.constant('111'))), en);
    const { network } = describeClocks(c.build());
    expect(network.domains).toHaveLength(1);
    expect(network.domains[0]).toMatchObject({ name: 'clk', roots: [0], related: [] });
    expect(network.domains[0].registers).toHaveLength(6);
  });

  it('is each root by itself, unless a person relates them', () => {
    const build = () => {
      const c = circuit();
      for (const name of ['fast', 'slow', 'third']) flop(c, `q_${name}`, 'rising', c.input(name), c.input(`d_${name}`));
      return c.build();
    };
    const related = (groups: string[][]) =>
      describeClocks(build(), { related: groups }).network.domains.map((domain) => domain.related);
    expect(related([])).toEqual([[], [], []]);
    expect(related([['fast', 'slow']])).toEqual([[1], [0], []]);
    expect(
      related([
        ['fast', 'slow'],
        ['slow', 'third'],
      ]),
    ).toEqual([[1], [0, 2], [1]]);
    expect(related([['fast', 'nobody']])).toEqual([[], [], []]);
  });

  it('is a switched clock with all that it clocks, by the name of its output', () => {
    const c = circuit();
    const [a, b, s] = ['a', 'b', 's'].map((name) => c.input(name));
    toggle(c, 'qa', 'rising', a);
    const out = c.net('out', c.mux(s, a, b));
    const half = toggle(c, 'half', 'rising', out);
    toggle(c, 'quarter', 'rising', half);
    const found = describeClocks(c.build());
    expect(found.registers).toMatchObject({
      qa: 'a rising, a rising, stage 1, a',
      half: 'out rising, no root, stage 1, out',
      quarter: 'half rising, no root, stage 2, out',
    });
    expect(found.network.domains.map(({ name, roots }) => [name, roots])).toEqual([
      ['a', [0]],
      ['b', [1]],
      ['out', [0, 1]],
    ]);
  });

  it('of a switch without a name goes by the clock that it is a part of', () => {
    const c = circuit();
    const [a, b, s] = ['a', 'b', 's'].map((name) => c.input(name));
    toggle(c, 'q', 'rising', c.net('out', c.not(c.mux(s, a, b))));
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({ q: 'out rising, no root, stage 1, out' });
    expect(found.clock('out')).toMatchObject({ kind: 'switched', gate: { kind: 'switch', verdict: 'possible' } });
  });

  it('is also a switch between stages of one divider: which one it follows is not fixed', () => {
    const c = circuit();
    const clk = c.input('clk');
    const n = counter(c, 'n', 2, 'rising', clk);
    toggle(c, 'q', 'rising', c.net('tap', c.mux(c.input('s'), n.bit(0), n.bit(1))));
    expect(describeClocks(c.build()).registers.q).toBe('tap rising, clk rising, stage 2, tap');
  });

  it('is not left by a choice between a clock and its inverse, as in a ripple counter that goes up or down', () => {
    const c = circuit();
    const clk = c.input('clk');
    const up = c.input('up');
    const q0 = toggle(c, 'q0', 'falling', clk);
    toggle(c, 'q1', 'falling', c.net('next', c.mux(up, q0, c.not(q0))));
    toggle(c, 'q2', 'falling', c.net('turned', c.mux(up, clk, c.not(clk))));
    const found = describeClocks(c.build());
    expect(found.registers).toMatchObject({
      q1: 'next falling, clk falling, stage 2, clk',
      q2: 'turned falling, clk either, stage 1, clk',
    });
    expect(found.clock('next')).toMatchObject({ kind: 'gated', gate: { verdict: 'possible' } });
    expect(found.chains).toEqual(['q0 > q1']);
  });

  it('is not made for what nobody can tell', () => {
    const c = circuit();
    toggle(c, 'q', 'rising', c.net('g', c.and(c.input('left'), c.input('right'))));
    const { network, register } = describeClocks(c.build());
    expect(network.domains).toEqual([]);
    expect(register('q').domain).toBeNull();
  });

  it('of a latch is that of its gate', () => {
    const c = circuit();
    const clk = c.input('clk');
    toggle(c, 'q', 'rising', clk);
    c.latch('low', { gate: clk, active: 'low', data: c.input('d') });
    c.latch('free', { gate: c.input('en'), data: c.input('e') });
    const { network } = describeClocks(c.build());
    const domainNames = network.latches.map(({ domain }) => (domain === null ? null : network.domains[domain].name));
    expect(domainNames).toEqual(['clk', 'en']);
    expect(network.latches[0]).toMatchObject({ active: 'low', root: 0 });
  });
});

describe('a latch is intended', () => {
  const intended = (flavor: 'always' | 'always_comb' | 'always_latch' | 'gates', othersComplete: boolean) => {
    const c = circuit();
    c.latch('held', { gate: c.input('en'), data: c.input('d'), flavor, othersComplete });
    return describeClocks(c.build()).network.latches[0].intended;
  };
  it('unless its block says or shows that it is combinational (definition 40)', () => {
    expect(intended('always', false)).toBe(true);
    expect(intended('always', true)).toBe(false);
    expect(intended('always_comb', false)).toBe(false);
    expect(intended('always_latch', true)).toBe(true);
    expect(intended('gates', true)).toBe(true);
  });
});

it('lists stand in order of place, and twice the same', () => {
  const build = () => {
    const c = circuit();
    const [b, a] = ['b', 'a'].map((name) => c.input(name));
    const first = toggle(c, 'z', 'rising', a);
    toggle(c, 'y', 'rising', b);
    toggle(c, 'x', 'rising', c.net('w', c.not(first)));
    return c.build();
  };
  const { network } = describeClocks(build());
  expect(network.roots.map(({ name }) => name)).toEqual(['b', 'a']);
  expect(network.clocks.map(({ name, id }) => [name, id])).toEqual([
    ['b', 0],
    ['a', 1],
    ['z', 2],
    ['w', 3],
  ]);
  expect(network.domains.map(({ name }) => name)).toEqual(['b', 'a']);
  expect(describeClocks(build()).network).toEqual(network);
});
