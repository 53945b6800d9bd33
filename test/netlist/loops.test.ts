// Combinational loops by bit, and whether any value of the selects closes them.

import { describe, expect, it } from 'vitest';
import { createBitNames } from '../../server/src/netlist/bit-names';
import { combinationalLoops } from '../../server/src/netlist/loops';
import { Op } from '../../server/src/netlist/operators';
import { type Circuit, circuit, type Wire } from '../tools/circuit';

/** Each loop as the names of its net bits, with whether it closes. */
function loopsIn(c: Circuit): { nets: string[]; closes: string }[] {
  const netlist = c.build();
  const names = createBitNames(netlist);
  return combinationalLoops(netlist).map(({ bits, closes }) => ({
    nets: bits.filter(({ node }) => netlist.nodes.op[node] === Op.net).map((bit) => names.nameOf(bit) as string),
    closes,
  }));
}

describe('loops by bit', () => {
  it('are found through gates and nets, each alone', () => {
    const c = circuit();
    const [a, b] = [c.input('a'), c.input('b')];
    const s: Wire = c.net('s', () => c.nand(a, r));
    const r: Wire = c.net('r', () => c.nand(b, s));
    c.net('self', (self) => c.xor(self, a));
    c.output('y', s);
    expect(loopsIn(c)).toEqual([
      { nets: ['s', 'r'], closes: 'yes' },
      { nets: ['self'], closes: 'yes' },
    ]);
  });

  it('are none through a register or a latch', () => {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.register('q', { width: 4, clock: clk, data: (self) => c.increment(self) });
    c.latch('l', { gate: clk, data: (self) => c.not(self) });
    c.output('y', q);
    expect(loopsIn(c)).toEqual([]);
  });

  it('are none where the bits of one vector feed its higher bits', () => {
    const c = circuit();
    const a = c.input('a', { width: 4 });
    // carry[i + 1] = a[i] & carry[i], as one vector: a ripple of gates.
    c.net('carry', (carry) => c.concat(c.and(a.bits(3, 1), carry.bits(2, 0)), a.bit(0)), { width: 4 });
    expect(loopsIn(c)).toEqual([]);
  });

  it('are none where an adder feeds its own higher bits, and one where it feeds a lower bit', () => {
    const build = (feed: (sum: Wire, c: Circuit) => Wire) => {
      const c = circuit();
      const b = c.input('b', { width: 4 });
      c.net('sum', (sum) => c.add(b, feed(sum, c)), { width: 4 });
      return loopsIn(c);
    };
    expect(build((sum, c) => c.concat(sum.bits(2, 0), c.constant('0')))).toEqual([]);
    expect(build((sum, c) => c.concat(c.constant('000'), sum.bit(3)))).toEqual([{ nets: ['sum[3]'], closes: 'yes' }]);
  });

  it('come in the order of their first bit', () => {
    const c = circuit();
    const a = c.input('a', { width: 2 });
    // Bit 1 hears bit 0, each hears itself: two loops in one vector.
    c.net('v', (v) => c.concat(c.xor(v.bit(1), v.bit(0)), c.xor(v.bit(0), a.bit(0))), { width: 2 });
    c.net('w', (w) => c.concat(c.xor(w.bit(1), a.bit(1)), c.xor(w.bit(0), w.bit(1))), { width: 2 });
    expect(loopsIn(c).map(({ nets }) => nets)).toEqual([['v[0]'], ['v[1]'], ['w[0]'], ['w[1]']]);
  });

  it('name only the bits of the loop', () => {
    const c = circuit();
    const a = c.input('a', { width: 4 });
    c.net('v', (v) => c.concat(c.xor(v.bit(3), a.bit(3)), c.and(a.bits(2, 0), v.bits(3, 1))), { width: 4 });
    expect(loopsIn(c)).toEqual([{ nets: ['v[3]'], closes: 'yes' }]);
  });
});

describe('loops that no select closes', () => {
  /** Two units in either order: a = s ? f(b) : in, b = s ? in : f(a). Known from resource sharing in synthesis. */
  function sharedUnits(select: (s: Wire, c: Circuit) => readonly [Wire, Wire]): string[] {
    const c = circuit();
    const [input, s] = [c.input('in'), c.input('s', { width: 3 })];
    const [forA, forB] = select(s, c);
    const a: Wire = c.net('a', () => c.mux(forA, c.not(b), input));
    const b: Wire = c.net('b', () => c.mux(forB, input, c.not(a)));
    return loopsIn(c).map(({ closes }) => closes);
  }

  it('stay open for one select and its inverse', () => {
    expect(sharedUnits((s) => [s.bit(0), s.bit(0)])).toEqual(['never']);
    expect(sharedUnits((s, c) => [s.bit(0), c.not(c.not(s.bit(0)))])).toEqual(['never']);
    expect(sharedUnits((s, c) => [s.bit(0), c.not(s.bit(0))])).toEqual(['yes']);
    expect(sharedUnits((s) => [s.bit(0), s.bit(1)])).toEqual(['yes']);
  });

  it('stay open for comparisons that exclude each other, through arithmetic too', () => {
    const is = (c: Circuit, s: Wire, digits: string) => c.equal(s, c.constant(digits));
    expect(sharedUnits((s, c) => [is(c, s, '001'), is(c, s, '010')])).toEqual(['yes']);
    expect(sharedUnits((s, c) => [is(c, s, '001'), c.notEqual(s, c.constant('010'))])).toEqual(['never']);
    expect(sharedUnits((s, c) => [is(c, s, '001'), is(c, c.increment(s), '010')])).toEqual(['never']);
  });

  it('stay open through an n-way case that never takes both arms', () => {
    const c = circuit();
    const [input, s] = [c.input('in'), c.input('s', { width: 2 })];
    const a: Wire = c.net('a', () =>
      c.select(
        s,
        [
          ['00', c.not(b)],
          ['1?', input],
        ],
        input,
      ),
    );
    const b: Wire = c.net('b', () => c.select(s, [['0?', input]], c.not(a)));
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(['never']);
    const d = circuit();
    const t = d.input('t', { width: 2 });
    const e: Wire = d.net('e', () => d.select(t, [['00', d.not(f)]], t.bit(0)));
    const f: Wire = d.net('f', () => d.select(t, [['0?', d.not(e)]], t.bit(0)));
    expect(loopsIn(d).map(({ closes }) => closes)).toEqual(['yes']);
  });

  it('are closed by one value alone, of a bit far up and of one that only wildcards reach', () => {
    const c = circuit();
    const [input, s] = [c.input('in'), c.input('s', { width: 40 })];
    const upper = s.bits(39, 37);
    const a: Wire = c.net('a', () => c.mux(c.equal(upper, c.constant('101')), c.not(b), input));
    const b: Wire = c.net('b', () =>
      c.select(
        upper,
        [
          ['0??', input],
          ['1?1', c.not(a)],
        ],
        input,
      ),
    );
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(['yes']);
    const d = circuit();
    const [other, t] = [d.input('in'), d.input('t', { width: 40 })];
    const e: Wire = d.net('e', () => d.mux(d.equal(t.bits(39, 37), d.constant('101')), d.not(f), other));
    const f: Wire = d.net('f', () => d.select(t.bits(39, 37), [['1?1', other]], d.not(e)));
    expect(loopsIn(d).map(({ closes }) => closes)).toEqual(['never']);
  });

  it('stay open for a bus driven either way by tri-states', () => {
    const c = circuit();
    const s = c.input('s');
    const left: Wire = c.net('left', () => c.tristate(right, s));
    const right: Wire = c.net('right', () => c.tristate(left, c.not(s)));
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(['never']);
  });

  it('are closed by tri-states that can be on together, or by a default', () => {
    const c = circuit();
    const [s, t] = [c.input('s'), c.input('t')];
    const left: Wire = c.net('left', () => c.tristate(right, s));
    const right: Wire = c.net('right', () => c.tristate(left, t));
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(['yes']);
    const d = circuit();
    const [input, u] = [d.input('in'), d.input('u', { width: 2 })];
    const e: Wire = d.net('e', () => d.select(u, [['0?', input]], d.not(f)));
    const f: Wire = d.net('f', () => d.select(u, [['?0', input]], d.not(e)));
    expect(loopsIn(d).map(({ closes }) => closes)).toEqual(['yes']);
  });

  it('count as closed where the select hears the loop', () => {
    const c = circuit();
    const a = c.input('a');
    c.net('n', (n) => c.mux(n, a, c.not(a)));
    expect(loopsIn(c)).toEqual([{ nets: ['n'], closes: 'yes' }]);
  });

  it('are cut by a gate held at its controlling value, of every kind of gate', () => {
    type Pair = readonly [
      shut: (c: Circuit, way: Wire, s: Wire) => Wire,
      open: (c: Circuit, way: Wire, s: Wire) => Wire,
    ];
    /** `s` 0 shuts the first of a pair, `s` 1 the second. */
    const pairs: readonly Pair[] = [
      [(c, way, s) => c.and(way, s), (c, way, s) => c.or(way, s)],
      [(c, way, s) => c.nand(way, s), (c, way, s) => c.nor(way, s)],
      [(c, way, s) => c.reduceAnd(c.concat(way, s)), (c, way, s) => c.reduceOr(c.concat(s, way))],
      [
        (c, way, s) => c.equal(c.concat(way, s), c.constant('11')),
        (c, way, s) => c.notEqual(c.concat(way, s), c.constant('10')),
      ],
    ];
    const closes = (first: Pair[number], second: Pair[number]) => {
      const c = circuit();
      const s = c.input('s');
      const x: Wire = c.net('x', () => first(c, c.not(y), s));
      const y: Wire = c.net('y', () => second(c, x, s));
      return loopsIn(c).map((loop) => loop.closes);
    };
    for (const [shut] of pairs) for (const [, open] of pairs) expect(closes(shut, open)).toEqual(['never']);
    for (const [shut, open] of pairs) {
      for (const [otherShut, otherOpen] of pairs) {
        expect(closes(shut, otherShut)).toEqual(['yes']);
        expect(closes(open, otherOpen)).toEqual(['yes']);
      }
    }
  });

  it('are told apart from the setting that closes them among very many', () => {
    const ring = (last: (c: Circuit, key: Wire) => Wire) => {
      const c = circuit();
      const key = c.input('key', { width: 60 });
      let way: Wire | null = null;
      c.net('n', (n) => {
        way = c.not(n);
        for (let bit = 0; bit < 60; bit++) way = c.and(way, bit % 3 === 0 ? key.bit(bit) : c.not(key.bit(bit)));
        return c.and(way, last(c, key));
      });
      return loopsIn(c).map(({ closes }) => closes);
    };
    expect(ring((c, key) => c.not(key.bit(59)))).toEqual(['yes']);
    expect(ring((_, key) => key.bit(59))).toEqual(['never']);
  });

  it('stay closed where nothing but the other operands of arithmetic could change', () => {
    const c = circuit();
    const a = c.input('a', { width: 70 });
    c.net('sum', (sum) => c.add(a, c.not(sum)), { width: 70 });
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(new Array(70).fill('yes'));
  });

  it('are cut by a gate that another loop leaves at a known value, and unknown where that one may hold any', () => {
    const build = (inner: (c: Circuit, self: Wire, s: Wire) => Wire) => {
      const c = circuit();
      const s = c.input('s');
      const held = c.net('held', (self) => inner(c, self, s));
      c.net('n', (n) => c.and(c.not(n), held));
      return loopsIn(c).map(({ closes }) => closes);
    };
    // Set by s, the first can be made 1; the second is cut and 0; nothing sets the third.
    expect(build((c, self, s) => c.or(self, s))).toEqual(['yes', 'yes']);
    expect(build((c, self, s) => c.and(self, s, c.not(s)))).toEqual(['never', 'never']);
    expect(build((c, self) => c.buf(self))).toEqual(['yes', 'unknown']);
  });

  it('are left open where too many bits decide', () => {
    const c = circuit();
    const [input, s] = [c.input('in'), c.input('s', { width: 40 })];
    const a: Wire = c.net('a', () => c.mux(c.reduceXor(s), c.not(b), input));
    const b: Wire = c.net('b', () => c.mux(c.reduceXor(s), input, c.not(a)));
    expect(loopsIn(c).map(({ closes }) => closes)).toEqual(['unknown']);
  });
});
