// Codes and counters of textbooks and standards, as designs read from their predicted waves.

import { expect } from 'vitest';
import { reportOf, valueAt, wavesOf } from '../tools/report-of';
import { published } from './published';
import { netlistValue } from './values';

published('FUN-27', 'Hamming (7,4), in the order p1 p2 d1 p4 d2 d3 d4', async () => {
  const encoded = (d: string) =>
    netlistValue(7, '{d[3]^d[2]^d[0], d[3]^d[1]^d[0], d[3], d[2]^d[1]^d[0], d[2], d[1], d[0]}', { d: `4'b${d}` });
  expect(await encoded('1011')).toBe('0110011');
  expect(await encoded('0001')).toBe('1101001');
});

published('FUN-28', 'binary to decimal by shifting and adding three: 243', async () => {
  const text = `module m(input clk, output reg [11:0] digits);
    reg [7:0] binary; reg [3:0] count;
    wire [3:0] ones = digits[3:0] + (digits[3:0] > 4 ? 4'd3 : 4'd0);
    wire [3:0] tens = digits[7:4] + (digits[7:4] > 4 ? 4'd3 : 4'd0);
    wire [3:0] hundreds = digits[11:8] + (digits[11:8] > 4 ? 4'd3 : 4'd0);
    initial begin digits = 0; binary = 243; count = 0; end
    always @(posedge clk) if (count != 8) begin
      count <= count + 1;
      {digits, binary} <= {hundreds, tens, ones, binary} << 1;
    end
  endmodule`;
  const digits = (await wavesOf([{ path: 'm.v', text }], 200_000))('digits');
  const passed = Array.from({ length: 9 }, (_, index) => Number.parseInt(digits.at(index * 20_000 + 15_000), 2));
  const expected = ['1', '3', '7', '15', '30', '60', '121', '243', '243'];
  expect(passed.map((value) => value.toString(16))).toEqual(expected);
});

published('FUN-29', 'the two halves of each bit, as IEEE 802.3 clause 7 has them: 10110', async () => {
  // One root edge in the middle of each bit, one between two.
  const text = `module m(input clk, output reg line);
    reg [4:0] bits; reg half;
    initial begin bits = 5'b10110; half = 0; line = 0; end
    always @(posedge clk) begin
      half <= ~half;
      line <= bits[4] ~^ half;
      if (half) bits <= bits << 1;
    end
  endmodule`;
  const line = (await wavesOf([{ path: 'm.v', text }], 220_000))('line');
  const halves = Array.from({ length: 10 }, (_, index) => line.at(index * 20_000 + 15_000)).join('');
  expect(halves).toBe('0110010110');
});

published('FUN-30', 'sixteen bits preset on overflow divide by 40,000', async () => {
  const text = `module m(input clk, output reg [15:0] count, output full);
    assign full = &count;
    initial count = 16'h63C0;
    always @(posedge clk) count <= full ? 16'h63C0 : count + 16'd1;
  endmodule`;
  const [count] = (await reportOf([{ path: 'm.v', text }])).counts;
  expect(count).toMatchObject({ period: 40_000, values: expect.arrayContaining(['25536', '25537']) });
  expect(await valueAt([{ path: 'm.v', text }], 'count', 0)).toBe((25_536).toString(2).padStart(16, '0'));
});

published('TB-10', 'moduli multiply: 12 MHz through 5, 8 and 10', async () => {
  const divider = (name: string, modulus: number, clock: string) => `
    reg [3:0] ${name}; initial ${name} = 0;
    wire ${name}_end = ${name} == ${modulus - 1};
    reg ${name}_out; initial ${name}_out = 0;
    always @(posedge ${clock}) begin ${name} <= ${name}_end ? 4'd0 : ${name} + 4'd1; ${name}_out <= ${name}_end; end`;
  const text = `module m(input clk, output reg last);
    ${divider('a', 5, 'clk')} ${divider('b', 8, 'a_out')} ${divider('c', 10, 'b_out')}
    initial last = 0;
    always @(posedge c_out) last <= ~last;
  endmodule`;
  const { registers } = await reportOf([{ path: 'm.v', text }], {
    project: JSON.stringify({ clocks: { clk: { periodPs: 83_333 } } }),
  });
  expect(registers.find(({ signal }) => signal === 'c_out')?.ratio).toBe('400/1');
  expect(12_000_000 / 400).toBe(30_000);
});

published('TB-17', 'full and empty from Gray pointers of four bits', async () => {
  const full = (write: string, read: string) => netlistValue(1, 'w == {~r[3:2], r[1:0]}', { w: write, r: read });
  const gray = (value: number) => `4'b${(value ^ (value >> 1)).toString(2).padStart(4, '0')}`;
  expect([gray(8), gray(0), gray(12), gray(4)]).toEqual(["4'b1100", "4'b0000", "4'b1010", "4'b0110"]);
  expect([await full(gray(8), gray(0)), await full(gray(12), gray(4))]).toEqual(['1', '1']);
  expect(await full(gray(7), gray(0))).toBe('0');
  expect(await netlistValue(1, 'w == r', { w: gray(5), r: gray(5) })).toBe('1');
});

published('TB-8', 'a ripple decade cleared by its own state ten', async () => {
  const text = `\`timescale 1ns / 1ps
  module m(input clk, output reg [3:0] q);
    wire clear_n;
    nand #5 (clear_n, q[1], q[3]);
    initial q = 0;
    always @(negedge clk or negedge clear_n) if (!clear_n) q[0] <= #10 1'b0; else q[0] <= #10 ~q[0];
    always @(negedge q[0] or negedge clear_n) if (!clear_n) q[1] <= #10 1'b0; else q[1] <= #10 ~q[1];
    always @(negedge q[1] or negedge clear_n) if (!clear_n) q[2] <= #10 1'b0; else q[2] <= #10 ~q[2];
    always @(negedge q[2] or negedge clear_n) if (!clear_n) q[3] <= #10 1'b0; else q[3] <= #10 ~q[3];
  endmodule`;
  const project = JSON.stringify({ clocks: { clk: { periodPs: 200_000 } } });
  const waves = await wavesOf([{ path: 'm.v', text }], 2_500_000, { project });
  const edges = waves('clk')
    .changes.filter(({ value }) => value === '0')
    .map(({ at }) => at);
  const settled = edges.slice(0, 11).map((at) => Number.parseInt(waves('q').at(at + 100_000), 2));
  expect(settled).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 0, 1]);
  const tenth = edges[9];
  const inTen = (name: string) =>
    waves(name)
      .changes.filter(({ at }) => at >= tenth && at < tenth + 100_000)
      .map(({ at, value }) => [(at - tenth) / 1000, value]);
  expect(inTen('q')).toEqual([
    [10, '1000'],
    [20, '1010'],
    [35, '0000'],
  ]);
  expect(inTen('clear_n')).toEqual([
    [25, '0'],
    [40, '1'],
  ]);
  expect(inTen('q[1]')).toEqual([
    [20, '1'],
    [35, '0'],
  ]);
});
