// Signals with more states than can be followed: what is proven, what is said to hang on bits not followed.

import { describe, expect, it } from 'vitest';
import {
  and,
  choose,
  createGates,
  type Gates,
  type Literal,
  not,
  or,
  variableOf,
  xor,
} from '../../../server/src/hazards/glitch-gates';
import { solve } from '../../../server/src/hazards/glitch-solve';
import { createCone } from '../../../server/src/hazards/glitch-cone';
import { May, mayBe } from '../../../server/src/hazards/glitch-value';
import { falling, toggleChain } from '../../predict/predicted';
import { circuit, type Circuit, type Wire } from '../../tools/circuit';
import { glitchesIn } from './glitched';
import { type Random, randomFrom } from './random-ripple';

const variables = 6;

function randomLiteral(random: Random, gates: Gates, depth: number): Literal {
  const part = () => randomLiteral(random, gates, depth - 1);
  if (depth === 0) return variableOf(gates, random(variables)) ^ random(2);
  const kinds = [and, or, xor];
  const kind = random(4);
  return kind === 3 ? choose(gates, part(), part(), part()) : kinds[kind](gates, part(), part());
}

function valueUnder(gates: Gates, literal: Literal, levels: (variable: number) => number): number {
  const may = (variable: number) => (levels(variable) === 1 ? May.beOne : May.beZero);
  return mayBe(createCone(gates, literal), { may, marks: 'pass' });
}

describe('whether a function can be 1', () => {
  it('agrees with trying every setting, and its setting does it', () => {
    const random = randomFrom(7);
    const tally = { found: 0, none: 0 };
    for (let round = 0; round < 400; round++) {
      const gates = createGates();
      const literal = and(
        gates,
        randomLiteral(random, gates, 4),
        and(gates, randomLiteral(random, gates, 3), randomLiteral(random, gates, 3)),
      );
      const settings = Array.from(
        { length: 2 ** variables },
        (_, setting) => (variable: number) => (setting >>> variable) & 1,
      );
      const expected = settings.some((levels) => valueUnder(gates, literal, levels) === May.beOne) ? 'found' : 'none';
      const solution = solve(gates, literal, { order: [3, 1], mostWork: 1_000_000 });
      expect({ round, kind: solution.kind }).toEqual({ round, kind: expected });
      if (solution.kind === 'found') {
        expect(valueUnder(gates, literal, (variable) => solution.levels.get(variable) ?? 0)).toBe(May.beOne);
      }
      tally[expected] += 1;
    }
    expect(Math.min(tally.found, tally.none)).toBeGreaterThan(30);
  });

  it('gives up within its limit', () => {
    const gates = createGates();
    const parity = Array.from({ length: 30 }, (_, variable) => variableOf(gates, variable)).reduce((sum, bit) =>
      xor(gates, sum, bit),
    );
    const impossible = and(gates, parity, not(or(gates, parity, variableOf(gates, 31))));
    expect(solve(gates, and(gates, impossible, parity), { order: [], mostWork: 1000 }).kind).not.toBe('found');
  });
});

/** A register of `width` bits that takes `next` while `phase` has this value. */
function during(c: Circuit, clk: Wire, phase: Wire, value: string, name: string, next: Wire): Wire {
  return c.register(name, {
    width: next.width,
    clock: clk,
    data: (self: Wire) => c.mux(c.equal(phase, c.constant(value)), next, self),
    initial: '0'.repeat(next.width),
  });
}

describe('more states than can be followed', () => {
  function phases(c: Circuit): { readonly clk: Wire; readonly phase: Wire } {
    const clk = c.input('clk');
    const phase: Wire = c.register('phase', {
      width: 2,
      clock: clk,
      data: (self: Wire) => c.increment(self),
      initial: '00',
    });
    return { clk, phase };
  }

  it('two registers that never move together: proven silent, no limit to tell', () => {
    const c = circuit();
    const { clk, phase } = phases(c);
    const a = during(c, clk, phase, '01', 'a', c.input('x', { width: 40 }));
    const b = during(c, clk, phase, '10', 'b', c.input('y', { width: 40 }));
    c.output('out', c.equal(a, b));
    // Each alone may move in many bits, so only single bits of the two are compared.
    c.output('one', c.xor(a.bit(3), b.bit(3)));
    const found = glitchesIn(c.build());
    expect(found.find('one', 'possible')).toBeNull();
    expect(found.find('out', 'possible')).not.toBeNull();
    expect(found.limits).toEqual([]);
  });

  it('two that can: possible, found with what feeds them free', () => {
    const c = circuit();
    const { clk, phase } = phases(c);
    const wide = c.register('wide', {
      width: 70,
      clock: clk,
      data: (self: Wire) => c.increment(self),
      initial: '0'.repeat(70),
    });
    const a = during(c, clk, phase, '01', 'a', wide.bit(69));
    const b = during(c, clk, phase, '01', 'b', wide.bit(68));
    c.output('out', c.and(a, b));
    const found = glitchesIn(c.build()).find('out', 'possible');
    expect(found?.why.reason).toBe('glitch-unfollowed-bits');
    expect(found?.why.args.bits).toContain('wide[6');
  });

  it('a count that is never reached by following: asked for in any state', () => {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.register('q', {
      width: 40,
      clock: clk,
      data: (self: Wire) => c.increment(self),
      initial: '0'.repeat(40),
    });
    c.output('y', c.equal(q, c.constant(`1${'0'.repeat(39)}`)));
    const found = glitchesIn(c.build(), { limits: { states: 4_096 } });
    expect(found.find('y', 'possible')?.why.reason).toBe('glitch-unfollowed-bits');
    expect(found.limits).toEqual([]);
  });

  it('a long ripple: an odd code is never passed, an even one may be', () => {
    const decode = (code: number) => {
      const c = circuit();
      c.output(
        'y',
        c.equal(toggleChain(c, c.input('clk'), falling(14)), c.constant(code.toString(2).padStart(14, '0'))),
      );
      return glitchesIn(c.build(), { limits: { states: 8_192 } });
    };
    expect(decode(0x2001)).toMatchObject({ glitches: [], limits: [] });
    expect(decode(0x3000).find('y', 'possible')?.why.reason).toBe('glitch-unfollowed-bits');
    expect(decode(0x10).find('y', 'certain')).not.toBeNull();
  });

  it('a wide ring has few states, however many bits', () => {
    const c = circuit();
    const clk = c.input('clk');
    const ring = c.register('ring', {
      width: 48,
      clock: clk,
      data: (self: Wire) => c.concat(self.bits(46, 0), self.bit(47)),
      initial: `${'0'.repeat(47)}1`,
    });
    c.output('y', c.and(ring.bit(3), ring.bit(9)));
    c.output('z', c.or(ring.bit(3), ring.bit(4)));
    const found = glitchesIn(c.build());
    expect(found.find('y', 'possible')).toBeNull();
    expect(found.find('z', 'possible')?.why.reason).toBe('glitch-open-order');
    expect(found.limits).toEqual([]);
  });
});
