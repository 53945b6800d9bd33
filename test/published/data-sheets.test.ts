// Parts by their data sheets: the sets that come with the tool, and sets of a project's own with the figures of a sheet.

import { describe, expect } from 'vitest';
import { type ReportOptions, reportOf } from '../tools/report-of';
import { published } from './published';

const run = (text: string, options: ReportOptions) => reportOf([{ path: 'm.v', text }], options);
const project = (settings: object): ReportOptions => ({ project: JSON.stringify(settings) });

function ripple(bits: number, extra = ''): string {
  const stages = Array.from({ length: bits - 1 }, (_, i) => `always @(negedge q[${i}]) q[${i + 1}] <= ~q[${i + 1}];`);
  return `module m(input clk, output reg [${bits - 1}:0] q${extra === '' ? '' : ', output reg y'});
    initial q = 0;
    always @(negedge clk) q[0] <= ~q[0];
    ${stages.join('\n    ')}
    ${extra}
  endmodule`;
}

describe('ripple counters', () => {
  published('DS-5', '74HC4060: from the oscillator to Q3, and to Q13', async () => {
    const settled = async (bits: number) => (await run(ripple(bits), { delays: '74HC4060' })).chains[0];
    expect((await settled(4)).settle?.typ).toBe(31_000);
    const whole = await settled(14);
    expect(whole.settle?.typ).toBe(91_000);
    expect(whole.toggleClockHz).toBeCloseTo(87e6, -2);
  });

  published(['DS-6', 'DS-7'], 'HEF4024B as it comes with the tool: typical and largest wrap', async () => {
    const wraps = ['5V', '10V', '15V'].map(async (supply) => {
      const [chain] = (await run(ripple(7), { delays: `HEF4024B-${supply}` })).chains;
      return [chain.settle?.typ, chain.settle?.max, chain.toggleClockHz];
    });
    expect(await Promise.all(wraps)).toEqual([
      [460_000, 920_000, 5e6],
      [190_000, 375_000, 13e6],
      [145_000, 290_000, 18e6],
    ]);
  });

  published('DS-9', "'LS93: the two halves in series, stage by stage", async () => {
    const stage = (rise: number, fall: number) => ({ clockToQ: { first: { rise: rise * 1000, fall: fall * 1000 } } });
    const { chains } = await run(
      ripple(4),
      project({
        delays: 'ls93',
        // A to QA, then B to QB, QC and QD as differences: largest values at 15 pF.
        delaySets: { ls93: { sheet: 'LS93', ...stage(16, 18), period: 1e6 / 32 } },
        overrides: { 'q[1]': stage(16, 21), 'q[2]': stage(11, 14), 'q[3]': stage(16, 16) },
      }),
    );
    expect(chains[0].settle?.max).toBe(69_000);
    expect(Math.abs((chains[0].settle?.max ?? 0) - 70_000)).toBeLessThanOrEqual(1000);
    expect(chains[0].toggleClockHz).toBe(32e6);
  });

  published('DS-14', '74F393: the rate that every part reaches', async () => {
    const set = { sheet: '74F393', clockToQ: { first: 5000 }, period: [7692, 7692, 10_000] };
    const { chains } = await run(ripple(4), project({ delays: 'f393', delaySets: { f393: set } }));
    expect(chains[0].toggleClockHz).toBe(100e6);
  });

  published('DS-15', 'a watch crystal divided to 1 Hz, 2 Hz and 8 Hz', async () => {
    const { registers } = await run(ripple(15), {});
    const hertz = (bit: number) => {
      const register = registers.find(({ name }) => name === `q[${bit}]`);
      const [numerator, denominator = 1] = (register?.ratio ?? '').split('/').map(Number);
      return (32_768 * denominator) / numerator;
    };
    expect([hertz(14), hertz(13), hertz(11)]).toEqual([1, 2, 8]);
  });

  published('DS-17', '74HC393: a decode of the count must not clock anything', async () => {
    const decoded = ripple(4, 'initial y = 0; wire w = q == 4; always @(posedge w) y <= ~y;');
    const { findings } = await run(decoded, { delays: '74HC393' });
    expect(findings.find(({ id }) => id === 'glitch-into-clock')).toMatchObject({ certainty: 'certain' });
  });
});

describe('flip-flops and counters on one clock', () => {
  const toggle = 'module m(input clk, output reg q); initial q = 0; always @(posedge clk) q <= ~q; endmodule';

  published('DS-10', '74HC74 halves 76 MHz', async () => {
    const text = `module m(input clk, output reg q, r);
      initial {q, r} = 0;
      always @(posedge clk) q <= ~q;
      always @(posedge q) r <= ~r;
    endmodule`;
    const at = (periodPs: number) => run(text, project({ delays: '74HC74', clocks: { clk: { periodPs } } }));
    const { clocks, findings } = await at(13_158);
    expect(Number(clocks.find(({ signal }) => signal === 'q')?.hertz) / 1e6).toBeCloseTo(38, 2);
    expect(findings.filter(({ id }) => id === 'narrow-pulse')).toEqual([]);
    const faster = await at(13_000);
    expect(faster.findings.filter(({ id }) => id === 'narrow-pulse')).toHaveLength(1);
  });

  published('DS-11', 'DM74LS74A: a toggle loop reaches 20 MHz, the part alone 25', async () => {
    const set = { sheet: 'DM74LS74A', clockToQ: { first: { rise: 25_000, fall: 30_000 } }, setup: 20_000, logic: {} };
    const at = (periodPs: number) =>
      run(toggle, project({ delays: 'ls', delaySets: { ls: set }, clocks: { clk: { periodPs } } }));
    const { domains, findings } = await at(50_000);
    expect(domains[0].leastPeriod?.ps).toBe(50_000);
    expect(findings).toEqual([]);
    expect((await at(49_000)).findings.map(({ id }) => id)).toEqual(['setup-hold']);
    const built = await run(toggle, project({ delays: '74LS74A-15pF', clocks: { clk: { periodPs: 49_000 } } }));
    expect(built.findings.map(({ id, facts }) => [id, facts.check, facts.limitTypPs])).toEqual([
      ['setup-hold', 'setup', 20_000],
    ]);
  });

  const counter = `module m(input clk, input up, output reg [3:0] q);
    initial q = 0;
    always @(posedge clk) if (up) q <= q + 1;
  endmodule`;

  published('DS-12', 'SN74LS163: all outputs together, 25 MHz, pulses of 25 ns, set-up 20 ns', async () => {
    const at = (clock: object, up: object | string = '1') =>
      run(counter, project({ delays: '74LS163A', clocks: { clk: clock }, inputs: { up } }));
    const found = async (...given: Parameters<typeof at>) =>
      (await at(...given)).findings.map(({ facts, id }) => `${id} ${facts.check}`);
    const even = { periodPs: 100_000, highPs: 50_000, phasePs: 50_000 };
    const moved = (atPs: number) => ({
      levels: [
        { atPs: 0, value: '1' },
        { atPs, value: '0' },
      ],
    });
    expect((await at({ periodPs: 60_000 })).counts[0].steps.filter(({ passes }) => passes.length > 1)).toEqual([]);
    expect(await found(even)).toEqual([]);
    expect(await found({ periodPs: 39_000, highPs: 19_000 })).toContain('narrow-pulse period');
    expect(await found({ periodPs: 100_000, highPs: 24_000 })).toEqual(['narrow-pulse width']);
    expect(await found({ periodPs: 100_000, highPs: 25_000 })).toEqual([]);
    expect(await found(even, moved(231_000))).toEqual(['setup-hold setup']);
    expect(await found(even, moved(230_000))).toEqual([]);
    expect(await found(even, moved(250_000))).toEqual([]);
  });

  published('DS-13', '74HC163 in cascade: carry out to the next one’s enable', async () => {
    const text = `module m(input clk, output reg [1:0] low, output reg high);
      initial {low, high} = 0;
      wire carry;
      and (carry, low[1], low[0]);
      always @(posedge clk) low <= {low[1] ^ low[0], ~low[0]};
      always @(posedge clk) high <= carry;
    endmodule`;
    // 35 ns from clock to carry in two parts, 20 ns of set-up.
    const set = { sheet: '74HC163', clockToQ: { first: 25_000 }, logic: { gate: 10_000 }, setup: 20_000 };
    const { domains } = await run(text, project({ delays: 'hc163', delaySets: { hc163: set } }));
    expect(domains[0].leastPeriod?.ps).toBe(55_000);
    expect(1e6 / 55_000).toBeCloseTo(18.18, 2);
  });

  published('DS-19', '74HC165: recovery after load, and the clock pulse', async () => {
    const text = `module m(input clk, load_n, input [7:0] d, output q7);
      reg [7:0] q;
      assign q7 = q[7];
      always @(posedge clk or negedge load_n) if (!load_n) q <= 8'hA5; else q <= {q[6:0], 1'b0};
    endmodule`;
    const at = (release: number, clock: object = {}) =>
      run(
        text,
        project({
          delays: '74HC165',
          clocks: { clk: { periodPs: 100_000, phasePs: 50_000, ...clock } },
          inputs: {
            load_n: {
              levels: [
                { atPs: 0, value: '0' },
                { atPs: release, value: '1' },
              ],
            },
          },
        }),
      );
    const found = async (...given: Parameters<typeof at>) =>
      (await at(...given)).findings
        .filter(({ id }) => id === 'recovery-removal' || id === 'narrow-pulse')
        .map(({ certainty, facts }) => `${certainty} ${facts.check} ${facts.gapPs}`);
    expect(await found(231_000)).toEqual(['certain recovery 19000']);
    expect(await found(230_000)).toEqual([]);
    expect(await found(230_000, { highPs: 15_000 })).toEqual(['certain width 15000']);
    expect(await found(230_000, { highPs: 16_000 })).toEqual([]);
    const { registers } = await at(230_000);
    expect(registers[0].settles).toMatchObject({ typ: 19_000, max: 33_000 });
  });
});
