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

/** Harris & Harris, Ex. 3.10 to 3.13: ps; typical values stand between. */
const pipeline = {
  clockToQ: { first: [30, 55, 80] },
  logic: { gate: [25, 32, 40], buffer: [25, 32, 40] },
  setup: 50,
  hold: 60,
};

/** Three gates on the longest way, one on the shortest; `buffered`: a buffer more on that. `late`: clocks 50 ps later. */
function harris({ buffered = false, late = [] as readonly string[] }): string {
  const clockOf = (register: string) => (late.includes(register) ? 'delayed' : 'clk');
  return `\`timescale 1ps/1ps
  module m(input clk, output reg y, z);
    reg a, b, c, d;
    wire delayed, n1, n2, n3, s, t;
    assign #50 delayed = clk;
    initial {a, b, c, d, y, z} = 0;
    always @(posedge ${clockOf('launch')}) {a, b, c, d} <= {b, c, d, ~a};
    and (n1, a, b);
    and (n2, n1, c);
    and (n3, n2, d);
    or (s, c, d);
    ${buffered ? 'buf (t, s);' : 'assign t = s;'}
    always @(posedge ${clockOf('capture')}) y <= n3;
    always @(posedge ${clockOf('capture')}) z <= t;
  endmodule`;
}

async function judged(options: Parameters<typeof harris>[0]) {
  const settings = { delays: 'book', delaySets: { book: pipeline }, clocks: { clk: { periodPs: 1000 } } };
  const { domains, findings } = await reportOf([{ path: 'm.v', text: harris(options) }], {
    project: JSON.stringify(settings),
  });
  const timing = findings.filter(({ id }) => id === 'setup-hold' || id === 'skewed-transfer');
  return { period: domains[0].leastPeriod?.ps, timing };
}

published('TB-19', 'a pipeline whose shortest way is too short', async () => {
  const { period, timing } = await judged({});
  expect(period).toBe(250);
  const held = timing.filter(({ signals }) => signals.includes('z'));
  expect(held).toMatchObject([
    { id: 'setup-hold', facts: { check: 'hold', gapPs: 55, limitMaxPs: 60, marginMinPs: -5 } },
  ]);
});

published('TB-20', 'a buffer in the short way', async () => {
  const { period, timing } = await judged({ buffered: true });
  expect(period).toBe(250);
  expect(timing.filter(({ signals }) => signals.includes('z'))).toEqual([]);
});

published(['TB-21', 'TB-24'], '50 ps of skew: 300 ps, and both ways are too short', async () => {
  expect((await judged({ late: ['launch'] })).period).toBe(300);
  for (const buffered of [false, true]) {
    const { timing } = await judged({ buffered, late: ['capture'] });
    const [{ facts, id }] = timing.filter(({ signals }) => signals.includes('z'));
    expect(id).toBe('skewed-transfer');
    expect(Number(facts.dataAfterClockMinPs)).toBe((buffered ? 80 : 55) - 50);
    expect(Number(facts.dataAfterClockMinPs)).toBeLessThan(60);
  }
});
