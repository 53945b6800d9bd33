// Windows of small circuits, every end added up by hand from the triples (definitions 20, 21, 25, 28 and 32 of the
// project). Times in ns.

import { describe, expect, it } from 'vitest';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { Op } from '../../server/src/netlist/operators';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { plainSet, type TimedOptions } from './timed';
import { outside, windowsOf } from './windows-of';

const between = (min: number, typ: number, max: number) => ({ min: min * 1000, typ: typ * 1000, max: max * 1000 });
const alike = (min: number, typ: number, max: number) => ({
  rise: between(min, typ, max),
  fall: between(min, typ, max),
});

/** Flip-flops rise after 4 to 11, fall after 5 to 14; gates take 1 to 3, inverters 1 to 2. */
const loose: DelaySet = {
  ...plainSet('loose', { register: 1 }),
  clockToQ: { first: { rise: between(4, 7, 11), fall: between(5, 9, 14) }, next: null },
  clear: alike(6, 8, 10),
  latch: alike(1, 2, 3),
  logic: { gate: alike(1, 2, 3), inverter: alike(1, 1, 2), buffer: alike(2, 3, 4), arithmetic: alike(2, 3, 4) },
};

const toggle = (c: Circuit, name: string, clock: Wire, initial = '0') =>
  c.register(name, { clock, edge: 'falling', initial, data: (self: Wire) => c.not(self) });

/** `once 104..111 exact` of a bit, root edges falling at 100, 200, 300 … */
function shown(
  c: Circuit,
  delays: DelaySet = loose,
  options: Partial<TimedOptions> & { readonly period?: number } = {},
) {
  const { inputs = {}, period = 100, until = 450 } = options;
  const windowed = windowsOf(c.build(), { clocks: { clk: { period } }, inputs, delays, until });
  expect(
    outside(
      windowed,
      windowed.runWith(({ min }) => min),
    ),
  ).toEqual([]);
  expect(
    outside(
      windowed,
      windowed.runWith(({ max }) => max),
    ),
  ).toEqual([]);
  return (name: string): string[] => {
    const signal = windowed.netlist.signals.find((candidate) => candidate.name === name);
    if (signal === undefined) throw new Error(`no signal ${name}`);
    return windowed.windows
      .of({ node: signal.node, bit: 0 })
      .map(({ exact, from, moves, to }) => `${moves} ${from / 1000}..${to / 1000}${exact ? ' exact' : ''}`);
  };
}

describe('one way from the root edge', () => {
  it('adds up per direction, stage by stage, and through a gate that turns it', () => {
    const c = circuit();
    const q = toggle(c, 'q', c.input('clk'));
    toggle(c, 'r', q);
    c.output('n', c.not(q));
    const of = shown(c);
    expect(of('q')).toEqual([
      'once 104..111 exact',
      'once 205..214 exact',
      'once 304..311 exact',
      'once 405..414 exact',
    ]);
    // r rises behind q's fall: 5 + 4 to 14 + 11; it falls behind the next but one.
    expect(of('r')).toEqual(['once 209..225 exact', 'once 410..428 exact']);
    expect(of('n').slice(0, 2)).toEqual(['once 105..113 exact', 'once 206..216 exact']);
  });

  it('is none where a held input blocks it', () => {
    const c = circuit();
    c.output('y', c.and(toggle(c, 'q', c.input('clk')), c.input('en')));
    expect(shown(c, loose, { inputs: { en: '0' } })('y')).toEqual([]);
  });
});

describe('ways that meet', () => {
  it('are exact where the output goes over once in every order: with the last for an and, the first for an or', () => {
    const c = circuit();
    const clk = c.input('clk');
    const [a, b] = [toggle(c, 'a', clk), toggle(c, 'b', c.buf(clk))];
    c.output('all', c.and(a, b));
    c.output('any', c.or(a, b));
    const of = shown(c);
    // b is 2 to 4 later than a: its clock comes through a buffer.
    expect(of('b').slice(0, 2)).toEqual(['once 106..115 exact', 'once 207..218 exact']);
    expect(of('all').slice(0, 2)).toEqual(['once 107..118 exact', 'once 206..217 exact']);
    expect(of('any').slice(0, 2)).toEqual(['once 105..114 exact', 'once 208..221 exact']);
  });

  it('may come and go where some order passes another value', () => {
    const c = circuit();
    const clk = c.input('clk');
    const [a, b] = [toggle(c, 'a', clk), toggle(c, 'b', clk, '1')];
    c.output('both', c.and(a, b));
    c.output('either', c.xor(a, b));
    const of = shown(c);
    // a rises at 104 to 111 while b falls at 105 to 114: high between, at most from 104 to 114, and a gate later.
    expect(of('both')[0]).toBe('many 105..117');
    expect(of('either')[0]).toBe('many 105..117');
  });

  it('are compared from where they part: what both share cancels, and an effect follows its cause', () => {
    const c = circuit();
    const a = toggle(c, 'a', c.input('clk'));
    const b = toggle(c, 'b', a);
    c.output('zero', c.nor(a, b));
    c.output('three', c.and(a, b));
    const of = shown(c);
    // From 1 to 2: a falls at 205 to 214, then b rises 4 to 11 after it. Counted from the root they overlap.
    expect(of('b')[0]).toBe('once 209..225 exact');
    expect(of('zero')).toContain('many 206..228');
    expect(of('three')).toEqual(['once 305..314 exact', 'once 406..417 exact']);
  });

  it('make no pulse that the gate behind them is too slow for', () => {
    const delayed = (buffer: readonly [number, number, number]) => {
      const c = circuit();
      const q = toggle(c, 'q', c.input('clk'));
      c.output('y', c.xor(q, c.buf(q)));
      return shown(c, { ...loose, logic: { gate: alike(3, 4, 5), buffer: alike(...buffer) } })('y');
    };
    expect(delayed([1, 2, 2])).toEqual([]);
    expect(delayed([1, 2, 4])[0]).toBe('many 107..120');
  });

  it('of a sum move every bit from the lowest one that moves', () => {
    const c = circuit();
    const q = toggle(c, 'q', c.input('clk'));
    const low = c.concat(c.constant('0'), q, c.constant('0'));
    const sum = c.operator(Op.add, 3, [low, c.constant('011')]);
    c.output('s0', sum.bit(0));
    c.output('s1', sum.bit(1));
    c.output('s2', sum.bit(2));
    const of = shown(c);
    expect(of('s0')).toEqual([]);
    expect([of('s1')[0], of('s2')[0]]).toEqual(['many 106..115', 'many 106..115']);
  });
});

describe('what is sampled', () => {
  it('is unknown from where some order of the delays takes another value', () => {
    const c = circuit();
    const clk = c.input('clk');
    const [half, data] = [toggle(c, 'half', clk), toggle(c, 'data', clk)];
    c.register('seen', { clock: half, edge: 'falling', initial: '1', data: () => data });
    // half falls at 205 to 214, as data does: seen takes 0 or 1, and may move at every fall of half from there.
    expect(shown(c)('seen')).toEqual(['many 209..228', 'many 409..428']);
  });

  it('is known where the order is fixed by what both share', () => {
    const c = circuit();
    const clk = c.input('clk');
    const half = toggle(c, 'half', clk);
    const behind = c.register('behind', {
      clock: half,
      edge: 'falling',
      initial: '0',
      data: (self: Wire) => c.not(self),
    });
    c.register('seen', { clock: half, edge: 'falling', initial: '1', data: () => behind });
    expect(shown(c)('seen')).toEqual(['once 210..228 exact', 'once 409..425 exact']);
  });

  it('is looked at again where a later root edge overtakes a late clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    const data = toggle(c, 'data', clk);
    const late = c.delayed(clk, { rise: 20_000, fall: 20_000 });
    c.register('seen', { clock: late, edge: 'falling', initial: '1', data: () => data });
    // Every 10: data of the next edge may be there before the clock of this one, 20 behind it.
    expect(shown(c, loose, { period: 10, until: 60 })('seen')[0]).toMatch(/^many /);
    expect(shown(c)('seen')).toEqual(['once 225..234 exact', 'once 324..331 exact', 'once 425..434 exact']);
  });
});

describe('stored without a clock', () => {
  it('a latch passes on while it is open', () => {
    const c = circuit();
    const q = toggle(c, 'q', c.input('clk'));
    c.latch('open', { gate: c.constant('1'), data: () => q, initial: '0' });
    expect(shown(c)('open').slice(0, 2)).toEqual(['once 105..114 exact', 'once 206..217 exact']);
  });

  it('a count that clears itself follows the typical order, and is never called exact', () => {
    const c = circuit();
    const clear: Wire = c.net('clear', () => c.nand(q.bit(0), q.bit(1)));
    const clk = c.input('clk');
    const q: Wire = c.registers(
      'q',
      { width: 2 },
      [0, 1].map((low) => ({
        low,
        width: 1,
        clock: (self: Wire) => (low === 0 ? clk : self.bit(0)),
        edge: 'falling' as const,
        data: (self: Wire) => c.not(self.bit(low)),
        initial: '0',
        asynchronous: [{ control: clear, active: 'low' as const, value: '0' }],
      })),
    );
    // Third edge: q[0] rises at 304 to 311, the gate answers 1 to 3 later, and 6 to 10 after that both are cleared.
    const of = shown(c);
    expect(of('q')[2]).toBe('many 304..324');
  });
});
