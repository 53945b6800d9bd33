// Ripple counters: Floyd, Digital Fundamentals, ch. 9; Basic Digital Electronics, ch. 5; and what follows from them.

import { describe, expect } from 'vitest';
import type { ReportOptions } from '../tools/report-of';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

const flop = (ns: number) => {
  const delay = { rise: ns * 1000, fall: ns * 1000 };
  return { sheet: null, conditions: `${ns} ns per flip-flop`, clockToQ: { first: delay, next: null } };
};

/** `bits` toggling flip-flops, each on an edge of the one before; `read` wires its outputs. */
function ripple(bits: number, edge = 'negedge', extra = ''): string {
  const stages = Array.from({ length: bits - 1 }, (_, i) => `always @(${edge} q[${i}]) q[${i + 1}] <= ~q[${i + 1}];`);
  return `module ripple(input clk, output reg [${bits - 1}:0] q${extra ? ', output [15:0] y' : ''});
    initial q = 0;
    always @(${edge} clk) q[0] <= ~q[0];
    ${stages.join('\n    ')}
    ${extra}
  endmodule`;
}

function withFlops(ns: number, clockPs?: number): ReportOptions {
  const clocks = clockPs === undefined ? {} : { clocks: { clk: { periodPs: clockPs } } };
  return { project: JSON.stringify({ delays: 'flops', delaySets: { flops: flop(ns) }, ...clocks }) };
}

const run = (text: string, options: ReportOptions) => reportOf([{ path: 'm.v', text }], options);

describe('a 4-bit counter of 10 ns flip-flops', () => {
  published('TB-1', 'settles in 40 ns, so it reads right up to 25 MHz', async () => {
    const { chains } = await run(ripple(4), withFlops(10));
    expect(chains).toHaveLength(1);
    expect(chains[0].settle).toEqual({ min: 40000, typ: 40000, max: 40000 });
    expect(chains[0].maxClockHz).toBe(25e6);
  });

  published('TB-4', 'passes these codes', async () => {
    const { counts } = await run(ripple(4), withFlops(10));
    const passed = counts[0].steps
      .filter(({ passes }) => passes.length > 0)
      .map(({ from, to, passes }) => `${from}→${to}: ${passes.map(({ value }) => value).join(',')}`);
    const expected = [
      '1→2: 0',
      '3→4: 2,0',
      '5→6: 4',
      '7→8: 6,4,0',
      '9→10: 8',
      '11→12: 10,8',
      '13→14: 12',
      '15→0: 14,12,8',
    ];
    expect(passed).toEqual(expected);
  });

  published('TB-5', 'decoded whole, pulses where nobody counted', async () => {
    const decoder = ripple(4, 'negedge', "assign y = 16'd1 << q;");
    const waves = await wavesOf([{ path: 'm.v', text: decoder }], 100_000 * 19, withFlops(10, 100_000));
    const round = { from: fallOf(waves('clk'), 1), to: fallOf(waves('clk'), 17) };
    const spurious = Array.from({ length: 16 }, (_, code) => spuriousPulses(waves(`y[${code}]`), round));
    expect(spurious.map((pulses) => pulses.length)).toEqual([3, 0, 1, 0, 2, 0, 1, 0, 3, 0, 1, 0, 2, 0, 1, 0]);
    expect(new Set(spurious.flat())).toEqual(new Set([10_000]));
  });

  published('TB-6', 'the edges of 7→8', async () => {
    const waves = await wavesOf([{ path: 'm.v', text: ripple(4) }], 100_000 * 9, withFlops(10, 100_000));
    // The clock falls at 20 ns, 120 ns, …; the eighth falling edge counts 7→8.
    const edge = fallOf(waves('clk'), 8);
    const value = (at: number) => [3, 2, 1, 0].map((bit) => waves(`q[${bit}]`).at(edge + at)).join('');
    expect([value(0), value(10_000), value(20_000), value(30_000), value(40_000)]).toEqual([
      '0111',
      '0110',
      '0100',
      '0000',
      '1000',
    ]);
    expect([value(9_999), value(19_999), value(29_999), value(39_999)]).toEqual(['0111', '0110', '0100', '0000']);
  });

  published('TB-7', 'read at the next clock edge', async () => {
    expect(await wrongReadings(41_000)).toEqual([]);
    expect(await wrongReadings(39_000)).toEqual(['8', '0']);
    expect(await wrongReadings(31_000)).toEqual(['8', '0']);
  });
});

describe('a register that reads the counter at the next clock edge', () => {
  const reader = ripple(4)
    .replace('output reg [3:0] q)', 'output reg [3:0] q, seen)')
    .replace('endmodule', 'always @(negedge clk) seen <= q;\nendmodule');
  const told = async (periodPs: number) => {
    const { findings } = await run(reader, withFlops(10, periodPs));
    const found = findings.filter(({ id }) => id === 'read-while-settling');
    return found.map(({ certainty, facts }) => `${certainty}: ${(facts.wrong as readonly string[]).join(', ')}`);
  };

  published('TB-7', 'is warned of below 40 ns with what it reads, and at 40 of a race', async () => {
    expect(await told(41_000)).toEqual([]);
    expect(await told(40_000)).toEqual(['possible: 0 for 8, 8 for 0']);
    expect(await told(39_000)).toEqual(['certain: 0 for 8, 8 for 0']);
    expect(await told(31_000)).toEqual(['certain: 0 for 8, 8 for 0']);
  });
});

/** Counts whose reading just before the following clock edge is not the count, over one round of sixteen. */
async function wrongReadings(periodPs: number): Promise<string[]> {
  const waves = await wavesOf([{ path: 'm.v', text: ripple(4) }], periodPs * 19, withFlops(10, periodPs));
  return Array.from({ length: 16 }, (_, index) => {
    const expected = String((index + 1) % 16);
    const next = fallOf(waves('clk'), index + 2);
    const digits = [3, 2, 1, 0].map((bit) => waves(`q[${bit}]`).at(next - 1)).join('');
    return Number.parseInt(digits, 2) === Number(expected) ? null : expected;
  }).filter((wrong) => wrong !== null);
}

interface Trace {
  readonly changes: readonly { readonly at: number; readonly value: string }[];
  at(ps: number): string;
}

/** Time of the n-th fall, n from 1. */
function fallOf(trace: Trace, n: number): number {
  return trace.changes.filter(({ value }) => value === '0')[n - 1].at;
}

/** Widths of the pulses that begin within one round of sixteen counts and are shorter than a count. */
function spuriousPulses(trace: Trace, round: { readonly from: number; readonly to: number }): number[] {
  return trace.changes.flatMap(({ at, value }, index) => {
    const width = (trace.changes[index + 1]?.at ?? Number.POSITIVE_INFINITY) - at;
    return value === '1' && at >= round.from && at < round.to && width <= 40_000 ? [width] : [];
  });
}

published('TB-2', 'ten flip-flops of 20 ns: 200 ns, below 5 MHz if read while counting', async () => {
  const { chains } = await run(ripple(10), withFlops(20));
  expect(chains[0].settle?.max).toBe(200_000);
  expect(chains[0].maxClockHz).toBe(5e6);
});

describe('which way it counts', () => {
  const three = (edge: string, from: string) => `module t(input clk, output reg [2:0] q);
    initial q = 0;
    wire [2:0] n = ~q;
    always @(${edge} clk) q[0] <= ~q[0];
    always @(${edge} ${from}[0]) q[1] <= ~q[1];
    always @(${edge} ${from}[1]) q[2] <= ~q[2];
  endmodule`;

  published('TB-3', 'by edge and by output', async () => {
    const values = async (edge: string, from: string) => (await run(three(edge, from), {})).counts[0];
    const up = ['0', '1', '2', '3', '4', '5', '6', '7'];
    const down = ['0', '7', '6', '5', '4', '3', '2', '1'];
    expect(await values('negedge', 'q')).toMatchObject({ kind: 'up', values: up });
    expect(await values('posedge', 'q')).toMatchObject({ kind: 'down', values: down });
    expect(await values('posedge', 'n')).toMatchObject({ kind: 'up', values: up });
    expect(await values('negedge', 'n')).toMatchObject({ kind: 'down', values: down });
  });

  const two = (first: string, second: string, start: number) => `module t(input clk, output reg [1:0] q);
    initial q = ${start};
    wire [1:0] n = ~q;
    always @(${first} clk) q[0] <= n[0];
    always @(${second} q[0]) q[1] <= n[1];
  endmodule`;

  published('DIR-1', 'only the edge of the second flip-flop sets the direction', async () => {
    const values = async (first: string, second: string) => (await run(two(first, second, 0), {})).counts[0].values;
    expect(await values('posedge', 'posedge')).toEqual(['0', '3', '2', '1']);
    expect(await values('negedge', 'negedge')).toEqual(['0', '1', '2', '3']);
    expect(await values('negedge', 'posedge')).toEqual(['0', '3', '2', '1']);
    expect(await values('posedge', 'negedge')).toEqual(['0', '1', '2', '3']);
  });

  published('DIR-2', 'from other starts', async () => {
    const values = async (start: number) => (await run(two('posedge', 'posedge', start), {})).counts[0].values;
    expect(await values(3)).toEqual(['3', '2', '1', '0']);
    expect(await values(1)).toEqual(['1', '0', '3', '2']);
  });
});

describe('parts of their data sheets', () => {
  const settled = async (bits: number, delays: string) => (await run(ripple(bits), { delays })).chains[0];

  published('DS-1', '74HC393 at 5 V, 15 pF: one half and both halves in series', async () => {
    const half = await settled(4, '74HC393');
    expect(half.settle?.typ).toBe(27_000);
    expect(half.toggleClockHz).toBe(99e6);
    const both = await settled(8, '74HC393');
    expect(both.settle?.typ).toBe(54_000);
    expect(both.maxClockHz).toBeCloseTo(1e12 / 54_000, 0);
    expect(both.toggleClockHz).toBe(99e6);
  });

  published('DS-2', '74HCT393 at 5 V, 15 pF', async () => {
    const half = await settled(4, '74HCT393');
    expect([half.settle?.typ, half.toggleClockHz]).toEqual([38_000, 53e6]);
  });

  published('DS-3', '74HC4040 at 5 V, 15 pF: twelve stages', async () => {
    const chain = await settled(12, '74HC4040');
    expect([chain.settle?.typ, chain.toggleClockHz]).toEqual([102_000, 90e6]);
    expect(chain.maxClockHz).toBeCloseTo(9.8e6, -4);
  });

  published('DS-4', '74HCT4040 at 5 V, 15 pF', async () => {
    const chain = await settled(12, '74HCT4040');
    expect([chain.settle?.typ, chain.toggleClockHz]).toEqual([104_000, 79e6]);
  });
});
