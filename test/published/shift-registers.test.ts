// Linear-feedback shift registers that are not of full length, and the test sequences of ITU-T O.150 (polynomials from
// memory): the stages take the XOR of their taps into the first, preset to ones, read at the last.

import { expect, it } from 'vitest';
import type { ReportCount } from '../../server/src/report/report';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

/** Stage 1 is bit 0. */
function registerOf(stages: number, taps: readonly number[], start: number): string {
  const feedback = taps.map((tap) => `q[${tap - 1}]`).join(' ^ ');
  return `module m(input clk, output reg [${stages - 1}:0] q);
    initial q = ${stages}'d${start};
    always @(posedge clk) q <= {q[${stages - 2}:0], ${feedback}};
  endmodule`;
}

async function countOf(stages: number, taps: readonly number[], start: number): Promise<ReportCount> {
  return (await reportOf([{ path: 'm.v', text: registerOf(stages, taps, start) }])).counts[0];
}

/** The lengths of all cycles but that of zero, longest first: each begun at the lowest state that no other holds. */
async function cyclesOf(stages: number, taps: readonly number[]): Promise<readonly number[]> {
  const seen = new Set<string>();
  const lengths: number[] = [];
  for (let start = 1; start < 2 ** stages; start++) {
    if (seen.has(String(start))) continue;
    const { period, values } = await countOf(stages, taps, start);
    for (const value of values) seen.add(value);
    lengths.push(period ?? 0);
  }
  return lengths.sort((left, right) => right - left);
}

published('FUN-13', 'eight stages, taps 8 and 7: four cycles of 63 and one of 3', async () => {
  expect(await cyclesOf(8, [8, 7])).toEqual([63, 63, 63, 63, 3]);
});

published('FUN-14', 'four stages, taps 4 and 2: two cycles of 6 and one of 3', async () => {
  expect(await cyclesOf(4, [4, 2])).toEqual([6, 6, 3]);
});

/** Periods of 20 ns, the first rise at 10 ns. The last stage before each of the rises. */
async function streamOf(stages: number, taps: readonly number[], length: number): Promise<string> {
  const text = registerOf(stages, taps, 2 ** stages - 1);
  const waves = await wavesOf([{ path: 'm.v', text }], length * 20_000);
  const last = waves(`q[${stages - 1}]`);
  return Array.from({ length }, (_, index) => last.at(index * 20_000 + 5_000)).join('');
}

const hexOf = (bits: string) => Number.parseInt(bits, 2).toString(16).toUpperCase();

/** Of a stream that repeats. */
function longestRun(stream: string, bit: string): number {
  const runs = (stream + stream).match(new RegExp(`${bit}+`, 'g')) ?? [];
  return Math.max(...runs.map((run) => run.length));
}

published(['FUN-16', 'FUN-17'], 'seven and nine stages', async () => {
  for (const { first, ones, runs, stages, taps } of [
    { stages: 7, taps: [7, 6], first: 'FE041851', ones: 64, runs: [7, 6] },
    { stages: 9, taps: [9, 5], first: 'FF83DF17', ones: 256, runs: [9, 8] },
  ]) {
    const period = 2 ** stages - 1;
    expect(await countOf(stages, taps, period)).toMatchObject({ period, polynomial: [...taps, 0] });
    const stream = await streamOf(stages, taps, period);
    expect(hexOf(stream.slice(0, 32))).toBe(first);
    expect(stream.replaceAll('0', '')).toHaveLength(ones);
    expect([longestRun(stream, '1'), longestRun(stream, '0')]).toEqual(runs);
  }
});

published('FUN-18', 'fifteen stages', async () => {
  expect(hexOf(await streamOf(15, [15, 14], 32))).toBe('FFFE0004');
  const count = await countOf(15, [15, 14], 2 ** 15 - 1);
  expect(count).toMatchObject({ period: 32767, polynomial: [15, 14, 0] });
});

it('the form that spreads the bit that leaves has the polynomial of the one that gathers it, and its stream', async () => {
  // 16 bits to the right, taps 16, 14, 13 and 11 (FUN-10 has others of 16): common practice, no source.
  const text = `module m(input clk, output reg [15:0] q);
    initial q = 16'h1;
    always @(posedge clk) q <= {1'b0, q[15:1]} ^ (q[0] ? 16'hb400 : 16'h0);
  endmodule`;
  const { counts } = await reportOf([{ path: 'm.v', text }]);
  expect(counts[0]).toMatchObject({ kind: 'lfsr', period: 65535, polynomial: [16, 14, 13, 11, 0] });
  const waves = await wavesOf([{ path: 'm.v', text }], 1_300_000);
  const stream = Array.from({ length: 64 }, (_, index) => Number(waves('q[0]').at(index * 20_000 + 5_000)));
  for (let at = 16; at < stream.length; at++)
    expect(stream[at]).toBe(stream[at - 16] ^ stream[at - 14] ^ stream[at - 13] ^ stream[at - 11]);
});
