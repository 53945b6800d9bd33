// How often outputs and enables come and go, and how far that is from what a person wishes. The numbers are divisions of
// a clock, done by hand; the baud rate row is common practice: 50 MHz / 5208 = 9600.6 Hz, 0.0064 % above 9600.
import { describe, expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf } from '../tools/report-of';

const decade = [
  {
    path: 'decade.v',
    text: `module decade(input clk, a, output reg [3:0] n, output tick, never, high, gated, passed, copy, output reg slow);
  initial {n, slow} = 0;
  always @(posedge clk) n <= n == 9 ? 0 : n + 1;
  assign tick = n == 9;
  assign never = n == 15;
  assign high = ~(n == 4);
  assign gated = clk & (n == 3);
  assign passed = a;
  assign copy = clk;
  always @(posedge clk) if (tick) slow <= ~slow;
endmodule
`,
  },
];

async function rates(project: object = {}) {
  return (await reportOf(decade, { project: JSON.stringify(project) })).rates;
}

async function rateOf(signal: string, project: object = {}) {
  return (await rates(project)).find((rate) => rate.signal === signal);
}

describe('rates', () => {
  it('of outputs and enables are exact', async () => {
    const found = (await rates()).map(({ high, period, signal }) => [signal, period?.periods, high?.periods]);
    expect(found).toEqual([
      ['n[0]', '2/1', '1/1'],
      ['n[1]', '5/1', '2/1'],
      ['n[2]', '10/1', '4/1'],
      ['n[3]', '10/1', '2/1'],
      ['tick', '10/1', '1/1'],
      ['high', '10/1', '9/1'],
      ['gated', '10/1', '1/2'],
      ['copy', '1/1', '1/2'],
      ['slow', '20/1', '10/1'],
    ]);
  });

  it('are in seconds of the drive', async () => {
    expect(await rateOf('tick')).toMatchObject({
      period: { seconds: 2e-7 },
      high: { seconds: 2e-8 },
      wished: null,
      error: null,
    });
    const slower = await rateOf('tick', { clocks: { clk: { periodPs: 1_000_000, highPs: 250_000 } } });
    expect(slower?.period?.seconds).toBeCloseTo(1e-5, 12);
    const gated = await rateOf('gated', { clocks: { clk: { periodPs: 1_000_000, highPs: 250_000 } } });
    expect(gated?.high).toMatchObject({ periods: '1/4' });
  });

  it('that are wished stand beside what is found', async () => {
    const report = await reportOf(decade, { project: JSON.stringify({ rates: { tick: 4e6, slow: 2.5e6, never: 5 } }) });
    const wished = report.rates.filter((rate) => rate.wished !== null);
    expect(wished.map(({ error, signal }) => [signal, error === null ? null : Number(error.toFixed(9))])).toEqual([
      ['tick', 0.25],
      ['never', null],
      ['slow', 0],
    ]);
    const text = writeText(report);
    expect(text).toMatch(/tick +5 MHz +wished 4 MHz +25 % too fast/);
    expect(text).toMatch(/never +not told: it does not come and go, or is unknown at some time +wished 5 Hz/);
    expect(text).toMatch(/slow +2.5 MHz +wished 2.5 MHz +as wished/);
    expect(writeText(await reportOf(decade))).not.toContain('wished');
  });

  it('of a long divider are exact', async () => {
    const text = `module baud(input clk, output tick);
  reg [12:0] n = 0;
  always @(posedge clk) n <= n == 5207 ? 0 : n + 1;
  assign tick = n == 5207;
endmodule
`;
    const { rates } = await reportOf([{ path: 'baud.v', text }], {
      project: JSON.stringify({ rates: { tick: 9600 } }),
    });
    expect(rates).toMatchObject([{ signal: 'tick', period: { periods: '5208/1' }, high: { periods: '1/1' } }]);
    expect(rates[0].error).toBeCloseTo(50e6 / 5208 / 9600 - 1, 12);
  });

  it('of an inner signal are told where they are wished, and so are those of an enable', async () => {
    const text = `module inner(input clk, output reg [1:0] q);
  reg [1:0] n = 0;
  initial q = 0;
  wire every = n == 2;
  always @(posedge clk) n <= n == 2 ? 0 : n + 1;
  always @(posedge clk) if (every) q <= q + 1;
endmodule
`;
    const files = [{ path: 'inner.v', text }];
    expect((await reportOf(files)).rates.map(({ period, signal }) => `${signal} ${period?.periods}`)).toEqual([
      'q[0] 6/1',
      'q[1] 12/1',
      'every 3/1',
    ]);
    const { rates } = await reportOf(files, { project: JSON.stringify({ rates: { 'n[0]': 1e6 } }) });
    expect(rates.find(({ signal }) => signal === 'n[0]')).toMatchObject({ period: { periods: '3/1' }, wished: 1e6 });
  });

  it('are not told of what hears something unproven', async () => {
    const text = `module open(input clk, d, output y);
  reg [39:0] n = 0;
  always @(posedge clk) n <= n + (n[39] ? 3 : 7);
  assign y = n[3] & n[39];
endmodule
`;
    const { rates } = await reportOf([{ path: 'open.v', text }], { project: JSON.stringify({ rates: { y: 5 } }) });
    expect(rates).toMatchObject([
      { signal: 'y', period: null, high: null, error: null, why: 'no repetition is proven of what it hears' },
    ]);
  });
});
