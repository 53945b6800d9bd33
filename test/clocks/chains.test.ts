// Definition 10: chains of registers that toggle or count and clock each other, and what is none.
import { describe, expect, it } from 'vitest';
import { circuit, type Circuit, type Later, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { counter, flop, toggle } from './parts';

const chainsOf = (build: (c: Circuit, clk: Wire) => void) => {
  const c = circuit();
  build(c, c.input('clk'));
  return describeClocks(c.build());
};

describe('a chain', () => {
  it('is every register that toggles and clocks the next, at least two', () => {
    const found = chainsOf((c, clk) => {
      const a = toggle(c, 'a', 'falling', clk);
      const b = toggle(c, 'b', 'falling', a);
      toggle(c, 'd', 'falling', b);
      toggle(c, 'alone', 'rising', clk);
    });
    expect(found.chains).toEqual(['a > b > d']);
    expect(found.network.chains[0]).toMatchObject({ root: 0, clockBits: [0, 0, 0] });
  });

  it('branches into chains with a shared beginning', () => {
    const found = chainsOf((c, clk) => {
      const a = toggle(c, 'a', 'falling', clk);
      const b = toggle(c, 'b', 'falling', a);
      toggle(c, 'left', 'falling', b);
      const d = toggle(c, 'd', 'rising', a);
      toggle(c, 'e', 'rising', d);
    });
    expect(found.chains).toEqual(['a > b > left', 'a > d > e']);
  });

  it('may have whole counters as members, linked by their most significant bits', () => {
    // Two synchronous four-bit counters, the first one's msb clocking the second.
    const found = chainsOf((c, clk) => {
      const low = counter(c, 'low', 4, 'falling', clk);
      counter(c, 'high', 4, 'falling', low.bit(3));
    });
    expect(found.chains).toEqual(['low[3:0] > high[3:0]']);
    expect(found.network.chains[0].clockBits).toEqual([3, 3]);
    expect(found.registers).toEqual({
      'low[3:0]': 'clk falling, clk falling, stage 1, clk',
      'high[3:0]': 'low[3] falling, clk falling, stage 2, clk',
    });
  });

  it('goes on through inverters, buffers and gates of the link', () => {
    const found = chainsOf((c, clk) => {
      const a = toggle(c, 'a', 'rising', clk);
      const b = toggle(c, 'b', 'rising', c.net('a_n', c.not(a)));
      toggle(c, 'marker', 'rising', b);
      const gated = c.net('gated', c.and(c.buf(b), c.input('run')));
      toggle(c, 'd', 'falling', gated);
    });
    expect(found.chains).toEqual(['a > b > marker', 'a > b > d']);
  });

  it('of registers with enables and clears is one as well', () => {
    const found = chainsOf((c, clk) => {
      const en = c.input('en');
      const clear = c.input('clear');
      const a = c.register('a', { clock: clk, data: (q) => c.mux(en, c.not(q), q) });
      c.register('b', { clock: a, data: (q) => c.mux(clear, c.constant('0'), c.not(q)) });
    });
    expect(found.chains).toEqual(['a > b']);
  });

  it('is not a divided clock that feeds a block of registers', () => {
    const found = chainsOf((c, clk) => {
      const half = toggle(c, 'half', 'rising', clk);
      const data = c.input('data', { width: 4 });
      flop(c, 'sample', 'rising', half, data);
      c.register('history', { width: 4, clock: half, data: (q) => c.concat(q.bits(2, 0), data.bit(0)) });
    });
    expect(found.chains).toEqual([]);
    expect(found.registers['sample[3:0]']).toBe('half rising, clk rising, stage 2, clk');
  });

  it('is not a shift register, nor registers that clock each other with data from elsewhere', () => {
    const found = chainsOf((c, clk) => {
      const a = flop(c, 'a', 'rising', clk, c.input('d'));
      const b = flop(c, 'b', 'rising', clk, a);
      flop(c, 'e', 'rising', b, a);
    });
    expect(found.chains).toEqual([]);
  });

  it('begins anew behind a register that does not toggle', () => {
    const found = chainsOf((c, clk) => {
      const a = toggle(c, 'a', 'rising', clk);
      const shift = flop(c, 'shift', 'rising', a, c.input('d'));
      const b = toggle(c, 'b', 'rising', shift);
      toggle(c, 'e', 'rising', b);
    });
    expect(found.chains).toEqual(['b > e']);
  });

  it('is not made by a decode of several registers', () => {
    const found = chainsOf((c, clk) => {
      const a = toggle(c, 'a', 'rising', clk);
      const b = toggle(c, 'b', 'rising', clk);
      toggle(c, 'e', 'rising', c.net('both', c.and(a, b)));
    });
    expect(found.chains).toEqual([]);
  });

  it('of a thousand stages is one chain', () => {
    const found = chainsOf((c, clk) => {
      let clock = clk;
      for (let stage = 0; stage < 1_000; stage++) clock = toggle(c, `q${stage}`, 'falling', clock);
    });
    expect(found.network.chains.map(({ registers }) => registers.length)).toEqual([1_000]);
    expect(found.network.registers[999].stage).toBe(1_000);
  });
});

describe('a register drives itself', () => {
  const isDriven = (width: number, data: (c: Circuit, q: Wire) => Wire) => {
    const c = circuit();
    const later: Later = (q) => data(c, q);
    c.register('q', { width, clock: c.input('clk'), data: later });
    return describeClocks(c.build()).network.registers[0].selfDriven;
  };

  it('when it toggles or counts, held up and cleared by whatever', () => {
    expect(isDriven(1, (c, q) => c.not(q))).toBe(true);
    expect(isDriven(4, (c, q) => c.increment(q))).toBe(true);
    expect(isDriven(4, (c, q) => c.subtract(q, c.constant('0001')))).toBe(true);
    expect(isDriven(1, (c, q) => c.xor(q, c.input('t')))).toBe(true);
    expect(isDriven(1, (c, q) => c.and(c.not(q), c.input('keep')))).toBe(true);
    expect(isDriven(4, (c, q) => c.add(q, c.zeroExtend(c.input('en'), 4)))).toBe(true);
    expect(isDriven(4, (c, q) => c.mux(c.equal(q, c.constant('1001')), c.constant('0000'), c.increment(q)))).toBe(true);
    expect(
      isDriven(4, (c, q) => c.mux(c.equal(q, c.input('top', { width: 4 })), c.constant('0000'), c.increment(q))),
    ).toBe(true);
    expect(isDriven(4, (c, q) => c.mux(c.input('up'), c.increment(q), c.subtract(q, c.constant('0001'))))).toBe(true);
  });

  it('when it goes round by its own bits: a ring, a twisted ring, a feedback shift register', () => {
    expect(isDriven(4, (c, q) => c.concat(q.bits(2, 0), q.bit(3)))).toBe(true);
    expect(isDriven(4, (c, q) => c.concat(q.bits(2, 0), c.not(q.bit(3))))).toBe(true);
    expect(isDriven(4, (c, q) => c.concat(q.bits(2, 0), c.xor(q.bit(3), q.bit(2))))).toBe(true);
  });

  it('not when it loads, shifts in or adds up what comes from elsewhere', () => {
    expect(isDriven(1, (c) => c.input('d'))).toBe(false);
    expect(isDriven(1, (c) => c.not(c.input('d')))).toBe(false);
    expect(isDriven(4, (c, q) => c.concat(q.bits(2, 0), c.input('d')))).toBe(false);
    expect(isDriven(4, (c, q) => c.add(q, c.input('d', { width: 4 })))).toBe(false);
    expect(isDriven(4, (c, q) => c.xor(q, c.input('d', { width: 4 })))).toBe(false);
    expect(isDriven(4, (c, q) => c.mux(c.input('load'), c.input('d', { width: 4 }), c.increment(q)))).toBe(false);
  });

  it('when one bit chooses what is added, up or down', () => {
    const step = (c: Circuit) => c.mux(c.input('up'), c.constant('0001'), c.constant('1111'));
    expect(isDriven(4, (c, q) => c.add(q, step(c)))).toBe(true);
  });

  it('however wide it is', () => {
    for (const width of [64, 65, 200]) expect(isDriven(width, (c, q) => c.increment(q))).toBe(true);
  });

  it('not when a constant is shifted in once and for all', () => {
    expect(isDriven(2, (c, q) => c.concat(q.bit(0), c.constant('1')))).toBe(false);
    expect(isDriven(3, (c, q) => c.concat(q.bits(1, 0), c.and(q.bit(0), c.input('x'))))).toBe(false);
  });

  it('not when it holds or is constant', () => {
    expect(isDriven(1, (_c, q) => q)).toBe(false);
    expect(isDriven(2, (c) => c.constant('10'))).toBe(false);
    expect(isDriven(1, (c, q) => c.mux(c.input('clear'), c.constant('0'), q))).toBe(false);
    expect(isDriven(1, (c, q) => c.and(q, c.input('keep')))).toBe(false);
  });
});
