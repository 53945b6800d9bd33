// IEEE 1364-2005 clauses 5.2.1 and 5.1.14: bit-selects, part-selects, indexed part-selects and replication.

import { expect } from 'vitest';
import { reportOf, valueAt } from '../tools/report-of';
import { published } from './published';
import { initialValue, netlistValue } from './values';

const vector = 'reg [7:0] v; initial v = 4;';

published('SEL-1', 'the bits of a vector that holds 4', async () => {
  const bits = await Promise.all(Array.from({ length: 8 }, (_, index) => initialValue(1, `v[${index}]`, vector)));
  expect(bits).toEqual(['0', '0', '1', '0', '0', '0', '0', '0']);
});

published('SEL-2', 'a bit outside the vector', async () => expect(await initialValue(1, 'v[123]', vector)).toBe('x'));

published('SEL-3', 'a bit whose index is not known', async () => {
  for (const index of ["1'bx", "1'bz", "4'b0x1z"]) expect(await initialValue(1, `v[${index}]`, vector)).toBe('x');
  expect(await netlistValue(1, 'v[i]', { v: "8'd4", i: "4'b0x1z" })).toBe('x');
});

published('SEL-4', 'constant part-selects', async () => {
  expect(await initialValue(4, 'v[3:0]', vector)).toBe('0100');
  expect(await initialValue(5, 'v[5:1]', vector)).toBe('00010');
});

/** A vector of which every bit tells its place: what stands at bit `place` is a 1 and nothing else is. */
async function bitsOf(range: string, select: string): Promise<readonly number[]> {
  const [left, right] = range.split(':').map(Number);
  const places: number[] = [];
  for (let place = Math.min(left, right); place <= Math.max(left, right); place++) {
    const digits = await initialValue(8, `v[${select}]`, `reg [${range}] v; initial begin v = 0; v[${place}] = 1; end`);
    if (digits.includes('1')) places.push(place);
  }
  return places;
}

const eightFrom = (first: number) => Array.from({ length: 8 }, (_, index) => first + index);

published('SEL-5', 'indexed part-selects of a descending vector', async () => {
  expect(await bitsOf('31:0', '0 +: 8')).toEqual(eightFrom(0));
  expect(await bitsOf('31:0', '15 -: 8')).toEqual(eightFrom(8));
});

published('SEL-6', 'indexed part-selects of an ascending vector', async () => {
  expect(await bitsOf('0:31', '0 +: 8')).toEqual(eightFrom(0));
  expect(await bitsOf('0:31', '15 -: 8')).toEqual(eightFrom(8));
});

published('SEL-7', 'a byte of a 64-bit word by a number that is not constant', async () => {
  const word = "64'h0123456789abcdef";
  const bytes = ['ef', 'cd', 'ab', '89', '67', '45', '23', '01'];
  for (const [select, byte] of bytes.entries()) {
    const digits = await netlistValue(8, 'w[8*s +: 8]', { w: word, s: `3'd${select}` });
    expect(Number.parseInt(digits, 2).toString(16).padStart(2, '0')).toBe(byte);
  }
});

published(
  'SEL-8',
  'by the standard: a write to a bit that does not exist, or is not known, writes nothing',
  async () => {
    for (const index of ['9', "1'bx"]) {
      const text = `reg [7:0] w; initial begin w = 8'h5a; w[${index}] = 1; end`;
      expect(await initialValue(8, 'w', text)).toBe('01011010');
    }
  },
);

published('SEL-8', 'in the netlist: outside writes nothing, a not known index may have written any bit', async () => {
  const text = `module m(input clk, input [3:0] i, output reg [7:0] w);
    initial w = 8'h5a;
    always @(posedge clk) w[i] <= 1;
  endmodule`;
  const written = (i: string) =>
    valueAt([{ path: 'm.v', text }], 'w', 15_000, { project: JSON.stringify({ inputs: { i } }) });
  expect(await written("4'd9")).toBe('01011010');
  expect(await written("4'bxxxx")).toBe('x1x11x1x');
});

published('SEL-9', 'a part-select that reaches over the end', async () => {
  expect(await initialValue(6, 'v[9:4]', "reg [7:0] v; initial v = 8'hA5;")).toBe('xx1010');
});

/** What is said of an 8-bit output that is given an expression; P is 32. */
async function saidOf(expression: string): Promise<readonly string[]> {
  const text = `module m(output [7:0] y); parameter P = 32; wire [3:0] a = 4'd9; assign y = ${expression}; endmodule`;
  return (await reportOf([{ path: 'm.v', text }])).findings.map(({ message }) => message);
}

published('SEL-10', 'a replication of none stands only beside something', async () => {
  expect(await saidOf("{32-P{1'b1}}")).toEqual([expect.stringContaining('repeats zero times and stands alone')]);
  expect(await saidOf("{{32-P{1'b1}}}")).toEqual([expect.stringContaining('repeats zero times and stands alone')]);
  expect(await saidOf("{{32-P{1'b1}}, a}")).toEqual([]);
  expect(await initialValue(4, "{{32-P{1'b1}}, 4'd9}", 'parameter P = 32;')).toBe('1001');
});

published('SEL-11', 'a replication whose factor is not known is told', async () => {
  expect(await saidOf("{1'bx{a}}")).toEqual([expect.stringContaining("1'bx")]);
  expect(await saidOf("{1'bz{a}}")).toEqual([expect.stringContaining("1'bz")]);
});
