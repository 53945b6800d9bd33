// Definitions 1 to 3: roots, stages and root edges.
import { describe, expect, it } from 'vitest';
import { circuit } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { counter, flop, toggle } from './parts';

describe('stages', () => {
  it('are one per register output, and each register follows the root edge of its own chain', () => {
    const c = circuit();
    const clk = c.input('clk');
    c.registers(
      'q',
      { range: [3, 0] },
      [0, 1, 2, 3].map((low) => ({
        low,
        width: 1,
        clock: low === 0 ? clk : (q) => q.bit(low - 1),
        edge: 'falling' as const,
        data: (q) => c.not(q.bit(low)),
      })),
    );
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      'q[0]': 'clk falling, clk falling, stage 1, clk',
      'q[1]': 'q[0] falling, clk falling, stage 2, clk',
      'q[2]': 'q[1] falling, clk falling, stage 3, clk',
      'q[3]': 'q[2] falling, clk falling, stage 4, clk',
    });
    expect(found.clocks).toEqual({
      clk: 'root',
      'q[0]': 'derived of clk',
      'q[1]': 'derived of q[0]',
      'q[2]': 'derived of q[1]',
    });
    expect(found.clock('q[2]').sourceRegisters).toEqual([{ register: 2, bit: 0, inverted: false }]);
  });

  it('are not added by gates, inverters, multiplexers or a data enable', () => {
    const c = circuit();
    const clk = c.input('clk');
    const en = c.input('en');
    const held = flop(c, 'held', 'falling', clk, en);
    const gated = c.net('gated', c.and(clk, held));
    const turned = c.net('turned', c.not(gated));
    c.register('q', { clock: turned, data: (q) => c.mux(en, c.not(q), q) });
    const found = describeClocks(c.build());
    expect(found.registers.q).toBe('turned rising, clk falling, stage 1, clk');
    expect(found.register('q').enable).toMatchObject({ name: 'en', active: 'high' });
  });

  it('take the longest of several paths', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = toggle(c, 'a', 'rising', clk);
    const b = toggle(c, 'b', 'rising', a);
    const both = c.net('both', c.and(a, b));
    toggle(c, 'q', 'rising', both);
    expect(describeClocks(c.build()).registers.q).toBe('both rising, clk rising, stage 3, clk');
  });

  it('pass hierarchy, vectors and plain assignments without being counted', () => {
    const c = circuit();
    const clk = c.input('clk');
    const bus = c.net('bus', c.concat(c.constant('0'), clk));
    const inner = c.net('u1.clock_in', bus.bit(0));
    const q = toggle(c, 'u1.q', 'rising', inner);
    const out = c.net('out', q);
    toggle(c, 'u2.q', 'rising', c.net('u2.c', out));
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      'u1.q': 'clk rising, clk rising, stage 1, clk',
      'u2.q': 'u1.q rising, clk rising, stage 2, clk',
    });
  });
});

describe('root edge', () => {
  it('is turned by an inverter between root and pin, and turned back by a second one', () => {
    const c = circuit();
    const clk = c.input('clk');
    const once = c.net('once', c.not(clk));
    const twice = c.net('twice', c.not(once));
    toggle(c, 'a', 'rising', once);
    toggle(c, 'b', 'rising', twice);
    toggle(c, 'd', 'rising', c.net('copy', c.buf(clk)));
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      a: 'once rising, clk falling, stage 1, clk',
      b: 'twice rising, clk rising, stage 1, clk',
      d: 'copy rising, clk rising, stage 1, clk',
    });
    expect(found.clocks).toEqual({
      clk: 'root',
      once: 'inverted of clk',
      twice: 'root of once',
      copy: 'root of clk',
    });
    expect(found.network.roots).toHaveLength(1);
  });

  it('does not care for the polarity of a register output', () => {
    // Down counter by rising edges of q, up counter by rising edges of its inverse: both follow rising clk.
    const c = circuit();
    const clk = c.input('clk');
    const q = toggle(c, 'q', 'rising', clk);
    toggle(c, 'down', 'rising', q);
    toggle(c, 'up', 'rising', c.net('q_n', c.not(q)));
    toggle(c, 'late', 'falling', q);
    const found = describeClocks(c.build());
    expect(found.registers).toMatchObject({
      down: 'q rising, clk rising, stage 2, clk',
      up: 'q_n rising, clk rising, stage 2, clk',
      late: 'q falling, clk rising, stage 2, clk',
    });
    expect(found.clock('q_n').sourceRegisters).toEqual([{ register: 0, bit: 0, inverted: true }]);
    expect(found.clock('q_n').kind).toBe('derived');
  });

  it('is either behind an exclusive or of the clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    const late = c.net('late', c.delayed(clk, 2000));
    toggle(c, 'marker', 'rising', clk);
    toggle(c, 'q', 'rising', c.net('pulse', c.xor(clk, late)));
    const found = describeClocks(c.build());
    expect(found.registers.q).toBe('pulse rising, clk either, stage 1, clk');
    expect(found.clocks.pulse).toBe('derived of clk, late');
  });

  it('is one edge where both operands of an exclusive or are registers of that edge', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = toggle(c, 'a', 'rising', clk);
    const b = flop(c, 'b', 'rising', clk, a);
    toggle(c, 'q', 'rising', c.net('either_one', c.xor(a, b)));
    expect(describeClocks(c.build()).registers.q).toBe('either_one rising, clk rising, stage 2, clk');
  });

  it('is either where source registers follow both edges', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = toggle(c, 'a', 'rising', clk);
    const b = toggle(c, 'b', 'falling', clk);
    toggle(c, 'q', 'rising', c.net('joined', c.and(a, b)));
    expect(describeClocks(c.build()).registers.q).toBe('joined rising, clk either, stage 2, clk');
  });

  it('is either where the clock comes in both polarities', () => {
    const c = circuit();
    const clk = c.input('clk');
    toggle(c, 'marker', 'rising', clk);
    toggle(c, 'q', 'rising', c.net('joined', c.and(clk, c.net('clk_n', c.not(clk)))));
    expect(describeClocks(c.build()).registers.q).toBe('joined rising, clk either, stage 1, clk');
  });

  it('differs for two registers on both edges of one clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    toggle(c, 'a', 'rising', clk);
    toggle(c, 'b', 'falling', clk);
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      a: 'clk rising, clk rising, stage 1, clk',
      b: 'clk falling, clk falling, stage 1, clk',
    });
    expect(found.network.clocks).toHaveLength(1);
  });
});

describe('roots', () => {
  it('are ports, black box outputs and undriven bits', () => {
    const c = circuit();
    const clk = c.input('clk');
    const pll = c.blackBox('u_pll', 'pll', { inputs: { ref: clk }, outputs: { fast: 1 } });
    toggle(c, 'a', 'rising', c.net('fast', pll.fast));
    toggle(c, 'b', 'rising', c.undriven('nothing'));
    toggle(c, 'd', 'rising', clk);
    const found = describeClocks(c.build());
    expect(found.network.roots.map(({ name, kind }) => `${name} ${kind}`)).toEqual([
      'clk port',
      'fast blackBox',
      'nothing undriven',
    ]);
    expect(found.registers.a).toBe('fast rising, fast rising, stage 1, fast');
  });

  it('are passed through a black box of which a person states what it does', () => {
    const build = () => {
      const c = circuit();
      const clk = c.input('clk');
      const box = c.blackBox('u1', 'cell', { inputs: { a: clk }, outputs: { y: 1 } });
      toggle(c, 'q', 'rising', c.net('y', box.y));
      return c.build();
    };
    const stated = (action: 'buffer' | 'inverter' | 'clock') =>
      describeClocks(build(), { cells: { cell: { pins: { a: action }, ratio: null } } }).registers.q;
    expect(stated('buffer')).toBe('y rising, clk rising, stage 1, clk');
    expect(stated('inverter')).toBe('y rising, clk falling, stage 1, clk');
    expect(stated('clock')).toBe('y rising, clk either, stage 1, clk');
    expect(describeClocks(build(), { cells: { other: { pins: { a: 'buffer' }, ratio: null } } }).registers.q).toBe(
      'y rising, y rising, stage 1, y',
    );
  });

  it('end at an inout or tri-state net, a shared clock of its own (definition 7)', () => {
    const c = circuit();
    const clk = c.input('clk');
    const oe = c.input('oe');
    toggle(c, 'a', 'rising', c.inout('pad'));
    toggle(c, 'b', 'rising', c.net('line', c.tristate(clk, oe)));
    toggle(c, 'd', 'rising', c.wired('bus', 'wire', [c.tristate(clk, oe), c.tristate(c.not(clk), c.not(oe))]));
    const found = describeClocks(c.build());
    expect(found.registers).toEqual({
      a: 'pad rising, pad rising, stage 1, pad',
      b: 'line rising, line rising, stage 1, line',
      d: 'bus rising, bus rising, stage 1, bus',
    });
    expect(found.clocks).toEqual({ pad: 'shared', line: 'shared', bus: 'shared' });
    expect(found.network.roots.map(({ kind }) => kind)).toEqual(['inout', 'inout', 'inout']);
  });

  it('are not invented for a clock that waits for itself', () => {
    const c = circuit();
    c.registers('ring', { range: [1, 0] }, [
      { low: 0, width: 1, clock: (q) => q.bit(1), data: (q) => c.not(q.bit(0)) },
      { low: 1, width: 1, clock: (q) => q.bit(0), data: (q) => c.not(q.bit(1)) },
    ]);
    const found = describeClocks(c.build());
    expect(found.register('ring[0]')).toMatchObject({ root: null, roots: [], domain: null });
    expect(found.register('ring[1]')).toMatchObject({ root: null, roots: [], domain: null });
    expect(found.chains).toEqual([]);
  });

  it('survive inverters and nets that drive each other', () => {
    const c = circuit();
    const loop = c.net('loop', (self) => c.not(self));
    const wire = c.net('wire', (self) => self);
    toggle(c, 'a', 'rising', loop);
    toggle(c, 'b', 'rising', wire);
    const found = describeClocks(c.build());
    expect(found.register('a').root).toBeNull();
    expect(found.network.roots.map(({ name, kind }) => `${name} ${kind}`)).toEqual(['wire undriven']);
  });

  it('are counted where several reach one clock, and none is the root', () => {
    const c = circuit();
    const left = c.input('left');
    const right = c.input('right');
    toggle(c, 'a', 'rising', left);
    toggle(c, 'b', 'rising', right);
    toggle(c, 'q', 'rising', c.net('joined', c.or(left, right)));
    const found = describeClocks(c.build());
    expect(found.register('q')).toMatchObject({ root: null, roots: [0, 1], stage: 1 });
    expect(found.registers.q).toBe('joined rising, no root, stage 1, joined');
    expect(found.clock('joined').risesOn).toBeNull();
  });
});

describe('decoded clocks', () => {
  it('are derived from every register of the decode, whichever bits of one vector they are', () => {
    const c = circuit();
    const clk = c.input('clk');
    const count = counter(c, 'count', 4, 'rising', clk);
    const nine = c.net('nine', c.equal(count, c.constant('1001')));
    toggle(c, 'q', 'rising', nine);
    const found = describeClocks(c.build());
    expect(found.registers.q).toBe('nine rising, clk rising, stage 2, clk');
    expect(found.clock('nine')).toMatchObject({
      kind: 'derived',
      fromNames: ['count[0]', 'count[1]', 'count[2]', 'count[3]'],
      gate: null,
    });
    expect(found.clock('nine').sourceRegisters.map(({ bit }) => bit)).toEqual([0, 1, 2, 3]);
  });

  it('are decoded, not gated, even where one of the registers clocks something elsewhere', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = toggle(c, 'a', 'falling', clk);
    const b = toggle(c, 'b', 'falling', a);
    toggle(c, 'q', 'rising', c.net('three', c.and(a, b)));
    const found = describeClocks(c.build());
    expect(found.clocks.three).toBe('derived of a, b');
    expect(found.clock('three').gate).toBeNull();
    expect(found.chains).toEqual(['a > b']);
  });
});
