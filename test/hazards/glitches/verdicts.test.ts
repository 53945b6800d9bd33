// What a verdict rests on, whom it endangers and how it is reached, one circuit each.

import { describe, expect, it } from 'vitest';
import { tripleOf } from '../../../server/src/delays/triple';
import { Op } from '../../../server/src/netlist/operators';
import { falling, flipFlops, toggleChain } from '../../predict/predicted';
import { circuit, type Circuit, type Wire } from '../../tools/circuit';
import { glitchesIn, transitionLines } from './glitched';

/** A synchronous counter of `width` bits. */
function counter(c: Circuit, width: number, name = 'q'): Wire {
  const clk = c.input('clk');
  return c.register(name, { width, clock: clk, data: (self: Wire) => c.increment(self), initial: '0'.repeat(width) });
}

function constantOf(c: Circuit, width: number, value: number): Wire {
  return c.constant(value.toString(2).padStart(width, '0'));
}

const rippleSet = flipFlops(10_000);

/** Decode of 0 from a ripple of 3, behind a delay: pulses of 10 and 20 ns pass it in turn. */
function delayedDecode(rise: number | { min: number; typ: number; max: number }, fall = rise) {
  const c = circuit();
  const q = toggleChain(c, c.input('clk'), falling(3));
  c.output('y', c.delayed(c.equal(q, c.constant('100')), { rise, fall }));
  return glitchesIn(c.build(), { delaySet: rippleSet });
}

describe('what a verdict rests on', () => {
  it('bits of one clock: equal times fix no order', () => {
    const c = circuit();
    c.output('y', c.equal(counter(c, 2), c.constant('11')));
    const found = glitchesIn(c.build()).find('y', 'possible');
    expect(found?.why).toEqual({ reason: 'glitch-open-order', args: { delaySet: 'unit' } });
    expect(transitionLines(found)).toEqual(['1>2 1@1000 0@1000 [0 0 0]']);
    expect(found?.registers.map(({ name }) => name)).toEqual(['q[1]', 'q[0]']);
  });

  it('a ripple whose flip-flops take no time: an effect still follows its cause, but nothing has a width', () => {
    const c = circuit();
    c.output('y', c.equal(toggleChain(c, c.input('clk'), falling(2)), c.constant('00')));
    const found = glitchesIn(c.build(), { delaySet: flipFlops(0) });
    expect(transitionLines(found.find('y', 'possible'))).toEqual(['1>2 1@0 0@0 [0 0 0]']);
    expect(found.find('y', 'certain')).toBeNull();
  });

  it('a comparison by size: possible in any single change, since its structure is not known', () => {
    const c = circuit();
    const clk = c.input('clk');
    const gray: Wire = c.register('gray', {
      width: 2,
      clock: clk,
      data: (self: Wire) => c.concat(self.bit(0), c.not(self.bit(1))),
      initial: '00',
    });
    c.output('y', c.less(gray, c.constant('11')));
    const found = glitchesIn(c.build()).find('y', 'possible');
    expect(found?.why.reason).toBe('glitch-unknown-structure');
    expect(found?.transitions).toHaveLength(4);
  });

  it('what a comparison by size passes for a while it passes for certain', () => {
    const c = circuit();
    const q = toggleChain(c, c.input('clk'), falling(3));
    c.output('y', c.less(q, c.constant('010')));
    // 3 to 4 passes 2 and 0: 0 is below 2, for 10 ns. The lowest bit has no say.
    expect(transitionLines(glitchesIn(c.build(), { delaySet: rippleSet }).find('y', 'certain'))).toEqual([
      '1>2 1@20000 0@30000 [10000 10000 10000]',
    ]);
  });

  it('a product: what it does between settled values is not known', () => {
    const c = circuit();
    const q = counter(c, 2);
    const product = c.operator(Op.multiply, 4, [c.zeroExtend(q, 4), c.zeroExtend(q, 4)]);
    c.output('y', product.bit(2));
    expect(glitchesIn(c.build()).find('y', 'possible')?.why.reason).toBe('glitch-unknown-structure');
  });

  it('a decode of a Gray code, of one bit, of a bit and a port: nothing', () => {
    const c = circuit();
    const clk = c.input('clk');
    const port = c.input('port');
    const gray: Wire = c.register('gray', {
      width: 2,
      clock: clk,
      data: (self: Wire) => c.concat(self.bit(0), c.not(self.bit(1))),
      initial: '00',
    });
    c.output('y', c.equal(gray, c.constant('11')));
    c.output('z', c.not(gray.bit(0)));
    c.output('w', c.and(gray.bit(1), port));
    expect(glitchesIn(c.build())).toMatchObject({ glitches: [], limits: [] });
  });

  it('a register that never moves counts for nothing', () => {
    const c = circuit();
    const clk = c.input('clk');
    const fixed = c.register('fixed', { clock: clk, data: (self: Wire) => self, initial: '1' });
    const moving = c.register('moving', { clock: clk, data: (self: Wire) => c.not(self), initial: '0' });
    c.output('y', c.xor(fixed, moving));
    expect(glitchesIn(c.build()).glitches).toEqual([]);
  });
});

describe('an inertial delay at the end (definition 25)', () => {
  it('longer than the pulse: nothing comes through', () => {
    expect(delayedDecode(11_000).glitches).toEqual([]);
  });

  it('shorter: the pulse comes later, as wide as before', () => {
    expect(transitionLines(delayedDecode(4_000).find('y', 'certain'))).toEqual([
      '5>6 1@14000 0@24000 [10000 10000 10000]',
      '7>0 1@24000 0@34000 [10000 10000 10000]',
    ]);
  });

  it('rise and fall differ: a high pulse leaves with w + fall - rise', () => {
    expect(transitionLines(delayedDecode(4_000, 6_000).find('y', 'certain'))).toContain(
      '5>6 1@14000 0@26000 [12000 12000 12000]',
    );
  });

  it('perhaps longer: possible; exactly as wide: possible too, the standard leaves it open', () => {
    expect(delayedDecode({ min: 8_000, typ: 9_000, max: 12_000 }).find('y', 'certain')).toBeNull();
    expect(delayedDecode({ min: 8_000, typ: 9_000, max: 12_000 }).find('y', 'possible')?.transitions).toHaveLength(2);
    expect(delayedDecode(10_000).find('y', 'certain')).toBeNull();
    expect(delayedDecode(10_000).find('y', 'possible')?.transitions).toHaveLength(2);
  });
});

describe('a counter that clears itself (Floyd ch. 9; TB-8: flip-flop 10, NAND 5, clear to output 10 ns)', () => {
  function decade(decode: number) {
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
    c.output('y', c.equal(q, constantOf(c, 4, decode)));
    const five = { rise: tripleOf(5_000), fall: tripleOf(5_000) };
    const ten = { rise: tripleOf(10_000), fall: tripleOf(10_000) };
    return glitchesIn(c.build(), { delaySet: flipFlops(10_000, { clear: ten, logic: { gate: five } }) });
  }

  it('state 10 shows for 15 ns', () => {
    expect(transitionLines(decade(10).find('y', 'certain'))).toEqual(['9>0 1@20000 0@35000 [15000 15000 15000]']);
  });

  it('state 8 shows for 10 ns on the way there', () => {
    expect(transitionLines(decade(8).find('y', 'certain'))).toContain('9>0 1@10000 0@20000 [10000 10000 10000]');
  });
});

describe('how a transition is reached', () => {
  function gated(): Circuit {
    const c = circuit();
    const clk = c.input('clk');
    const go = c.input('go');
    const q = c.register('q', {
      width: 2,
      clock: clk,
      data: (self: Wire) => c.mux(go, c.increment(self), self),
      initial: '00',
    });
    c.output('y', c.equal(q, c.constant('11')));
    return c;
  }

  it('by the inputs of each period, told where they change', () => {
    const found = glitchesIn(gated().build(), { drive: { inputs: {} } }).find('y', 'possible');
    expect(found?.transitions.map(({ from, to, witness }) => ({ from, to, witness }))).toEqual([
      {
        from: '1',
        to: '2',
        witness: [
          { period: 0, inputs: [{ signal: 'go', value: '1' }] },
          { period: 1, inputs: [] },
        ],
      },
    ]);
  });

  it('not at all where a person holds the input', () => {
    expect(glitchesIn(gated().build(), { drive: { inputs: { go: '0' } } }).glitches).toEqual([]);
  });

  it('not where the state is never met', () => {
    const c = circuit();
    const clk = c.input('clk');
    // 0, 1, 2, 0: 3 is never met, and 2 to 0 changes one bit.
    const q = c.register('q', {
      width: 2,
      clock: clk,
      data: (self: Wire) => c.mux(self.bit(1), c.constant('00'), c.increment(self)),
      initial: '00',
    });
    c.output('y', c.equal(q, c.constant('10')));
    c.output('z', c.xor(q.bit(0), q.bit(1)));
    const found = glitchesIn(c.build());
    expect(found.find('y', 'possible')).toBeNull();
    expect(transitionLines(found.find('z', 'possible'))).toHaveLength(1);
  });

  it('from every state where nothing sets one (definition 27)', () => {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.register('q', { width: 2, clock: clk, data: (self: Wire) => c.not(self) });
    c.output('y', c.and(q.bit(0), q.bit(1)));
    // From 0 it goes to 3 and back; from 1 to 2 and back, and only there a wrong value can pass.
    const pairs = glitchesIn(c.build())
      .find('y', 'possible')
      ?.transitions.map(({ from, to }) => `${from}>${to}`);
    expect(pairs?.sort()).toEqual(['1>2', '2>1']);
  });

  it('no further than a limit allows, and then that is said', () => {
    const c = circuit();
    c.output('y', c.equal(counter(c, 8), constantOf(c, 8, 200)));
    const found = glitchesIn(c.build(), { limits: { states: 20 } });
    expect(found.limits).toContain('y glitch-states-limit');
  });
});

describe('whom it endangers', () => {
  function ripple(): { readonly c: Circuit; readonly hit: Wire; readonly clk: Wire } {
    const c = circuit();
    const clk = c.input('clk');
    const q = toggleChain(c, clk, falling(3));
    return { c, clk, hit: c.net('hit', c.equal(q, c.constant('100'))) };
  }

  it('data of the same clock: harmless above the settling and setup', () => {
    const { c, clk, hit } = ripple();
    c.register('r', { clock: clk, edge: 'falling', data: hit, initial: '0' });
    const options = { delaySet: flipFlops(1_000, { setup: tripleOf(200) }) };
    const found = glitchesIn(c.build(), options).find('hit', 'certain');
    expect(found?.ends).toMatchObject([{ kind: 'data', signal: 'r', harmless: true, harmlessAbovePs: 3_200 }]);
    expect(found?.harmless).toBe(true);
  });

  it('data of the other edge has half the period', () => {
    const { c, clk, hit } = ripple();
    c.register('r', { clock: clk, data: hit, initial: '0' });
    const found = glitchesIn(c.build(), { delaySet: flipFlops(1_000) }).find('hit', 'certain');
    expect(found?.ends).toMatchObject([{ kind: 'data', harmless: true, harmlessAbovePs: 6_000 }]);
  });

  it('a period too short is not harmless', () => {
    const { c, clk, hit } = ripple();
    c.register('r', { clock: clk, edge: 'falling', data: hit, initial: '0' });
    const drive = { clocks: { clk: { periodPs: 2_000, highPs: null, phasePs: null } } };
    expect(glitchesIn(c.build(), { delaySet: flipFlops(1_000), drive }).find('hit', 'certain')?.harmless).toBe(false);
  });

  it('one entry for all ends of a signal', () => {
    const { c, clk, hit } = ripple();
    c.register('a', { clock: hit, data: (self: Wire) => c.not(self), initial: '0' });
    c.register('b', {
      clock: clk,
      data: clk,
      initial: '0',
      asynchronous: [{ control: hit, active: 'high', value: '0' }],
    });
    c.latch('l', { gate: hit, data: clk, initial: '0' });
    c.output('y', hit);
    c.blackBox('u', 'meter', { inputs: { in: hit } });
    const found = glitchesIn(c.build(), { delaySet: rippleSet });
    expect(found.glitches).toHaveLength(1);
    expect(found.glitches[0].ends.map(({ kind, signal }) => `${kind} ${signal}`)).toEqual([
      'clock a',
      'reset b',
      'latch l',
      'output y',
      'black-box u.in',
    ]);
  });

  it('another domain that samples it; its own bits hold still meanwhile', () => {
    const { c, hit } = ripple();
    const other = c.input('other_clk');
    c.register('r', { clock: other, data: (self: Wire) => c.xor(self, hit), initial: '0' });
    const found = glitchesIn(c.build(), { delaySet: rippleSet });
    expect(found.find('hit', 'certain')?.ends).toMatchObject([{ kind: 'crossing', signal: 'r' }]);
  });

  it('two bits of another clock: whether they ever stand so is not known, so nothing is certain', () => {
    const c = circuit();
    const q = toggleChain(c, c.input('clk'), falling(2));
    const other = c.register('other', {
      width: 2,
      clock: c.input('other_clk'),
      data: (self: Wire) => c.increment(self),
      initial: '00',
    });
    c.output('y', c.and(c.equal(q, c.constant('00')), c.equal(other, c.constant('11'))));
    const found = glitchesIn(c.build(), { delaySet: rippleSet });
    expect(found.find('y', 'certain')).toBeNull();
    const reasons = found.glitches.map(({ why }) => why);
    expect(reasons).toContainEqual({ reason: 'glitch-foreign-bits', args: { delaySet: 'test', clock: 'other_clk' } });
  });
});

describe('what stands between', () => {
  it('a latch that is open passes the pulse on; closed it does not', () => {
    const build = (active: 'high' | 'low') => {
      const c = circuit();
      const clk = c.input('clk');
      const q = toggleChain(c, clk, falling(2));
      const held = c.latch('held', { gate: clk, active, data: c.equal(q, c.constant('00')), initial: '0' });
      c.output('y', c.or(held, c.equal(q, c.constant('11'))));
      return glitchesIn(c.build(), { delaySet: rippleSet });
    };
    // The bits move after the fall, while clk is low.
    expect(transitionLines(build('low').find('y', 'certain'))).toContain('1>2 1@10000 0@20000 [10000 10000 10000]');
    expect(build('high').find('y', 'certain')).toBeNull();
  });

  it('gates that take time: each way has its own', () => {
    // a falls and b rises together; the way of a takes 3 ns, that of b none: both are 1 for 3 ns.
    const c = circuit();
    const clk = c.input('clk');
    const a = c.register('a', { clock: clk, data: (self: Wire) => c.not(self), initial: '1' });
    const b = c.register('b', { clock: clk, data: (self: Wire) => c.not(self), initial: '0' });
    c.output('y', c.and(c.delayed(a, 3_000), b));
    const lines = transitionLines(glitchesIn(c.build(), { delaySet: flipFlops(1_000) }).find('y', 'certain'));
    expect(lines).toEqual(['2>1 1@1000 0@4000 [3000 3000 3000]']);
  });
});
