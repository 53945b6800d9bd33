// What a register captures when clock and data move together, and what it does at edges that are none for certain
// (definitions 13, 16, 22, 28, 30, 34). Every circuit twice where it matters: with no delay and with 1 ns per register.
import { describe, expect, it } from 'vitest';
import { type Circuit, circuit, type Wire } from '../tools/circuit';
import { plainSet, runTimed, tripleAt } from './timed';

const clk20 = { clk: { period: 20 } };
const sets = ['ideal', 'unit'] as const;

const toggle = (c: Circuit, name: string, clock: Wire, more: object = {}) =>
  c.register(name, { clock, data: (q) => c.not(q), ...more });

describe.each(sets)('transfers with %s delays', (delays) => {
  const run = (make: (c: Circuit, clk: Wire) => void, until = 130) => {
    const c = circuit();
    make(c, c.input('clk'));
    return runTimed(c.build(), { clocks: clk20, until, delays });
  };

  it('shifts along one clock without a race', () => {
    const found = run((c, clk) => {
      const a = toggle(c, 'a', clk);
      c.register('b', { clock: clk, data: c.register('m', { clock: clk, data: a }) });
    });
    expect(found.doubts).toEqual([]);
    // a is 0 1 0 1 … from the first edge on; b is two edges behind.
    expect(['a', 'm', 'b'].map((name) => [5, 15, 35, 55, 75, 95].map((time) => found.at(name, time)).join(''))).toEqual(
      ['010101', '001010', '000101'],
    );
  });

  it('shifts through an inverted and a gated clock whose logic takes no time', () => {
    const found = run((c, clk) => {
      const a = toggle(c, 'a', clk);
      c.register('b', { clock: c.not(clk), edge: 'falling', data: a });
      c.register('g', { clock: c.and(clk, c.constant('1')), data: a });
      c.register('h', { clock: c.buf(clk), data: (h) => c.xor(h, a) });
    });
    expect(found.doubts).toEqual([]);
    expect([5, 15, 35, 55, 75].map((time) => found.at('b', time) + found.at('g', time) + found.at('h', time))).toEqual([
      '000',
      '000',
      '111',
      '001',
      '110',
    ]);
  });

  it('is a race where a divided clock samples what left with it (definition 28)', () => {
    const found = run((c, clk) => {
      const divided = toggle(c, 'divided', clk);
      c.register('r', { clock: divided, data: toggle(c, 'a', clk) });
    });
    const at = delays === 'ideal' ? 10 : 11;
    expect(found.doubts[0]).toBe(`${at} race r`);
    // With 1 ns the register's own delay follows.
    expect(found.at('r', 15)).toBe('x');
  });

  it('is none where what left with it does not change, or is not asked for', () => {
    const found = run((c, clk) => {
      const divided = toggle(c, 'divided', clk);
      const moving = toggle(c, 'a', clk);
      const still = c.register('still', { clock: clk, data: (q) => q });
      c.register('r', { clock: divided, data: still });
      c.register('held', { clock: divided, data: (held) => c.mux(still, moving, held) });
      c.register('masked', { clock: divided, data: c.and(moving, still) });
    });
    expect(found.doubts).toEqual([]);
  });

  it('is a race where two that move together cancel out: some order passes the other value', () => {
    const found = run((c, clk) => {
      const divided = toggle(c, 'divided', clk);
      c.register('r', { clock: divided, data: c.xor(toggle(c, 'a', clk), toggle(c, 'b', clk)) });
    });
    expect(found.doubts.length).toBeGreaterThan(0);
  });

  it('samples the old value where the edge itself causes the change: a first stage reads a second', () => {
    const found = run((c, clk) => {
      const divided = toggle(c, 'divided', clk);
      const second = toggle(c, 'second', divided);
      c.register('r', { clock: clk, data: second });
    });
    expect(found.doubts).toEqual([]);
    // second rises at the first edge (10), falls at the third (50); r is one edge behind.
    expect([15, 35, 55, 75].map((time) => found.at('second', time) + found.at('r', time))).toEqual([
      '10',
      '11',
      '01',
      '00',
    ]);
  });

  it('is a race where a register samples its own clock', () => {
    const found = run((c, clk) => {
      c.register('r', { clock: clk, data: clk });
    }, 15);
    expect(found.doubts).toEqual(['10 race r']);
  });

  it('counts along a ripple without a race', () => {
    const found = run((c, clk) => {
      const first = toggle(c, 'q0', clk, { edge: 'falling' });
      const second = toggle(c, 'q1', first, { edge: 'falling' });
      toggle(c, 'q2', second, { edge: 'falling' });
    }, 200);
    expect(found.doubts).toEqual([]);
    expect(
      Array.from({ length: 9 }, (_, n) =>
        Number.parseInt(['q2', 'q1', 'q0'].map((name) => found.at(name, 20 * n + 15)).join(''), 2),
      ),
    ).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 0]);
  });
});

describe('unrelated clocks (definition 31)', () => {
  const twoClocks = (phase: number, more: object = {}) => {
    const c = circuit();
    const a = toggle(c, 'a', c.input('ca'));
    c.register('r', { clock: c.input('cb'), data: a });
    return runTimed(c.build(), {
      clocks: { ca: { period: 20 }, cb: { period: 20, phase } },
      until: 25,
      delays: 'ideal',
      ...more,
    });
  };
  const seeds = [1, 2, 3, 4, 5, 6, 7, 8];
  it('are old or new by the seed where their edges coincide, never unknown', () => {
    const taken = seeds.map((seed) => twoClocks(10, { seed }).at('r', 11));
    expect([...new Set(taken)].sort()).toEqual(['0', '1']);
    for (const seed of seeds) expect(twoClocks(10, { seed }).doubts).toEqual(['10 crossing r']);
    expect(seeds.map((seed) => twoClocks(10, { seed }).at('r', 11))).toEqual(taken);
  });
  it('are in no doubt where one is a picosecond later', () => {
    expect(twoClocks(10.001).doubts).toEqual([]);
    expect(twoClocks(10.001).at('r', 11)).toBe('1');
    expect(twoClocks(9.999).at('r', 11)).toBe('0');
  });
  it('are merged where the project states that they are related', () => {
    expect(twoClocks(10, { related: [['ca', 'cb']] }).doubts).toEqual(['10 race r']);
    expect(twoClocks(10, { related: [['ca', 'cb']] }).at('r', 11)).toBe('x');
  });
  it('take each bit of a bus by itself: a value that was never sent', () => {
    const values = seeds.map((seed) => {
      const c = circuit();
      const a = c.register('a', { width: 4, clock: c.input('ca'), data: (q) => c.not(q) });
      c.register('r', { width: 4, clock: c.input('cb'), data: a });
      return runTimed(c.build(), { clocks: { ca: { period: 20 }, cb: { period: 20 } }, until: 25, seed }).at('r', 20);
    });
    // With 1 ns the data is there 1 ns after the edge that samples it: no coincidence, the old value.
    expect([...new Set(values)]).toEqual(['0000']);
    const moving = seeds.map((seed) => {
      const c = circuit();
      const a = c.register('a', { width: 4, clock: c.input('ca'), data: (q) => c.not(q) });
      c.register('r', { width: 4, clock: c.input('cb'), data: a });
      const clocks = { ca: { period: 20 }, cb: { period: 20, phase: 11 } };
      return runTimed(c.build(), { clocks, until: 25, seed }).at('r', 20);
    });
    expect(moving.some((value) => value !== '0000' && value !== '1111')).toBe(true);
    expect(moving.every((value) => /^[01]{4}$/.test(value))).toBe(true);
  });
});

describe('setup, hold and recovery (IEEE 1364-2005 15.2; worked flip-flop TCK-8: setup 10, hold 1, recovery 5)', () => {
  const flipFlop = plainSet('tck8', {
    register: 0,
    setup: tripleAt(10),
    hold: tripleAt(1),
    recovery: tripleAt(5),
    clockToQ: { first: { rise: tripleAt(6), fall: tripleAt(8) }, next: null },
    clear: { rise: tripleAt(5), fall: tripleAt(7) },
  });
  const sample = (dataAt: number) => {
    const c = circuit();
    c.register('q', { clock: c.input('clk'), data: c.input('d') });
    return runTimed(c.build(), {
      clocks: { clk: { period: 1000, phase: 100 }, d: { period: 1000, phase: dataAt } },
      until: 500,
      delays: flipFlop,
    });
  };
  it('data 9 before the clock violates setup, 10 before does not', () => {
    expect(sample(91).doubts).toEqual(['100 setup-hold q']);
    expect(sample(91).wave('q')).toBe('0 @106:x');
    expect(sample(90).doubts).toEqual([]);
    expect(sample(90).wave('q')).toBe('0 @106:1');
  });
  it('data with the clock violates hold, 1 after does not', () => {
    expect(sample(100).doubts).toEqual(['100 race q']);
    expect(sample(100.5).doubts).toEqual(['100.5 setup-hold q']);
    expect(sample(100.5).at('q', 110)).toBe('x');
    expect(sample(101).doubts).toEqual([]);
    expect(sample(101).wave('q')).toBe('0');
  });
  it('an edge under an active control takes nothing over, so data that moves behind it violates no hold', () => {
    const cleared = (removal: number) => {
      const c = circuit();
      const asynchronous = [{ control: c.input('clear'), active: 'high' as const, value: '0' }];
      c.register('q', { clock: c.input('clk'), data: c.input('d'), asynchronous });
      return runTimed(c.build(), {
        clocks: { clk: { period: 1000, phase: 100 }, d: { period: 1000, phase: 108 } },
        resets: { clear: { release: 105 } },
        until: 500,
        delays: { ...flipFlop, hold: tripleAt(10), removal: removal === 0 ? null : tripleAt(removal) },
      });
    };
    expect(cleared(5).doubts).toEqual([]);
    expect(cleared(5).wave('q')).toBe('0');
    // Let go within the removal time, the edge may have sampled after all: then the hold time counts too.
    expect(cleared(6).doubts).toEqual(['108 setup-hold q']);
  });
  it('a control released 4 before the clock violates recovery, 5 before does not', () => {
    const release = (at: number) => {
      const c = circuit();
      const asynchronous = [{ control: c.input('clear'), active: 'high' as const, value: '0' }];
      c.register('q', { clock: c.input('clk'), data: c.constant('1'), asynchronous });
      return runTimed(c.build(), {
        clocks: { clk: { period: 1000, phase: 100 } },
        resets: { clear: { release: at } },
        until: 500,
        delays: flipFlop,
      });
    };
    expect(release(96).doubts).toEqual(['100 setup-hold q']);
    expect(release(95).doubts).toEqual([]);
    expect(release(95).wave('q')).toBe('0 @106:1');
  });
});

describe('perhaps-edges (definition 16)', () => {
  const clockedBy = (make: (c: Circuit) => Wire, data: string, more: object = {}) => {
    const c = circuit();
    c.register('q', { clock: make(c), data: c.constant(data), initial: '0', ...more });
    return runTimed(c.build(), { clocks: { toggle: { period: 100 } }, until: 180 });
  };
  const fromUnknown = (c: Circuit) => c.or(c.input('toggle'), c.undriven('u'));
  const toUnknown = (c: Circuit) => c.and(c.input('toggle'), c.undriven('u'));

  it('from x to 1 and from 0 to x are perhaps rising: merge(old, sampled)', () => {
    // or: x until 50, then 1; x again from 100.
    expect(clockedBy(fromUnknown, '1').wave('q')).toBe('0 @51:x');
    expect(clockedBy(fromUnknown, '1').doubts).toEqual(['50 perhaps-edge q', '150 perhaps-edge q']);
    // and: 0 until 50, then x; 0 again from 100.
    expect(clockedBy(toUnknown, '1').doubts).toEqual(['50 perhaps-edge q', '150 perhaps-edge q']);
  });
  it('from 1 to x and from x to 0 are perhaps falling', () => {
    expect(clockedBy(fromUnknown, '1', { edge: 'falling' }).doubts).toEqual(['100 perhaps-edge q']);
    expect(clockedBy(toUnknown, '1', { edge: 'falling' }).doubts).toEqual(['100 perhaps-edge q']);
  });
  it('is no doubt where old and sampled agree', () => {
    expect(clockedBy(fromUnknown, '0').doubts).toEqual([]);
    expect(clockedBy(fromUnknown, '0').wave('q')).toBe('0');
  });
  it('at time 0 everything holds: an unknown, a high and a low clock are no edges', () => {
    const c = circuit();
    c.register('r', { clock: c.input('high'), data: c.constant('1'), initial: '0' });
    c.register('f', { clock: c.input('low'), edge: 'falling', data: c.constant('1'), initial: '0' });
    c.register('u', { clock: c.undriven('w'), data: c.constant('1'), initial: '0' });
    const run = runTimed(c.build(), { inputs: { high: '1', low: '0' }, until: 1000 });
    expect(run.waves.changes.count).toBe(0);
    expect(run.doubts).toEqual([]);
  });
  it('the first edge is the first toggle of the drive: a clock that starts high falls first', () => {
    const c = circuit();
    toggle(c, 'r', c.input('clk'));
    toggle(c, 'f', c.input('clk2'), { edge: 'falling' });
    const run = runTimed(c.build(), {
      clocks: { clk: { period: 20, phase: 0 }, clk2: { period: 20, phase: 0 } },
      until: 35,
      delays: 'ideal',
    });
    expect(run.wave('clk')).toBe('1 @10:0 @20:1 @30:0');
    expect(run.wave('r')).toBe('0 @20:1');
    expect(run.wave('f')).toBe('0 @10:1 @30:0');
  });
});

describe('asynchronous controls act as levels (definition 13)', () => {
  const counter = (control: (c: Circuit) => { control: Wire; active: 'high' | 'low'; value: string | Wire }[]) => {
    const c = circuit();
    c.register('q', {
      width: 4,
      clock: c.input('clk'),
      data: (q) => c.increment(q),
      initial: '1010',
      asynchronous: control(c),
    });
    return c.build();
  };
  it('loads at time 0, without a change', () => {
    const netlist = counter((c) => [{ control: c.input('rst'), active: 'high', value: '0011' }]);
    const run = runTimed(netlist, { clocks: clk20, resets: { rst: { release: 45 } }, until: 75 });
    expect([0, 30, 50, 52].map((time) => run.at('q', time))).toEqual(['0011', '0011', '0011', '0100']);
    expect(Array.from(run.waves.changesOf({ node: run.signal('q').node, bit: 0 }))[0]).toBeGreaterThan(0);
  });
  it('follows what is loaded while the control is active', () => {
    const netlist = counter((c) => {
      const moving = c.input('moving');
      return [{ control: c.input('load'), active: 'high', value: c.concat(moving, moving, moving, moving) }];
    });
    const run = runTimed(netlist, {
      clocks: { ...clk20, moving: { period: 50 } },
      resets: { load: { release: 65 } },
      until: 68,
      delays: 'ideal',
    });
    expect(run.wave('q[0]')).toBe('0 @25:1 @50:0');
  });
  it('takes the first active one', () => {
    const netlist = counter((c) => [
      { control: c.input('set'), active: 'low', value: '1111' },
      { control: c.input('clear'), active: 'high', value: '0000' },
    ]);
    const run = runTimed(netlist, {
      clocks: clk20,
      resets: { set: { release: 25, active: 'low' }, clear: { release: 45 } },
      until: 49,
      delays: 'ideal',
    });
    expect([0, 20, 30, 48].map((time) => run.at('q', time))).toEqual(['1111', '1111', '0000', '0000']);
  });
  it('merges while the control is unknown', () => {
    const netlist = counter((c) => [{ control: c.input('rst'), active: 'high', value: '0011' }]);
    const run = runTimed(netlist, { inputs: { rst: 'x' }, until: 5 });
    expect(run.at('q', 0)).toBe('x01x');
  });
  it('is a race where it is released with the clock edge', () => {
    const netlist = counter((c) => [{ control: c.input('rst'), active: 'high', value: '0011' }]);
    const run = runTimed(netlist, { clocks: clk20, resets: { rst: { release: 50 } }, until: 55, delays: 'ideal' });
    expect(run.doubts).toEqual(['50 race q']);
    expect(run.at('q', 52)).toBe('0xxx');
  });
  it('is a race where what is loaded moves as the control lets go', () => {
    const netlist = counter((c) => {
      const moving = c.input('moving');
      return [{ control: c.input('load'), active: 'high', value: c.concat(moving, moving, c.constant('01')) }];
    });
    const options = { clocks: { ...clk20, moving: { period: 50 } }, until: 28, delays: 'ideal' };
    const run = runTimed(netlist, { ...options, resets: { load: { release: 25 } } });
    expect(run.doubts).toEqual(['25 race q']);
    expect(run.at('q', 26)).toBe('xx01');
    expect(runTimed(netlist, { ...options, resets: { load: { release: 25.001 } } }).at('q', 26)).toBe('1101');
    expect(runTimed(netlist, { ...options, resets: { load: { release: 24.999 } } }).at('q', 26)).toBe('0001');
  });
  it('clears a ripple decade through a gate (TB-8: flip-flop 10, nand 5, clear 10)', () => {
    const c = circuit();
    const clk = c.input('clk');
    let clear: Wire | null = null;
    const q = c.registers(
      'q',
      { width: 4 },
      [0, 1, 2, 3].map((low) => ({
        low,
        width: 1,
        clock: low === 0 ? clk : (self: Wire) => self.bit(low - 1),
        edge: 'falling' as const,
        data: (self: Wire) => c.not(self.bit(low)),
        asynchronous: [{ control: () => clear as Wire, active: 'low' as const, value: '0' }],
      })),
    );
    clear = c.net('clear_n', c.delayed(c.nand(q.bit(1), q.bit(3)), 5000));
    const run = runTimed(c.build(), {
      clocks: { clk: { period: 100 } },
      delays: plainSet('tb8', { register: 10 }),
      until: 1190,
    });
    const readings = Array.from({ length: 12 }, (_, edge) => Number.parseInt(run.at('q', 100 * edge + 60), 2));
    expect(readings).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 0, 1]);
    // After the tenth falling edge, at 1000.
    expect([1010, 1020, 1035].map((time) => run.at('q', time))).toEqual(['1000', '1010', '0000']);
    expect(run.wave('clear_n')).toBe('1 @1025:0 @1040:1');
    expect(run.wave('q[1]').endsWith('@1020:1 @1035:0')).toBe(true);
    expect(run.doubts).toEqual([]);
  });
});

describe('clock pulses without width', () => {
  it('are perhaps none: what they clock is a merge', () => {
    const c = circuit();
    const clk = c.input('clk');
    const low = toggle(c, 'low', clk, { edge: 'falling' });
    const high = toggle(c, 'high', low, { edge: 'falling' });
    // From 1 to 2 the count passes 0, for no time at all when nothing takes time.
    const zero = c.net('zero', c.nor(low, high));
    c.register('r', { clock: zero, data: (r) => c.not(r), initial: '0' });
    const run = runTimed(c.build(), { clocks: clk20, until: 50, delays: 'ideal' });
    expect(run.doubts).toEqual(['40 race r']);
    expect(run.at('r', 45)).toBe('x');
    // With 1 ns per register the pulse is there, and so is its edge.
    const slow = runTimed(run.netlist, { clocks: clk20, until: 50 });
    expect(slow.doubts).toEqual([]);
    expect(slow.at('r', 45)).toBe('1');
  });
});

describe('latches', () => {
  const latched = (data: object, gate: object, delays: string | ReturnType<typeof plainSet> = 'ideal') => {
    const c = circuit();
    c.latch('l', { gate: c.input('g'), data: c.input('d') });
    return runTimed(c.build(), {
      clocks: { d: { period: 1000, ...data }, g: { period: 1000, ...gate } },
      until: 500,
      delays,
    });
  };
  it('passes data while open, holds it while closed', () => {
    expect(latched({ phase: 50, high: 100 }, { phase: 100, high: 100 }).wave('l')).toBe('0 @100:1 @150:0');
    expect(latched({ phase: 50, high: 300 }, { phase: 100, high: 100 }).wave('l')).toBe('0 @100:1');
  });
  it('is a race where its data moves as it closes', () => {
    const run = latched({ phase: 50, high: 150 }, { phase: 100, high: 100 });
    expect(run.doubts).toEqual(['200 race l']);
    expect(run.at('l', 201)).toBe('x');
  });
  it('holds against what its own closing causes: master and slave toggle', () => {
    const c = circuit();
    const clk = c.input('clk');
    let slave: Wire | null = null;
    const master = c.latch('master', { gate: clk, active: 'low', data: () => c.not(slave as Wire), initial: '0' });
    slave = c.latch('slave', { gate: clk, data: master, initial: '0' });
    const run = runTimed(c.build(), { clocks: clk20, until: 95, delays: 'ideal' });
    expect(run.doubts).toEqual([]);
    expect(run.wave('slave')).toBe('0 @10:1 @30:0 @50:1 @70:0 @90:1');
  });
  it('removes a pulse shorter than its delay', () => {
    const both = { rise: tripleAt(5), fall: tripleAt(5) };
    const slow = plainSet('slow', { register: 1, latch: both });
    expect(latched({ phase: 150, high: 4 }, { phase: 100, high: 100 }, slow).wave('l')).toBe('0');
    expect(latched({ phase: 150, high: 6 }, { phase: 100, high: 100 }, slow).wave('l')).toBe('0 @155:1 @161:0');
  });
});
