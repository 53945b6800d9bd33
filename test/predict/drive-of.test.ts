// The assumed drive (definition 35), and what a person may state instead. Circuits by hand.
import { describe, expect, it } from 'vitest';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
import type { Drive, DriveOptions } from '../../server/src/predict/drive';
import { driveOf } from '../../server/src/predict/drive-of';
import { parseDriveValue } from '../../server/src/predict/drive-value';
import { hintOfName } from '../../server/src/predict/drive-words';
import { nothingStated } from '../clocks/describe-clocks';
import { type Circuit, circuit, type Wire } from '../tools/circuit';
import { finish } from './timed';

const nothing: DriveOptions = { clocks: {}, resets: {}, inputs: {}, start: '0' };

function drive(netlist: Netlist, stated: Partial<DriveOptions> = {}): Drive {
  return driveOf(netlist, finish(findClocks(netlist, nothingStated)), { ...nothing, ...stated });
}

const clocksOf = (found: Drive) =>
  found.clocks.map(({ name, period, high, phase }) => `${name} ${period} ${high} ${phase}`);
const resetsOf = (found: Drive) =>
  found.resets.map(({ name, active, periods, release }) => `${name} ${active} ${periods} ${release}`);
const inputsOf = (found: Drive) =>
  Object.fromEntries(
    found.inputs.map(({ name, value, source, why }) => [
      name,
      `${toBinary(value)} ${source} ${why?.reason.replace('drive-input-', '')}`,
    ]),
  );
const reasonsOf = (found: Drive) => found.assumptions.map(({ about, why }) => `${about}: ${why.reason}`);

/** A counter of four bits on `clk` with what `data` makes of its next value. */
function counter(c: Circuit, clk: Wire, data: (q: Wire) => Wire, more: object = {}): Wire {
  return c.register('q', { width: 4, clock: clk, data, ...more });
}

describe('clocks', () => {
  it('gives 20 ns to the first root, high half, first rise at half', () => {
    const c = circuit();
    counter(c, c.input('clk'), (q) => c.increment(q));
    expect(clocksOf(drive(c.build()))).toEqual(['clk 20000 10000 10000']);
  });

  it('gives 26, 34, 46, 58, 74 ns to further roots, in source order', () => {
    const c = circuit();
    for (let index = 0; index < 6; index++) {
      const clk = c.input(`c${index}`);
      c.register(`r${index}`, { clock: clk, data: (q) => c.not(q) });
    }
    const found = drive(c.build());
    expect(found.clocks.map(({ period }) => period / 1000)).toEqual([20, 26, 34, 46, 58, 74]);
    expect(found.clocks.every(({ period, high, phase }) => high === period / 2 && phase === period / 2)).toBe(true);
  });

  it('gives hundreds of roots periods of their own that a run can still show', () => {
    const c = circuit();
    for (let index = 0; index < 300; index++) {
      const clk = c.input(`c${index}`);
      c.register(`r${index}`, { clock: clk, data: (q) => c.not(q) });
    }
    const periods = drive(c.build()).clocks.map(({ period }) => period);
    expect(new Set(periods).size).toBe(300);
    expect(periods).toEqual([...periods].sort((left, right) => left - right));
    expect(periods[299]).toBeLessThan(40_000_000);
  });

  it('takes what is stated, a period that is no whole number of ps included, and keeps the rest', () => {
    const c = circuit();
    counter(c, c.input('clk'), (q) => c.increment(q));
    const clk = { periodPs: 30517578.125, highPs: null, phasePs: 0 };
    const found = drive(c.build(), { clocks: { clk } });
    expect(found.clocks[0]).toMatchObject({
      period: 30517578,
      exactPeriod: { numerator: 244140625, denominator: 8 },
      high: 15258789,
      phase: 0,
      source: 'given',
    });
    expect(reasonsOf(found)).not.toContain('clk: drive-clock-assumed');
  });

  it('refuses a period, a high time and a name that nothing can use, and says so', () => {
    const c = circuit();
    counter(c, c.input('clk'), (q) => c.increment(q));
    const found = drive(c.build(), {
      clocks: {
        clk: { periodPs: -5, highPs: 30_000, phasePs: null },
        clock: { periodPs: 10, highPs: null, phasePs: null },
      },
    });
    expect(clocksOf(found)).toEqual(['clk 20000 10000 10000']);
    expect(reasonsOf(found)).toEqual([
      'clk: drive-period-refused',
      'clk: drive-high-refused',
      'clk: drive-clock-assumed',
      'clock: drive-unknown-name',
      'start: drive-start-assumed',
    ]);
  });

  it('does not drive an inout used on an edge: it reads its pull-up (definition 7)', () => {
    const c = circuit();
    counter(c, c.inout('scl'), (q) => c.increment(q));
    const found = drive(c.build());
    expect(found.clocks).toEqual([]);
    expect(found.pulls.map(({ name }) => name)).toEqual(['scl']);
    expect(inputsOf(found)).toEqual({ scl: 'z setting released' });
  });

  it('does not drive a clock that nothing drives', () => {
    const c = circuit();
    counter(c, c.undriven('clk'), (q) => c.increment(q));
    const found = drive(c.build());
    expect(found.clocks).toEqual([]);
    expect(reasonsOf(found)).toContain('clk: drive-clock-undriven');
  });
});

describe('resets', () => {
  const withReset = (active: 'high' | 'low', edge: 'rising' | 'falling') => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst');
    counter(c, clk, (q) => c.increment(q), { edge, asynchronous: [{ control: rst, active, value: '0000' }] });
    return drive(c.build());
  };

  it('releases a quarter period after the inactive edge that follows two periods', () => {
    // Rising edges at 10, 30, 50 ns; the falling edge at 40 ns is the inactive one.
    expect(resetsOf(withReset('high', 'rising'))).toEqual(['rst high 2 45000']);
    expect(resetsOf(withReset('low', 'falling'))).toEqual(['rst low 2 55000']);
  });

  it('releases after any edge where registers listen to both', () => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst');
    const asynchronous = [{ control: rst, active: 'high' as const, value: '0' }];
    c.register('r', { clock: clk, data: (q) => c.not(q), asynchronous });
    c.register('s', { clock: clk, edge: 'falling', data: (q) => c.not(q), asynchronous });
    expect(resetsOf(drive(c.build()))).toEqual(['rst high 2 45000']);
  });

  it('takes the slowest clock that samples it', () => {
    const c = circuit();
    const rst = c.input('rst');
    const asynchronous = [{ control: rst, active: 'high' as const, value: '0' }];
    for (const name of ['a', 'b'])
      c.register(`q${name}`, { clock: c.input(`clk${name}`), data: (q) => c.not(q), asynchronous });
    // 26 ns: rises at 13, falls at 26, 52; two periods are 52; a quarter is 6.5.
    expect(resetsOf(drive(c.build()))).toEqual(['rst high 2 58500']);
  });

  it('finds a synchronous reset, one that is inverted, and one behind a synchronizer', () => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst_n');
    const first = c.register('s0', { clock: clk, data: rst });
    const second = c.register('s1', { clock: clk, data: first });
    counter(c, clk, (q) => c.mux(c.not(second), c.constant('0000'), c.increment(q)));
    // Each register of the synchronizer takes a period more: four periods are 80 ns.
    expect(resetsOf(drive(c.build()))).toEqual(['rst_n low 4 85000']);
  });

  it('waits for a divided clock where the reset is sampled by it', () => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst');
    const div = c.register('div', { width: 2, clock: clk, data: (q) => c.increment(q) });
    counter(c, div.bit(1), (q) => c.mux(rst, c.constant('0000'), c.increment(q)));
    // div[1] is four times slower: two of its periods are 160 ns.
    expect(resetsOf(drive(c.build()))).toEqual(['rst high 2 165000']);
  });

  it('takes what is stated', () => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst');
    counter(c, clk, (q) => c.increment(q), { asynchronous: [{ control: rst, active: 'high', value: '0000' }] });
    expect(resetsOf(drive(c.build(), { resets: { rst: { active: 'low', periods: 4 } } }))).toEqual(['rst low 4 85000']);
  });
});

describe('inputs take the level that lets registers move', () => {
  const assumed = (make: (c: Circuit, q: Wire) => Wire) => {
    const c = circuit();
    counter(c, c.input('clk'), (q) => make(c, q));
    return inputsOf(drive(c.build()));
  };

  it('holds a sole enable active, also an inverted one', () => {
    expect(assumed((c, q) => c.mux(c.input('go'), c.increment(q), q))).toEqual({ go: '1 inferred enables' });
    expect(assumed((c, q) => c.mux(c.not(c.input('idle')), c.increment(q), q))).toEqual({ idle: '0 inferred enables' });
  });

  it('holds clear and load inactive, and data at 0', () => {
    expect(
      assumed((c, q) => c.mux(c.input('zap'), c.mux(c.input('sel'), c.constant('0000'), c.increment(q)), q)),
    ).toEqual({ zap: '1 inferred enables', sel: '0 inferred clears' });
    expect(assumed((c, q) => c.mux(c.input('take'), c.input('value', { width: 4 }), c.increment(q)))).toEqual({
      take: '0 inferred loads',
      value: '0000 setting data',
    });
  });

  it('holds stall inactive: what holds the register is not taken', () => {
    expect(assumed((c, q) => c.mux(c.input('busy'), q, c.increment(q)))).toEqual({ busy: '0 inferred enables' });
  });

  it('takes direction 1 where both arms move', () => {
    expect(assumed((c, q) => c.mux(c.input('turn'), c.increment(q), c.subtract(q, c.constant('0001'))))).toEqual({
      turn: '1 inferred direction',
    });
  });

  it('asks a mode for the arm that moves', () => {
    expect(
      assumed((c, q) =>
        c.select(
          c.input('mode', { width: 2 }),
          [
            ['00', q],
            ['01', c.constant('0000')],
            ['10', c.increment(q)],
          ],
          q,
        ),
      ),
    ).toEqual({ mode: '10 inferred enables' });
  });

  it('starts a state machine that waits in its first state', () => {
    expect(
      assumed((c, q) =>
        c.select(
          q,
          [
            ['0000', c.mux(c.input('begin_now'), c.constant('0001'), c.constant('0000'))],
            ['0001', c.constant('0000')],
          ],
          c.constant('0000'),
        ),
      ),
    ).toEqual({ begin_now: '1 inferred enables' });
  });

  it('turns a toggle flip-flop', () => {
    const c = circuit();
    c.register('q', { clock: c.input('clk'), data: (q) => c.xor(q, c.input('t')) });
    expect(inputsOf(drive(c.build()))).toEqual({ t: '1 inferred enables' });
  });

  it('lets a clock gate pass and a latch stand open', () => {
    const c = circuit();
    const clk = c.input('clk');
    const enable = c.input('allow');
    c.register('q', { clock: c.net('gated', c.and(clk, enable)), data: (q) => c.not(q) });
    c.latch('l', { gate: c.input('keep'), active: 'low', data: c.input('d') });
    expect(inputsOf(drive(c.build()))).toEqual({
      allow: '1 inferred passes-clock',
      keep: '0 inferred opens-latch',
      d: '0 setting data',
    });
  });

  it('goes by the name only where the structure says nothing', () => {
    const c = circuit();
    for (const name of ['enable', 'en_n', 'clear', 'hold_n', 'up', 'data']) c.output(`y_${name}`, c.input(name));
    expect(inputsOf(drive(c.build()))).toEqual({
      enable: '1 name named-active',
      en_n: '0 name named-active',
      clear: '0 name named-inactive',
      hold_n: '1 name named-inactive',
      up: '1 name named-active',
      data: '0 setting data',
    });
  });

  it('takes given values as written, and refuses what is no value of that width', () => {
    const c = circuit();
    c.output('y', c.input('a', { width: 4 }));
    c.output('z', c.input('b', { width: 4 }));
    const found = drive(c.build(), { inputs: { a: "4'b1x0z", b: '16', nobody: '1' } });
    expect(inputsOf(found)).toEqual({ a: '1x0z given undefined', b: '0000 setting data' });
    expect(reasonsOf(found)).toEqual(['b: drive-input-refused', 'b: drive-input-data', 'nobody: drive-unknown-name']);
  });
});

describe('values as written (IEEE 1364-2005 3.5.1; LIT rows of the published values)', () => {
  const digits = (written: string, width: number) => {
    const value = parseDriveValue(written, width);
    return value === null ? null : toBinary(value);
  };
  it('reads constants', () => {
    expect(digits("'hx", 12)).toBe('x'.repeat(12)); // LIT-1
    expect(digits("'h3x", 12)).toBe('00000011xxxx'); // LIT-2
    expect(digits("'hz3", 12)).toBe('zzzzzzzz0011'); // LIT-3
    expect(digits("'h0z3", 12)).toBe('0000zzzz0011'); // LIT-4
    expect(digits("3'b01x", 3)).toBe('01x'); // LIT-6
    expect(digits("16'b0011_0101_0001_1111", 16)).toBe('0011010100011111'); // LIT-11
    expect(digits('12', 4)).toBe('1100');
    expect(digits('-1', 4)).toBe('1111');
    expect(digits("4'd9", 4)).toBe('1001');
    expect(digits("8'hff", 8)).toBe('11111111');
  });
  it('refuses text that is none, and what does not fit', () => {
    for (const text of ['4af', "8'd-6", '', 'x', "4'b2", "'", '16', '-9', "8'h1f"]) expect(digits(text, 4)).toBe(null);
  });
});

describe('words in names', () => {
  it('tells roles and active levels', () => {
    const words = ['clk', 'sys_clock', 'u1.rst_n', 'nreset', 'rstn', 'fifoWrEn', 'load', 'up_down_dir', 'din', 'plan'];
    expect(words.map((name) => hintOfName(name)).map((hint) => hint && `${hint.role} ${hint.active}`)).toEqual([
      'clock high',
      'clock high',
      'reset low',
      'reset low',
      'reset low',
      'enable high',
      'inactive high',
      'direction high',
      null,
      null,
    ]);
  });
});
