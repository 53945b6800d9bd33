// Mean times between failures of a two-flip-flop synchronizer, out of the report. Book values are rounded: 3 % is allowed.

import { expect } from 'vitest';
import { reportOf } from '../tools/report-of';
import { published } from './published';

const year = 365.25 * 24 * 3600;

interface Figures {
  /** ps */
  readonly tau: number;
  readonly window: number;
  /** What a receiving period leaves to settle is that period less this; ps. */
  readonly taken: number;
  readonly receivingPeriod: number;
  /** From one change of the source to the next, ps. */
  readonly changesEvery: number;
}

/** log10 of the seconds; `bits` flip-flops that change together. */
async function mtbf({ changesEvery, receivingPeriod, taken, tau, window }: Figures, bits = 1): Promise<number> {
  const text = `module two(input there, here, output reg [${bits - 1}:0] b);
    reg [${bits - 1}:0] s = 0, a = 0;
    always @(posedge there) s <= ~s;
    always @(posedge here) begin a <= s; b <= a; end
  endmodule`;
  const project = JSON.stringify({
    clocks: { there: { periodPs: changesEvery }, here: { periodPs: receivingPeriod } },
    delaySets: { part: { sheet: null, conditions: null, clockToQ: { first: taken }, tau, window } },
    delays: 'part',
  });
  const { crossings } = await reportOf([{ path: 'two.v', text }], { project });
  const found = crossings.find(({ to }) => to.startsWith('a'))?.mtbfLog10Seconds;
  if (found === null || found === undefined) throw new Error('no mean time between failures is told');
  return found;
}

function expectSeconds(log10: number, seconds: number, within = 0.03): void {
  expect(Math.abs(log10 - Math.log10(seconds))).toBeLessThan(Math.log10(1 + within));
}

const hertz = (value: number) => 1e12 / value;

published('MTB-1', 'the 74LS74 at 10 MHz', async () => {
  const figures = { tau: 1_500, window: 4e11, taken: 20_000, receivingPeriod: 100_000, changesEvery: hertz(100e3) };
  expectSeconds(await mtbf(figures), 3.6e11);
});

published('MTB-2', 'the same at 16 MHz', async () => {
  const figures = { tau: 1_500, window: 4e11, taken: 20_000, receivingPeriod: 62_500, changesEvery: hertz(100e3) };
  expectSeconds(await mtbf(figures), 3.1);
});

published('MTB-3', 'the 74ALS74 at 16 MHz', async () => {
  const figures = { tau: 1_000, window: 8.7e6, taken: 20_000, receivingPeriod: 62_500, changesEvery: hertz(100e3) };
  expectSeconds(await mtbf(figures), 2.06e11);
});

published('MTB-4', 'failures of several synchronizers add', async () => {
  const figures = { tau: 1_500, window: 4e11, taken: 20_000, receivingPeriod: 62_500, changesEvery: hertz(100e3) };
  expect((await mtbf(figures)) - (await mtbf(figures, 3))).toBeCloseTo(Math.log10(3), 6);
});

published('MTB-5', 'one cycle of 1 GHz', async () => {
  const figures = { tau: 10, window: 20, taken: 0, receivingPeriod: 1_000, changesEvery: hertz(100e6) };
  expectSeconds(await mtbf(figures), 4.26e29 * year);
});

published('MTB-6', 'beyond the range of numbers', async () => {
  const figures = { tau: 10, window: 50, taken: 0, receivingPeriod: 5_000, changesEvery: 50_000 };
  expect((await mtbf(figures)) - Math.log10(year)).toBeCloseTo(204.3, 1);
});

published('MTB-7', 'the maker’s constants, after 20, 30 and 40 ns', async () => {
  // C1 is the window in seconds; C2 = 0.959 per ns is a τ of 1043 ps.
  for (const [settling, seconds] of [
    [20_000, 467],
    [30_000, 6.83e6],
    [40_000, 9.98e10],
  ]) {
    const taken = 1_000_000 - settling;
    const figures = { tau: 1_043, window: 915_000, taken, receivingPeriod: 1_000_000, changesEvery: hertz(500e3) };
    expectSeconds(await mtbf(figures), seconds);
  }
});

published('MTB-8', 'how often it is entered: what no time is left for', async () => {
  const figures = { tau: 10, window: 50, taken: 5_000, receivingPeriod: 5_000, changesEvery: hertz(200e3) };
  expectSeconds(await mtbf(figures), 1 / 2000, 1e-9);
});

published('MTB-9', 'the least period for one failure a year', async () => {
  const changes = { tau: 200, window: 150, taken: 500, changesEvery: 5e12 };
  const log10Year = Math.log10(Math.PI * 1e7);
  expect(await mtbf({ ...changes, receivingPeriod: 3_036 })).toBeGreaterThan(log10Year);
  expect(await mtbf({ ...changes, receivingPeriod: 3_024 })).toBeLessThan(log10Year);
});
