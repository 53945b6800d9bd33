// Least clock periods of textbook circuits, as the report has them, and the hold times that they keep, as the waves do.

import { expect } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

/** ps: Brown & Vranesic's flip-flop, its inverter and its gate of two inputs. */
const set = { clockToQ: { first: [800, 1000, 1000] }, logic: { inverter: 1100, gate: 1200 }, setup: 600, hold: 400 };

const stated = (clocks: object = {}) => ({
  project: JSON.stringify({ delays: 'book', delaySets: { book: set }, inputs: { en: 1 }, clocks }),
});

async function leastPeriodOf(text: string) {
  const { domains } = await reportOf([{ path: 'm.v', text }], stated());
  return domains[0].leastPeriod?.ps;
}

/** Whether every sample is a known one at this period, ps. */
async function keepsItsTimes(text: string, periodPs: number) {
  const wave = await wavesOf([{ path: 'm.v', text }], 40 * periodPs, stated({ clk: { periodPs } }));
  return wave('q').changes.every(({ value }) => !value.includes('x'));
}

published('TB-22', 'a toggle flip-flop with one inverter', async () => {
  const text = `module m(input clk, en, output reg q);
    initial q = 0;
    always @(posedge clk) q <= ~q;
  endmodule`;
  expect(await leastPeriodOf(text)).toBe(2700);
  expect(1e6 / 2700).toBeCloseTo(370.37, 2);
  expect([await keepsItsTimes(text, 2700), await keepsItsTimes(text, 2698)]).toEqual([true, false]);
});

published('TB-23', 'a counter with its carry through three gates', async () => {
  const text = `module m(input clk, en, output reg [3:0] q);
    wire [3:0] c;
    initial q = 0;
    assign c[0] = en;
    assign c[1] = c[0] & q[0];
    assign c[2] = c[1] & q[1];
    assign c[3] = c[2] & q[2];
    always @(posedge clk) q <= q ^ c;
  endmodule`;
  expect(await leastPeriodOf(text)).toBe(6400);
  expect(1e6 / 6400).toBe(156.25);
  expect([await keepsItsTimes(text, 6400), await keepsItsTimes(text, 6398)]).toEqual([true, false]);
});
