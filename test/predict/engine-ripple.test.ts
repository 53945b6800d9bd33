// Ripple counters under the timed engine: published settling times and the codes passed on the way.
import { describe, expect, it } from 'vitest';
import { causeChain } from '../../server/src/predict/wave-query';
import { circuit } from '../tools/circuit';
import { plainSet, runTimed, type Timed, type TimedOptions } from './timed';

/** `stages` registers, each clocked by the one before, falling edge, inverted output back to the input. */
function rippleCounter(stages: number) {
  const c = circuit();
  const clk = c.input('clk');
  c.registers(
    'q',
    { range: [stages - 1, 0] },
    Array.from({ length: stages }, (_, low) => ({
      low,
      width: 1,
      clock: low === 0 ? clk : (q) => q.bit(low - 1),
      edge: 'falling' as const,
      data: (q) => c.not(q.bit(low)),
    })),
  );
  return c.build();
}

function runRipple(stages: number, options: TimedOptions): Timed {
  return runTimed(rippleCounter(stages), options);
}

/** Codes and ns after the clock edge at `edge`, up to the next one. */
function codesAfter(run: Timed, edge: number, period: number): string[] {
  const { changes } = run.waves;
  const { node } = run.signal('q');
  const bits = Array.from({ length: run.signal('q').width }, (_, bit) =>
    Array.from(run.waves.changesOf({ node, bit })),
  );
  const times = bits.flat().map((index) => changes.time[index] / 1000);
  const inside = [...new Set(times)]
    .filter((time) => time > edge && time < edge + period)
    .sort((left, right) => left - right);
  return inside.map((time) => `${Number.parseInt(run.at('q', time), 2)}@${time - edge}`);
}

describe('TB-1, TB-4, TB-6: four stages of 10 ns (Floyd, Digital Fundamentals, 11th ed., Example 9-1)', () => {
  // Falling edges at 100, 200, …: edge n brings n - 1 to n.
  const run = runRipple(4, {
    clocks: { clk: { period: 100, phase: 50 } },
    delays: plainSet('tb', { register: 10 }),
    until: 1750,
  });

  it('settles in 40 ns and counts up', () => {
    const readings = Array.from({ length: 17 }, (_, edge) => Number.parseInt(run.at('q', 100 * edge + 40), 2));
    expect(readings).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 0]);
  });

  it('passes 6, 4, 0 from 7 to 8, at 10, 20 and 30 ns (TB-6)', () => {
    expect(codesAfter(run, 800, 100)).toEqual(['6@10', '4@20', '0@30', '8@40']);
  });

  it('passes the transient codes of TB-4 and no others', () => {
    const passed = Array.from({ length: 16 }, (_, from) => {
      const codes = codesAfter(run, 100 * (from + 1), 100).map((code) => Number(code.split('@')[0]));
      return codes.slice(0, -1);
    });
    expect(passed).toEqual([
      [],
      [0],
      [],
      [2, 0],
      [],
      [4],
      [],
      [6, 4, 0],
      [],
      [8],
      [],
      [10, 8],
      [],
      [12],
      [],
      [14, 12, 8],
    ]);
  });

  it('knows the chain of causes back to the drive', () => {
    const last = Array.from(run.waves.changesOf({ node: run.signal('q').node, bit: 3 }))[0];
    expect(causeChain(run.waves, last).map((index) => run.waves.changes.time[index])).toEqual([
      840e3, 830e3, 820e3, 810e3, 800e3,
    ]);
  });
});

describe('TB-7: four stages of 10 ns read at the next falling edge', () => {
  const readings = (period: number) => {
    const run = runRipple(4, {
      clocks: { clk: { period, phase: period / 2, high: period / 2 } },
      delays: plainSet('tb', { register: 10 }),
      until: 18 * period,
    });
    // Edge n stands at n · period; the reading of edge n is taken just before edge n + 1.
    return Array.from({ length: 16 }, (_, index) => Number.parseInt(run.before('q', (index + 2) * period), 2));
  };
  it('reads all right with 41 ns', () => {
    expect(readings(41)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 0]);
  });
  it('reads 8 and 0 wrong with 39 ns', () => {
    expect(readings(39)).toEqual([1, 2, 3, 4, 5, 6, 7, 0, 9, 10, 11, 12, 13, 14, 15, 8]);
  });
  it('reads 0 after edge 8 and 8 after edge 16 with 31 ns', () => {
    expect(readings(31)).toEqual([1, 2, 3, 4, 5, 6, 7, 0, 9, 10, 11, 12, 13, 14, 15, 8]);
  });
});

describe('data sheets: time from the clock edge to the last output (derived from the published figures)', () => {
  const settlingTime = (stages: number, delays: string) => {
    const wrap = 2 ** stages;
    const run = runRipple(stages, { clocks: { clk: { period: 200, phase: 100 } }, delays, until: 200 * (wrap + 1) });
    const last = Array.from(run.waves.changesOf({ node: run.signal('q').node, bit: stages - 1 })).at(-1) as number;
    return run.waves.changes.time[last] / 1000 - 200 * wrap;
  };
  it('DS-1: 74HC393, one half 12 + 3 × 5 = 27 ns; both halves in series 54 ns', () => {
    expect(settlingTime(4, '74HC393')).toBe(27);
    expect(settlingTime(8, '74HC393')).toBe(54);
  });
  it('DS-2: 74HCT393, one half 20 + 3 × 6 = 38 ns', () => {
    expect(settlingTime(4, '74HCT393')).toBe(38);
  });
  it('DS-3: 74HC4040, 14 + 11 × 8 = 102 ns', () => {
    expect(settlingTime(12, '74HC4040')).toBe(102);
  });
  it('DS-4: 74HCT4040, 16 + 11 × 8 = 104 ns', () => {
    expect(settlingTime(12, '74HCT4040')).toBe(104);
  });
  it('toggles at its published rate, though an output takes longer than a period (DS-1: 99 MHz, 12 ns)', () => {
    const run = runRipple(4, {
      clocks: { clk: { period: 10.102, phase: 5.051 } },
      delays: '74HC393',
      until: 10.102 * 40,
    });
    expect(run.doubts).toEqual([]);
    expect(run.wave('q[0]').split(' ').slice(0, 4)).toEqual(['0', '@22.102:1', '@32.204:0', '@42.306:1']);
    expect(run.waves.changesOf({ node: run.signal('q').node, bit: 3 }).length).toBe(4);
  });
  it('is in a race with its own output where the period is not published', () => {
    const run = runRipple(1, {
      clocks: { clk: { period: 10, phase: 5 } },
      delays: plainSet('slow', { register: 10 }),
      until: 35,
    });
    expect(run.doubts).toEqual(['20 race q', '30 race q']);
  });
});
