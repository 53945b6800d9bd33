// Definitions 8 and 9: gates, latches and switches in a clock's way, each sound one beside its guilty twin.
import { describe, expect, it } from 'vitest';
import type { EdgeKind } from '../../server/src/netlist/netlist';
import type { GateFacts } from '../../server/src/clocks/network';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { flop, toggle } from './parts';

/** The verdict on `g`, made of clk and whatever else, with clk in an edge list. */
function factsOf(build: (c: Circuit, clk: Wire) => Wire): GateFacts {
  const c = circuit();
  const clk = c.input('clk');
  toggle(c, 'marker', 'rising', clk);
  toggle(c, 'q', 'rising', c.net('g', build(c, clk)));
  const { gate } = describeClocks(c.build()).clock('g');
  if (gate === null) throw new Error('no gate');
  return gate;
}

const verdictOf = (build: (c: Circuit, clk: Wire) => Wire) => factsOf(build).verdict;
const enable = (c: Circuit, edge: EdgeKind, clk: Wire) => flop(c, 'en', edge, clk, c.input('d'));

describe('an enable from a register', () => {
  // The low half of clk follows its falling edge: what is launched there changes while an and gate is blocked.
  const cases: readonly [string, EdgeKind, (c: Circuit, clk: Wire, en: Wire) => Wire, GateFacts['verdict']][] = [
    ['and', 'rising', (c, clk, en) => c.and(clk, en), 'unsound'],
    ['and', 'falling', (c, clk, en) => c.and(clk, en), 'sound'],
    ['nand', 'rising', (c, clk, en) => c.nand(clk, en), 'unsound'],
    ['nand', 'falling', (c, clk, en) => c.nand(clk, en), 'sound'],
    ['or', 'rising', (c, clk, en) => c.or(clk, en), 'sound'],
    ['or', 'falling', (c, clk, en) => c.or(clk, en), 'unsound'],
    ['nor', 'rising', (c, clk, en) => c.nor(clk, en), 'sound'],
    ['nor', 'falling', (c, clk, en) => c.nor(clk, en), 'unsound'],
    ['and of the inverted clock', 'rising', (c, clk, en) => c.and(c.not(clk), en), 'sound'],
    ['and of the inverted clock', 'falling', (c, clk, en) => c.and(c.not(clk), en), 'unsound'],
    ['choice of clk or 0', 'falling', (c, clk, en) => c.mux(en, clk, c.constant('0')), 'sound'],
    ['choice of clk or 0', 'rising', (c, clk, en) => c.mux(en, clk, c.constant('0')), 'unsound'],
    ['choice of clk or 1', 'rising', (c, clk, en) => c.mux(en, clk, c.constant('1')), 'sound'],
    ['exclusive or', 'falling', (c, clk, en) => c.xor(clk, en), 'unsound'],
    ['exclusive or', 'rising', (c, clk, en) => c.xor(clk, en), 'unsound'],
  ];
  it.each(cases)('gates by %s, launched on the %s edge', (_name, edge, gate, verdict) => {
    expect(verdictOf((c, clk) => gate(c, clk, enable(c, edge, clk)))).toBe(verdict);
  });

  it('says at which level the gate is blocked and when the control changes', () => {
    expect(factsOf((c, clk) => c.and(clk, enable(c, 'falling', clk)))).toMatchObject({
      kind: 'gate',
      blockingLevel: 0,
      clockNames: ['clk'],
      controls: [{ name: 'en', source: 'register', changesOn: ['falling'], launchRegisters: [1], foreign: false }],
      why: { reason: 'control-changes-while-blocked', args: { control: 'en', clock: 'clk' } },
    });
    expect(factsOf((c, clk) => c.nor(clk, enable(c, 'falling', clk)))).toMatchObject({
      blockingLevel: 1,
      why: { reason: 'control-changes-while-passing' },
    });
  });

  it('tells the blocking level of the clock that it names', () => {
    const inverter = factsOf((c, clk) => c.and(c.not(clk), enable(c, 'rising', clk)));
    expect(inverter).toMatchObject({
      blockingLevel: 1,
      clockNames: ['clk'],
      why: { args: { clock: 'clk', level: 1 } },
    });
    const named = factsOf((c, clk) => c.and(c.net('clk_n', c.not(clk)), enable(c, 'rising', clk)));
    expect(named).toMatchObject({
      blockingLevel: 0,
      clockNames: ['clk_n'],
      why: { args: { clock: 'clk_n', level: 0 } },
    });
  });

  it('counts its own clock through buffers, inverters and gates', () => {
    expect(
      verdictOf((c, clk) => {
        const en = flop(c, 'en', 'rising', c.net('clk_n', c.not(clk)), c.input('d'));
        return c.and(c.buf(clk), en);
      }),
    ).toBe('sound');
  });

  it('that a ripple stage launches changes after the root edge of that stage', () => {
    const verdict = (edge: EdgeKind) =>
      verdictOf((c, clk) => {
        const half = toggle(c, 'half', edge, clk);
        return c.and(clk, flop(c, 'en', 'rising', half, c.input('d')));
      });
    expect(verdict('falling')).toBe('sound');
    expect(verdict('rising')).toBe('unsound');
  });

  it('is as bad as its worst part, where logic joins several', () => {
    const verdict = (second: EdgeKind) =>
      verdictOf((c, clk) => {
        const a = flop(c, 'a', 'falling', clk, c.input('d'));
        const b = flop(c, 'b', second, clk, c.input('e'));
        return c.and(clk, c.xor(a, b));
      });
    expect(verdict('falling')).toBe('sound');
    expect(verdict('rising')).toBe('unsound');
  });

  it('behind another gate is not blocked by the clock alone', () => {
    // While port is high, `clk | port` passes what en does at any time of clk.
    const verdict = (inner: 'and' | 'or') =>
      verdictOf((c, clk) => c.and(c.net('inner', c[inner](clk, c.input('port'))), enable(c, 'falling', clk)));
    expect(verdict('and')).toBe('sound');
    expect(verdict('or')).toBe('unsound');
  });

  it('at a gate of a divided clock is judged by that clock, where it launches the control', () => {
    const verdict = (edge: EdgeKind) =>
      verdictOf((c, clk) => {
        const half = toggle(c, 'half', 'rising', clk);
        toggle(c, 'by_half', 'rising', half);
        const port = c.input('port');
        const en = flop(c, 'en', edge, half, port);
        return c.and(c.net('half_copy', c.and(half, port)), c.buf(en));
      });
    expect(verdict('falling')).toBe('sound');
    expect(verdict('rising')).toBe('unsound');
  });
});

describe('other controls', () => {
  it('from a port, a black box or another domain are possible', () => {
    expect(factsOf((c, clk) => c.and(clk, c.input('run')))).toMatchObject({
      verdict: 'possible',
      why: { reason: 'control-from-port' },
      controls: [{ source: 'port', changesOn: [], foreign: false }],
    });
    const box = (c: Circuit) => c.blackBox('u1', 'thing', { outputs: { y: 1 } }).y;
    expect(factsOf((c, clk) => c.and(clk, c.net('y', box(c)))).why.reason).toBe('control-from-black-box');
    expect(factsOf((c, clk) => c.and(clk, enable(c, 'falling', c.input('other'))))).toMatchObject({
      verdict: 'possible',
      why: { reason: 'control-foreign' },
      controls: [{ changesOn: [], foreign: true }],
    });
  });

  it('are mixed where a port joins a register, and no sounder than either', () => {
    const both = (edge: EdgeKind) => factsOf((c, clk) => c.and(clk, c.or(enable(c, edge, clk), c.input('force'))));
    expect(both('falling')).toMatchObject({ verdict: 'possible', controls: [{ source: 'mixed' }] });
    expect(both('rising').verdict).toBe('unsound');
  });

  it('that are tied or stated static strap the gate', () => {
    expect(factsOf((c, clk) => c.or(clk, c.net('low', c.constant('0')))).verdict).toBe('strapped');
    const c = circuit();
    const clk = c.input('clk');
    toggle(c, 'marker', 'rising', clk);
    toggle(c, 'q', 'rising', c.net('g', c.and(clk, c.input('mode'))));
    const found = describeClocks(c.build(), { static: ['mode'] });
    expect(found.clock('g').gate).toMatchObject({ verdict: 'strapped', why: { reason: 'control-stated-static' } });
  });
});

describe('a latch as control', () => {
  const verdict = (active: 'high' | 'low', gate: (c: Circuit, clk: Wire, held: Wire) => Wire) =>
    verdictOf((c, clk) => gate(c, clk, c.latch('held', { gate: clk, active, data: enable(c, 'rising', clk) })));

  it('is sound where it is open while the gate is blocked', () => {
    expect(verdict('low', (c, clk, held) => c.and(clk, held))).toBe('sound');
    expect(verdict('high', (c, clk, held) => c.or(clk, held))).toBe('sound');
  });

  it('is not where it is open while the gate passes', () => {
    expect(verdict('high', (c, clk, held) => c.and(clk, held))).toBe('unsound');
    expect(verdict('low', (c, clk, held) => c.or(clk, held))).toBe('unsound');
  });

  it('is sound whatever it holds, as its data wait for the open half', () => {
    expect(verdictOf((c, clk) => c.and(clk, c.latch('held', { gate: clk, active: 'low', data: c.input('run') })))).toBe(
      'sound',
    );
  });

  it('of another domain is possible', () => {
    expect(verdictOf((c, clk) => c.and(clk, c.latch('held', { gate: c.input('other'), data: c.input('run') })))).toBe(
      'possible',
    );
  });

  it('that hands the clock on can glitch', () => {
    const c = circuit();
    const clk = c.input('clk');
    const held = c.latch('held', { gate: clk, data: c.input('d') });
    toggle(c, 'q', 'rising', held);
    const found = describeClocks(c.build());
    expect(found.registers.q).toBe('held rising, clk rising, stage 1, clk');
    expect(found.clock('held').gate).toMatchObject({ verdict: 'unsound', why: { reason: 'latch-in-clock-path' } });
  });
});

describe('a switch', () => {
  interface Parts {
    readonly edge: EdgeKind;
    readonly guard: (c: Circuit, other: Wire, wanted: Wire) => Wire;
    readonly join?: (c: Circuit, a: Wire, b: Wire) => Wire;
  }

  /** Two enables, each clocked by its own clock, around an and-or of two clocks; `rows` flip-flops before each. */
  function switchOf({ edge, guard, join = (c, a, b) => c.or(a, b) }: Parts, before = 0) {
    const c = circuit();
    const [clka, clkb, sel] = ['clka', 'clkb', 'sel'].map((name) => c.input(name));
    const late = (name: string, clock: Wire, data: () => Wire) => {
      if (before === 0) return data;
      const first = c.register(`${name}_first`, { clock, data });
      return () => first;
    };
    const enb = { wire: sel };
    const dataA = late('ena', clka, () => guard(c, enb.wire, c.not(sel)));
    const ena = c.register('ena', { clock: clka, edge, data: dataA });
    const dataB = late('enb', clkb, () => guard(c, ena, sel));
    enb.wire = c.register('enb', { clock: clkb, edge, data: dataB });
    const [ga, gb] = [c.net('ga', c.and(clka, ena)), c.net('gb', c.and(clkb, enb.wire))];
    const out = c.net('out', join(c, ga, gb));
    toggle(c, 'q', 'rising', out);
    return describeClocks(c.build());
  }

  const waits: Parts['guard'] = (c, other, wanted) => c.and(wanted, c.not(other));

  it('of cross-guarded falling-edge enables around an and-or is sound, and a domain of its own', () => {
    const found = switchOf({ edge: 'falling', guard: waits });
    expect(found.clock('out')).toMatchObject({
      kind: 'switched',
      root: null,
      gate: {
        kind: 'switch',
        verdict: 'sound',
        clockNames: ['ga', 'gb'],
        why: { reason: 'enables-cross-guarded' },
      },
    });
    expect(found.clock('out').gate?.controls.map(({ name }) => name)).toEqual(['ena', 'enb']);
    expect(found.registers.q).toBe('out rising, no root, stage 1, out');
  });

  it('is sound with flip-flops between the guard and the enable', () => {
    expect(switchOf({ edge: 'falling', guard: waits }, 1).clock('out').gate?.verdict).toBe('sound');
  });

  it('is not sound with rising-edge enables', () => {
    expect(switchOf({ edge: 'rising', guard: waits }).clock('out').gate).toMatchObject({
      verdict: 'unsound',
      why: { reason: 'control-changes-while-passing' },
    });
  });

  it('is not sound where the enables do not wait for each other', () => {
    const found = switchOf({ edge: 'falling', guard: (_c, _other, wanted) => wanted });
    expect(found.clock('out').gate).toMatchObject({ verdict: 'unsound', why: { reason: 'enables-not-guarded' } });
  });

  it('is not sound where the guard lets through what it should hold up', () => {
    const found = switchOf({ edge: 'falling', guard: (c, other, wanted) => c.or(wanted, c.not(other)) });
    expect(found.clock('out').gate?.why.reason).toBe('enables-not-guarded');
  });

  it('is not sound where a branch at rest blocks the other', () => {
    const found = switchOf({ edge: 'falling', guard: waits, join: (c, a, b) => c.and(a, b) });
    expect(found.clock('out').gate).toMatchObject({ verdict: 'unsound', why: { reason: 'branch-blocks-switch' } });
  });

  it('written as two nands into a third is the same switch', () => {
    const c = circuit();
    const [clka, clkb, sel] = ['clka', 'clkb', 'sel'].map((name) => c.input(name));
    const enb = { wire: sel };
    const ena = c.register('ena', { clock: clka, edge: 'falling', data: () => c.nor(sel, enb.wire) });
    enb.wire = c.register('enb', { clock: clkb, edge: 'falling', data: () => c.and(sel, c.not(ena)) });
    const out = c.net('out', c.nand(c.nand(clka, ena), c.nand(clkb, enb.wire)));
    toggle(c, 'q', 'rising', out);
    const found = describeClocks(c.build());
    expect(found.clock('out')).toMatchObject({ kind: 'switched', fromNames: ['clka', 'clkb'] });
    expect(found.clock('out').gate?.verdict).toBe('sound');
  });

  it('that is a plain multiplexer hangs on its select', () => {
    const verdict = (select: (c: Circuit, clka: Wire) => Wire, fixed: readonly string[] = []) => {
      const c = circuit();
      const [clka, clkb] = ['clka', 'clkb'].map((name) => c.input(name));
      toggle(c, 'q', 'rising', c.net('out', c.mux(select(c, clka), clka, clkb)));
      return describeClocks(c.build(), { static: fixed }).clock('out').gate?.verdict;
    };
    expect(verdict((c, clka) => flop(c, 'sel', 'falling', clka, c.input('d')))).toBe('unsound');
    expect(verdict((c) => c.input('sel'))).toBe('possible');
    expect(verdict((c) => c.net('sel', c.constant('1')))).toBe('strapped');
    expect(verdict((c) => c.input('sel'), ['sel'])).toBe('strapped');
  });

  it('is none where the choice is between one clock gated and not gated', () => {
    // A bypass for testing: both arms are low while clk is, so the select may change there.
    const verdict = (edge: EdgeKind) =>
      factsOf((c, clk) => {
        const gated = c.net('gated', c.and(clk, enable(c, 'falling', clk)));
        return c.mux(flop(c, 'bypass', edge, clk, c.input('b')), clk, gated);
      });
    expect(verdict('falling')).toMatchObject({ kind: 'gate', verdict: 'sound' });
    expect(verdict('rising')).toMatchObject({ kind: 'gate', verdict: 'unsound' });
  });
});
