// What a test bench among the files does becomes the drive: source `text`, before anything assumed, after anything stated.

import { expect, test } from 'vitest';
import type { Report } from '../../server/src/report/report';
import { reportOf } from '../tools/report-of';

const counter = `module counter(input clk, input rst_n, input en, output reg [3:0] q);
  always @(posedge clk or negedge rst_n)
    if (!rst_n) q <= 0;
    else if (en) q <= q + 1;
endmodule
`;

const bench = (statements: string) => `\`timescale 1ns/100ps
${counter}module bench;
  reg clk, rst_n, en;
  wire [3:0] q;
  counter dut(clk, rst_n, en, q);
  ${statements}
endmodule
`;

async function driven(statements: string, project?: object): Promise<Report> {
  const options = project === undefined ? {} : { project: JSON.stringify(project) };
  return reportOf([{ path: 'a.v', text: bench(statements) }], options);
}

const usual = `initial begin clk = 0; forever #3.5 clk = ~clk; end
  initial begin rst_n = 0; en = 0; #20 rst_n = 1; #4 en = 1; end`;

test('clock, reset and input as the bench drives them, each with the place in the bench', async () => {
  const { assumptions, drive, top } = await driven(usual);
  expect(top).toBe('counter');
  expect(drive).toEqual({
    clocks: [
      {
        signal: 'clk',
        period: 7_000,
        high: 3_500,
        phase: 3_500,
        source: 'text',
        highSource: 'text',
        phaseSource: 'text',
      },
    ],
    resets: [
      { signal: 'rst_n', active: 'low', periods: 3, source: 'text', activeSource: 'text', periodsSource: 'text' },
    ],
    inputs: [
      {
        signal: 'en',
        value: '0',
        source: 'text',
        moves: { changes: [{ at: 24_000, value: '1' }], changesTotal: 1, everyPs: null },
      },
    ],
  });
  const told = assumptions.filter(({ source }) => source === 'text');
  expect(told.map(({ about, reason, span, value }) => [about, value, reason, span?.line])).toEqual([
    ['clk', '7 ns', 'the test bench bench drives clk so', 10],
    ['rst_n', 'active low until 20 ns', 'the test bench bench drives rst_n so', 10],
    ['en', "1'b0", 'the test bench bench drives en so', 10],
  ]);
});

test('the predicted count follows the bench: held until released and enabled', async () => {
  const { registers } = await driven(usual);
  expect(registers.map(({ name, startFrom }) => [name, startFrom])).toEqual([['q[3:0]', 'reset']]);
});

test('what foretick.json states goes before the bench', async () => {
  const { drive } = await driven(usual, {
    clocks: { clk: { periodPs: 10_000 } },
    resets: { rst_n: { active: 'low', periods: 1 } },
    inputs: { en: '1' },
  });
  expect(drive.clocks[0]).toMatchObject({ period: 10_000, source: 'given' });
  expect(drive.resets[0]).toMatchObject({ periods: 1, source: 'given' });
  expect(drive.inputs[0]).toEqual({ signal: 'en', value: '1', source: 'given', moves: null });
});

test('a clock made by hand, edge by edge, moves as written', async () => {
  const { drive } = await driven(`initial begin
    clk = 0; rst_n = 1; en = 1;
    #5 clk = 1; #5 clk = 0; #7 clk = 1; #5 clk = 0; #5 clk = 1;
  end`);
  expect(drive.clocks).toEqual([]);
  const [clk, rst, en] = drive.inputs;
  expect(clk?.moves?.changes.map(({ at }) => at)).toEqual([5_000, 10_000, 17_000, 22_000, 27_000]);
  // A reset that is never active is an input at its inactive level.
  expect(drive.resets).toEqual([]);
  expect([rst?.value, en?.value]).toEqual(['1', '1']);
});

test('what the bench leaves open is assumed as ever, and said', async () => {
  const { assumptions, drive } = await driven('initial begin rst_n = 1; en = 0; wait (q == 1) en = 1; end');
  expect(drive.clocks[0]).toMatchObject({ period: 20_000, source: 'setting' });
  expect(drive.inputs[1]).toMatchObject({ signal: 'en', value: '1', source: 'inferred' });
  const reasons = assumptions.filter(({ about }) => about === 'en').map(({ reason }) => reason);
  expect(reasons[0]).toContain('depends on more than its own statements');
});

test('a wave that goes on longer than it is followed says up to when', async () => {
  const { assumptions } = await driven(`${usual.replace('#4 en = 1;', 'forever #4 en = ~en;')}`);
  expect(assumptions.find(({ about }) => about === 'en')?.reason).toMatch(/followed up to .*, held from there on/);
});
