import { describe, expect, it } from 'vitest';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { predictionOf } from './predicted';

const reset = (control: Wire, value: string) => [{ control, active: 'low' as const, value }];

describe('start values (definition 17)', () => {
  function four() {
    const c = circuit();
    const clk = c.input('clk');
    const rst_n = c.input('rst_n');
    const keep = (q: Wire) => c.increment(q);
    c.register('cleared', { width: 2, clock: clk, data: keep, initial: '10', asynchronous: reset(rst_n, '01') });
    c.register('written', { width: 2, clock: clk, data: keep, initial: '10' });
    c.register('partly', { width: 2, clock: clk, data: keep, initial: '1x' });
    c.register('open', { width: 2, clock: clk, data: keep });
    return c.build();
  }

  it('an active asynchronous control comes first, then the text, then the setting', () => {
    for (const start of ['0', '1', 'x'] as const) {
      const { register } = predictionOf(four(), { start });
      const text = (name: string) => `${register(name).start} ${register(name).startFrom}`;
      expect(['cleared', 'written', 'partly', 'open'].map(text)).toEqual([
        '01 reset',
        '10 text',
        '1x text',
        `${start}${start} assumed`,
      ]);
    }
  });

  it('a count begins where the drive releases it, with registers that ran on meanwhile', () => {
    // Two periods of reset: the free counter has seen two edges by then.
    const c = circuit();
    const clk = c.input('clk');
    const rst_n = c.input('rst_n');
    const free = c.register('free', { width: 2, clock: clk, data: (q: Wire) => c.increment(q), initial: '00' });
    const next = (q: Wire) => c.add(q, free);
    c.register('sum', { width: 2, clock: clk, data: next, asynchronous: reset(rst_n, '00') });
    const { count } = predictionOf(c.build());
    expect(count('free').values).toEqual(['0', '1', '2', '3']);
    expect(count('sum').values.slice(0, 4)).toEqual(['0', '2', '1', '1']);
  });

  it('a synchronous reset is applied before counting', () => {
    const c = circuit();
    const clk = c.input('clk');
    const rst = c.input('rst');
    c.register('q', { width: 2, clock: clk, data: (q: Wire) => c.mux(rst, c.constant('10'), c.increment(q)) });
    const { count, register } = predictionOf(c.build(), { start: 'x' });
    expect(register('q')).toMatchObject({ start: 'xx', startFrom: 'assumed' });
    expect(count().values).toEqual(['2', '3', '0', '1']);
  });
});

describe('constant registers', () => {
  function marks(build: (c: Circuit, clk: Wire) => void) {
    const c = circuit();
    build(c, c.input('clk'));
    const { netlist, prediction } = predictionOf(c.build());
    return netlist.registers.map(({ id }) => prediction.registers[id].constant);
  }

  it('what never leaves its start value under any input', () => {
    expect(
      marks((c, clk) => {
        const d = c.input('d');
        c.register('tied', { clock: clk, data: c.constant('0'), initial: '0' });
        c.register('held', { clock: clk, data: (q: Wire) => q, initial: '1' });
        c.register('blocked', { clock: clk, data: (q: Wire) => c.and(q, d), initial: '0' });
        c.register('rises', { clock: clk, data: (q: Wire) => c.or(q, d), initial: '0' });
        c.register('leaves', { clock: clk, data: c.constant('1'), initial: '0' });
        c.register('never', { clock: c.constant('0'), data: d, initial: '0' });
        c.register('loaded', {
          clock: clk,
          data: (q: Wire) => q,
          initial: '0',
          asynchronous: [{ control: d, active: 'high', value: c.input('e') }],
        });
        c.register('unknown', { clock: clk, data: c.undriven('n'), initial: '0' });
      }),
    ).toEqual([true, true, true, false, false, true, false, false]);
  });

  it('two that hold each other', () => {
    expect(
      marks((c, clk) => {
        const a: Wire = c.register('a', { clock: clk, data: () => b, initial: '0' });
        const b: Wire = c.register('b', { clock: clk, data: () => a, initial: '0' });
      }),
    ).toEqual([true, true]);
  });
});

describe('registers that can stay unknown', () => {
  function unknowns(build: (c: Circuit, clk: Wire) => void) {
    const c = circuit();
    build(c, c.input('clk'));
    const { netlist, prediction } = predictionOf(c.build());
    const staying = prediction.registers.filter(({ canStayUnknown }) => canStayUnknown);
    return staying.map(({ register }) => netlist.signals[netlist.registers[register].signal].name).join(' ');
  }

  it('a toggle without reset does; with one, or with a start in the text, it does not', () => {
    expect(
      unknowns((c, clk) => {
        const rst_n = c.input('rst_n');
        const rst = c.input('rst');
        const turn = (q: Wire) => c.not(q);
        c.register('bare', { clock: clk, data: turn });
        c.register('cleared', { clock: clk, data: turn, asynchronous: reset(rst_n, '0') });
        c.register('synchronous', { clock: clk, data: (q: Wire) => c.mux(rst, c.constant('0'), c.not(q)) });
        c.register('written', { clock: clk, data: turn, initial: '0' });
      }),
    ).toBe('bare');
  });

  it('a register that takes over an input does not, however long the pipeline', () => {
    expect(
      unknowns((c, clk) => {
        const d = c.input('d', { width: 8 });
        const one = c.register('one', { width: 8, clock: clk, data: d });
        const two = c.register('two', { width: 8, clock: clk, data: one });
        c.register('sum', { width: 8, clock: clk, data: c.add(one, two) });
      }),
    ).toBe('');
  });

  it('one behind an enable does not, since some input makes it known; a toggle behind an enable does', () => {
    expect(
      unknowns((c, clk) => {
        const en = c.input('en');
        const d = c.input('d');
        const held = c.register('held', { clock: clk, data: (q: Wire) => c.mux(en, d, q) });
        c.register('behind', { clock: clk, data: c.not(held) });
        const toggle = c.register('toggle', { clock: clk, data: (q: Wire) => c.mux(en, c.not(q), q) });
        c.register('after', { clock: clk, data: toggle });
      }),
    ).toBe('toggle after');
  });

  it('one that an input can clear through a gate does not', () => {
    expect(
      unknowns((c, clk) => {
        const keep = c.input('keep');
        c.register('cleared', { clock: clk, data: (q: Wire) => c.and(c.not(q), keep) });
        c.register('turned', { clock: clk, data: (q: Wire) => c.xor(q, keep) });
      }),
    ).toBe('turned');
  });

  it('a register that a known state clears does not', () => {
    // After reset the state is known to be 00, and in 00 the count is cleared.
    expect(
      unknowns((c, clk) => {
        const rst_n = c.input('rst_n');
        const go = c.input('go');
        const state = c.register('state', {
          width: 2,
          clock: clk,
          data: (q: Wire) => c.mux(go, c.increment(q), q),
          asynchronous: reset(rst_n, '00'),
        });
        const isIdle = c.equal(state, c.constant('00'));
        c.register('count', {
          width: 4,
          clock: clk,
          data: (q: Wire) => c.mux(isIdle, c.constant('0000'), c.increment(q)),
        });
      }),
    ).toBe('');
  });

  it('a ripple behind an unknown stage stays unknown', () => {
    expect(
      unknowns((c, clk) => {
        const a = c.register('a', { clock: clk, data: (q: Wire) => c.not(q) });
        c.register('b', { clock: a, data: (q: Wire) => c.not(q) });
      }),
    ).toBe('a b');
  });
});
