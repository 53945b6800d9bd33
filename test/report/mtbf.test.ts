// Mean times between failures against textbooks. Of a circuit: Ginosar's figures (Metastability and Synchronizers: A
// Tutorial, IEEE Design & Test 2011): τ 10 ps, window 20 ps, clock 1 GHz, data 100 MHz, one cycle: 4 · 10^29 years. Of the
// formula alone: Wakerly, Digital Design, 3rd ed., section 8.9. Book values are rounded: 3 % is allowed.
import { describe, expect, it } from 'vitest';
import { mtbfLog10Seconds } from '../../server/src/predict/metastability';
import { reportOf } from '../tools/report-of';

const year = 365.25 * 24 * 3600;
const within = 0.013; // log10(1.03)

/** `s` changes at every rising edge of `there`. */
const two = `module two(input there, input here, output reg b);
  reg s, a;
  initial {s, a, b} = 0;
  always @(posedge there) s <= ~s;
  always @(posedge here) a <= s;
  always @(posedge here) b <= a;
endmodule
`;

const part = { clockToQ: { first: 0 }, tau: 10, window: 20 };
const clocks = { there: { periodPs: 10_000 }, here: { periodPs: 1000 } };

async function mtbfOf(text: string, set: object = part, more: object = {}) {
  const project = JSON.stringify({ clocks, delays: 'part', delaySets: { part: set }, ...more });
  const { crossings } = await reportOf([{ path: 'two.v', text }], { project });
  return crossings.map(({ mtbfLog10Seconds }) => mtbfLog10Seconds);
}

describe('the mean time between failures', () => {
  it('of two flip-flops is the book’s', async () => {
    const [found] = await mtbfOf(two);
    // e^100 / (20 ps · 1 GHz · 100 MHz), worked by hand: 43.4294 - 6.3010.
    expect(found).toBeCloseTo(37.1284, 4);
    expect(Math.abs((found ?? 0) - Math.log10(4.26e29 * year))).toBeLessThan(within);
  });

  it('of three has one period more, less clock-to-output and setup of each', async () => {
    const three = two
      .replace('output reg b', 'output reg c')
      .replace('reg s, a;', 'reg s, a, b;')
      .replace('endmodule', '  always @(posedge here) c <= b;\nendmodule');
    const [found] = await mtbfOf(three, { ...part, clockToQ: { first: 100 }, setup: 50 });
    expect(found).toBeCloseTo(((2 * 850) / 10) * Math.LOG10E - Math.log10(20e-12 * 1e9 * 1e8), 6);
  });

  it('follows how often the source changes', async () => {
    const slow = two
      .replace('s <= ~s', 's <= n == 4')
      .replace('reg s, a;', 'reg s, a; reg [3:0] n = 0; always @(posedge there) n <= n == 9 ? 0 : n + 1;');
    const [once, tenth] = [await mtbfOf(two), await mtbfOf(slow)];
    // Two changes in ten periods where there was one in each.
    expect((tenth[0] ?? 0) - (once[0] ?? 0)).toBeCloseTo(Math.log10(5), 6);
  });

  it('is not told without τ and window, of one flip-flop, of a port, or on half a period', async () => {
    expect(await mtbfOf(two, { clockToQ: { first: 0 }, tau: 10 })).toEqual([null]);
    expect(await mtbfOf(two.replace('b <= a;', 'b <= ~a;'))).toEqual([null]);
    expect(await mtbfOf(two.replace('posedge here) b', 'negedge here) b'))).toEqual([null]);
  });

  it.each([
    ['74LS74 at 10 MHz', 80, 1.5, 0.4, 10e6, 100e3, 3.633e11],
    ['74LS74 at 16 MHz', 42.5, 1.5, 0.4, 16e6, 100e3, 3.154],
    ['74ALS74 at 16 MHz', 42.5, 1, 8.7e-6, 16e6, 100e3, 2.06e11],
  ])('by the formula: %s', (_, resolutionNs, tauNs, window, clockHertz, changesPerSecond, seconds) => {
    const figures = { resolution: resolutionNs * 1e-9, tau: tauNs * 1e-9, window, clockHertz, changesPerSecond };
    expect(Math.abs((mtbfLog10Seconds(figures) ?? 0) - Math.log10(seconds))).toBeLessThan(within);
  });

  it('leaves the range of numbers without harm: e^500 / 200000 s is 10^204.3 years', () => {
    const figures = { resolution: 5e-9, tau: 10e-12, window: 50e-12, clockHertz: 200e6, changesPerSecond: 20e6 };
    expect((mtbfLog10Seconds(figures) ?? 0) - Math.log10(year)).toBeCloseTo(204.3, 1);
  });

  it('is none of what never changes', () => {
    const figures = { resolution: 1, tau: 1, window: 1, clockHertz: 1, changesPerSecond: 0 };
    expect(mtbfLog10Seconds(figures)).toBe(null);
  });
});
