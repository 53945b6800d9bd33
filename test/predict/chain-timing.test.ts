import { describe, expect, it } from 'vitest';
import { tripleOf } from '../../server/src/delays/triple';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { published } from '../published/published';
import { circuit, type Wire } from '../tools/circuit';
import { falling, flipFlops, predictionOf, toggleChain } from './predicted';

function ripple(stages: number) {
  const c = circuit();
  toggleChain(c, c.input('clk'), falling(stages));
  return c.build();
}

function chainOf(stages: number, delaySet: DelaySet) {
  return predictionOf(ripple(stages), { delaySet }).prediction.chains[0];
}

const directional = (rise: number, fall: number) => ({ rise: tripleOf(rise), fall: tripleOf(fall) });

/** A ripple part whose stages after the first have delays of their own, ps. */
function part(first: [rise: number, fall: number], next: [rise: number, fall: number]): DelaySet {
  return flipFlops(0, { clockToQ: { first: directional(...first), next: directional(...next) } });
}

describe('settling of ripple chains', () => {
  published('TB-1', '4 stages of 10 ns: 40 ns, 25 MHz', () => {
    const chain = chainOf(4, flipFlops(10_000));
    expect(chain.settle).toEqual(tripleOf(40_000));
    expect(chain.skew).toEqual(tripleOf(30_000));
    expect(chain.maxClockHz).toBe(25e6);
    expect(chain.toggleClockHz).toBeNull();
    expect(chain.worst).toEqual({ from: 7n, to: 8n });
  });

  published('TB-2', '10 stages of 20 ns: 200 ns, read below 5 MHz', () => {
    const chain = chainOf(10, flipFlops(20_000));
    expect(chain.settle.max).toBe(200_000);
    expect(chain.maxClockHz).toBe(5e6);
  });

  published('DS-1', '74HC393: one half 27 ns, both in series 54 ns', () => {
    const set = builtInDelaySet('74HC393') as DelaySet;
    expect(chainOf(4, set).settle.typ).toBe(27_000);
    const both = chainOf(8, set);
    expect(both.settle.typ).toBe(54_000);
    expect(both.maxClockHz).toBeCloseTo(18.5e6, -5);
    expect(both.toggleClockHz).toBeCloseTo(99e6, -5);
  });

  published('DS-2', '74HCT393: 38 ns', () => {
    expect(chainOf(4, builtInDelaySet('74HCT393') as DelaySet).settle.typ).toBe(38_000);
  });

  published(['DS-3', 'DS-4'], '74HC4040 and 74HCT4040: 102 and 104 ns', () => {
    const chain = chainOf(12, builtInDelaySet('74HC4040') as DelaySet);
    expect(chain.settle.typ).toBe(102_000);
    expect(chain.maxClockHz).toBeCloseTo(9.8e6, -5);
    expect(chain.toggleClockHz).toBeCloseTo(90e6, -5);
    expect(chainOf(12, builtInDelaySet('74HCT4040') as DelaySet).settle.typ).toBe(104_000);
  });

  published('DS-6', 'HEF4024B: the wrap is the slowest of all transitions', () => {
    // 5, 10 and 15 V; all fall at 127→0. The sum of the slower direction of each stage would say 5 ns more at 5 V.
    const sets = [
      part([105_000, 100_000], [50_000, 60_000]),
      part([45_000, 40_000], [20_000, 25_000]),
      part([30_000, 25_000], [15_000, 20_000]),
    ];
    expect(sets.map((set) => chainOf(7, set).settle.typ)).toEqual([460_000, 190_000, 145_000]);
    expect(sets.map((set) => chainOf(7, set).worst)).toEqual(new Array(3).fill({ from: 127n, to: 0n }));
  });

  published(['DS-6', 'DS-7'], 'HEF4024B: 63→64 and the wrap, typical and maximum', () => {
    const set = flipFlops(0, {
      clockToQ: {
        first: { rise: { min: 0, typ: 105_000, max: 210_000 }, fall: { min: 0, typ: 100_000, max: 200_000 } },
        next: { rise: { min: 0, typ: 50_000, max: 100_000 }, fall: { min: 0, typ: 60_000, max: 120_000 } },
      },
    });
    const { prediction } = predictionOf(ripple(7), { delaySet: set });
    expect(prediction.chains[0].settle).toEqual({ min: 0, typ: 460_000, max: 920_000 });
    // The last bit's own settling per direction is what 63→64 (it rises) and the wrap (it falls) take.
    const last = prediction.registers[6].settles;
    expect([last?.rise?.typ, last?.rise?.max]).toEqual([450_000, 900_000]);
    expect([last?.fall?.typ, last?.fall?.max]).toEqual([460_000, 920_000]);
  });

  it('a setup of the reader lowers the readable rate, not the rate at which it settles', () => {
    // Definition 33; common practice, no source.
    const chain = chainOf(
      4,
      flipFlops(10_000, { setup: tripleOf(10_000), period: { min: 8000, typ: 9000, max: 10_000 } }),
    );
    expect([chain.maxClockHz, chain.readableClockHz, chain.toggleClockHz]).toEqual([25e6, 20e6, 100e6]);
  });

  it('settles at once where nothing takes time, and then has no highest rate', () => {
    expect(chainOf(4, flipFlops(0))).toMatchObject({ settle: tripleOf(0), maxClockHz: null, readableClockHz: null });
  });

  it('takes only transitions that happen: a chain that never wraps', () => {
    // Three stages that stop at 4 by a clear: bit 2 rises at 3→4 and is cleared, bits 0 and 1 never fall together with it.
    const c = circuit();
    const clk = c.input('clk');
    const clear: Wire = c.net('clear', () => c.not(q.bit(2)));
    const q: Wire = c.registers(
      'q',
      { width: 3 },
      [0, 1, 2].map((index) => ({
        low: index,
        width: 1,
        clock: (self: Wire) => (index === 0 ? clk : self.bit(index - 1)),
        edge: 'falling' as const,
        data: (self: Wire) => c.not(self.bit(index)),
        initial: '0',
        asynchronous: [{ control: clear, active: 'low' as const, value: '0' }],
      })),
    );
    const delaySet = flipFlops(10_000, {
      clear: directional(7000, 7000),
      logic: { inverter: directional(2000, 2000) },
    });
    const { prediction, count } = predictionOf(c.build(), { delaySet });
    expect(count().values).toEqual(['0', '1', '2', '3']);
    expect(prediction.chains[0]).toMatchObject({ settle: tripleOf(39_000), worst: { from: 3n, to: 0n } });
  });
});

describe('delays on the way', () => {
  it('inverters and gates between stages, and delays of the text, add up', () => {
    const c = circuit();
    const clk = c.input('clk');
    const a = c.register('a', { clock: clk, data: (self: Wire) => c.not(self), initial: '0', delay: 3000 });
    const b = c.register('b', { clock: c.not(a), data: (self: Wire) => c.not(self), initial: '0' });
    c.register('d', {
      clock: c.delayed(b, { rise: 500, fall: 700 }),
      edge: 'falling',
      data: (self: Wire) => c.not(self),
      initial: '0',
    });
    const delaySet = flipFlops(10_000, { logic: { inverter: directional(1000, 2000) } });
    const { register } = predictionOf(c.build(), { delaySet });
    expect(register('a').arrival).toEqual(tripleOf(0));
    expect(register('a').settles?.all).toEqual(tripleOf(3000));
    // The inverter's rise clocks b; b's fall through the delay's fall clocks d.
    expect(register('b').arrival).toEqual(tripleOf(4000));
    expect(register('d').arrival).toEqual(tripleOf(14_700));
  });

  it('each direction takes its own path through an inverter', () => {
    const c = circuit();
    const clk = c.input('clk');
    const n = c.net('n', c.not(clk));
    c.register('r', { clock: n, data: (self: Wire) => c.not(self) });
    c.register('f', { clock: n, edge: 'falling', data: (self: Wire) => c.not(self) });
    const delaySet = flipFlops(10_000, { logic: { inverter: directional(1000, 2000) } });
    const { register } = predictionOf(c.build(), { delaySet });
    expect([register('r').arrival, register('f').arrival]).toEqual([tripleOf(1000), tripleOf(2000)]);
  });
});
