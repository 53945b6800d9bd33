// From Verilog text to waves: text, netlist, clock network, assumed drive, timed run. Published values from text, and the
// project's own examples through to the end.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySet } from '../../server/src/delays/built-in-sets';
import type { DelaySet } from '../../server/src/delays/delay-set';
import type { DriveOptions } from '../../server/src/predict/drive';
import { driveOf } from '../../server/src/predict/drive-of';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { nothingStated } from '../clocks/describe-clocks';
import { netlistOf } from '../tools/elaborated';
import { describeRun, finish, plainSet, type Timed } from './timed';

interface TextOptions {
  readonly delays?: string | DelaySet;
  /** ns */
  readonly until: number;
  readonly drive?: Partial<DriveOptions>;
  readonly start?: '0' | '1' | 'x';
}

async function run(text: string, { delays = 'unit', until, drive = {}, start = '0' }: TextOptions): Promise<Timed> {
  const { netlist, complaints } = await netlistOf(text);
  expect(complaints).toEqual([]);
  const network = finish(findClocks(netlist, nothingStated));
  const options = { clocks: {}, resets: {}, inputs: {}, start, ...drive };
  const delaySet = typeof delays === 'string' ? builtInDelaySet(delays) : delays;
  if (delaySet === null) throw new Error(`no set ${delays}`);
  const driven = driveOf(netlist, network, options);
  const waves = predictWaves({
    netlist,
    network,
    drive: driven,
    delaySet,
    until: until * 1000,
    limits: limitDefaults,
    start,
  });
  return describeRun(netlist, finish(waves));
}

const ripple = (stages: number) => `
module ripple(input clk, output reg [${stages - 1}:0] q);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
${Array.from({ length: stages - 1 }, (_, stage) => `  always @(negedge q[${stage}]) q[${stage + 1}] <= ~q[${stage + 1}];`).join('\n')}
endmodule`;

const slowClock = (period: number) => ({ clocks: { clk: { periodPs: period * 1000, highPs: null, phasePs: null } } });

describe('ripple counters from text', () => {
  it('TB-6: passes 0110, 0100, 0000 on the way from 7 to 8', async () => {
    const counter = await run(ripple(4), {
      delays: plainSet('tb', { register: 10 }),
      until: 900,
      drive: slowClock(100),
    });
    expect([805, 810, 820, 830, 840].map((time) => counter.at('q', time))).toEqual([
      '0111',
      '0110',
      '0100',
      '0000',
      '1000',
    ]);
    expect(counter.doubts).toEqual([]);
  });

  it.each([
    ['DS-1, one half', '74HC393', 4, 27],
    ['DS-1, both halves', '74HC393', 8, 54],
    ['DS-2', '74HCT393', 4, 38],
    ['DS-3', '74HC4040', 12, 102],
    ['DS-4', '74HCT4040', 12, 104],
  ] as const)('%s: %s with %i stages settles in %i ns', async (_, delays, stages, settle) => {
    const edges = 2 ** (stages - 1);
    const counter = await run(ripple(stages), { delays, until: 200 * (edges + 1), drive: slowClock(200) });
    const edge = 200 * edges;
    const top = `1${'0'.repeat(stages - 1)}`;
    expect(counter.at('q', edge + settle)).toBe(top);
    expect(counter.before('q', edge + settle)).not.toBe(top);
  });

  it('TB-8: a decade cleared by a nand of Q1 and Q3', async () => {
    const text = `
\`timescale 1ns/1ns
module decade(input clk, output reg [3:0] q);
  wire clear_n;
  assign #5 clear_n = ~(q[1] & q[3]);
  initial q = 0;
  always @(negedge clk or negedge clear_n) if (!clear_n) q[0] <= 0; else q[0] <= ~q[0];
  always @(negedge q[0] or negedge clear_n) if (!clear_n) q[1] <= 0; else q[1] <= ~q[1];
  always @(negedge q[1] or negedge clear_n) if (!clear_n) q[2] <= 0; else q[2] <= ~q[2];
  always @(negedge q[2] or negedge clear_n) if (!clear_n) q[3] <= 0; else q[3] <= ~q[3];
endmodule`;
    const decade = await run(text, { delays: plainSet('tb8', { register: 10 }), until: 1190, drive: slowClock(100) });
    const readings = Array.from({ length: 12 }, (_, edge) => Number.parseInt(decade.at('q', 100 * edge + 60), 2));
    expect(readings).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 0, 1]);
    expect([1010, 1020, 1035].map((time) => decade.at('q', time))).toEqual(['1000', '1010', '0000']);
    expect(decade.wave('clear_n')).toBe('1 @1025:0 @1040:1');
  });
});

describe('delays written in the text', () => {
  it('HZ-1: X·Z̄ + Y·Z with gate delays 3, 1, 1, 1', async () => {
    const text = `
\`timescale 1ns/1ps
module hazard(input clk, output f, output reg z);
  wire n, a, b;
  wire x = 1, y = 1;
  initial z = 1;
  always @(posedge clk) z <= ~z;
  not #3 (n, z);
  and #1 (a, x, n), (b, y, z);
  or #1 (f, a, b);
endmodule`;
    const hazard = await run(text, { delays: 'ideal', until: 190, drive: slowClock(100) });
    // z falls at 50 and rises at 150.
    expect(hazard.wave('f')).toBe('1 @52:0 @55:1');
  });
  it('DLY-1, DLY-2: a pulse of 6 through #10 is lost, one of 14 passes', async () => {
    const text = `
\`timescale 1ns/1ns
module pulses(input clk, output y);
  assign #10 y = clk;
endmodule`;
    const pulse = (high: number) => ({ clocks: { clk: { periodPs: 100_000, highPs: high * 1000, phasePs: 20_000 } } });
    expect((await run(text, { until: 110, drive: pulse(6) })).wave('y')).toBe('0');
    expect((await run(text, { until: 110, drive: pulse(14) })).wave('y')).toBe('0 @30:1 @44:0');
  });
  it('clock to output: q <= #3 d', async () => {
    const text = `
\`timescale 1ns/100ps
module late(input clk, output reg q);
  initial q = 0;
  always @(posedge clk) q <= #2.5 ~q;
endmodule`;
    expect((await run(text, { until: 35 })).wave('q')).toBe('0 @12.5:1 @32.5:0');
  });
});

describe('the examples', () => {
  const folder = new URL('../../examples/', import.meta.url);
  it.each(readdirSync(folder).filter((name) => name.endsWith('.v')))('%s runs and moves', async (name) => {
    const { netlist } = await netlistOf([{ path: name, text: readFileSync(new URL(name, folder), 'utf8') }]);
    const network = finish(findClocks(netlist, nothingStated));
    const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start: '0' });
    for (const delaySet of ['unit', 'ideal', '74HC393']) {
      const set = builtInDelaySet(delaySet) as DelaySet;
      const waves = finish(
        predictWaves({ netlist, network, drive, delaySet: set, until: 2e6, limits: limitDefaults, start: '0' }),
      );
      expect(waves.cut).toBe(null);
      expect(waves.changes.count).toBeGreaterThan(200);
      const moving = netlist.registers.filter(({ node, width }) =>
        Array.from({ length: width }, (_, bit) => waves.changesOf({ node, bit }).length).some((count) => count > 0),
      );
      expect(moving.length).toBeGreaterThan(0);
    }
  });
});
