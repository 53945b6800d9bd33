// IEEE 1364-2005 clause 3.5.1: integer literals, their padding and their sign; the standard's own examples.

import { expect } from 'vitest';
import { reportOf } from '../tools/report-of';
import { published } from './published';
import { initialValue, parameterValue } from './values';

published('LIT-1', 'an unsized x fills with x', async () => {
  expect(await initialValue(12, "'hx")).toBe('xxxxxxxxxxxx');
});

published('LIT-2', 'an unsized 3x fills with zeros', async () => {
  expect(await initialValue(12, "'h3x")).toBe('00000011xxxx');
});

published('LIT-3', 'an unsized z3 fills with z', async () => {
  expect(await parameterValue(12, "'hz3")).toBe('zzzzzzzz0011');
});

published('LIT-4', 'an unsized 0z3 fills with zeros', async () => {
  expect(await parameterValue(12, "'h0z3")).toBe('0000zzzz0011');
});

published('LIT-5', 'unsized 5, x and z at 85 bits', async () => {
  expect(await initialValue(85, "'h5")).toBe(`${'0'.repeat(82)}101`);
  expect(await initialValue(85, "'hx")).toBe('x'.repeat(85));
  expect(await parameterValue(85, "'hz")).toBe('z'.repeat(85));
});

published('LIT-6', 'digits of a sized binary literal', async () => {
  expect(await initialValue(3, "3'b01x")).toBe('01x');
});

published('LIT-7', "4'shf is -1", async () => {
  expect(await initialValue(8, "4'shf")).toBe('11111111');
});

published('LIT-8', "minus 4'sd15 is 1", async () => {
  expect(await initialValue(4, "-4'sd15")).toBe('0001');
});

published('LIT-9', "minus 8'd6 is 250", async () => {
  expect(await initialValue(8, "-8'd6")).toBe('11111010');
});

published('LIT-10', "16'sb? is 16'sbz", async () => {
  expect(await parameterValue(16, "16'sb?")).toBe(await parameterValue(16, "16'sbz"));
  expect(await parameterValue(16, "16'sb?")).toBe('z'.repeat(16));
});

published('LIT-11', 'underscores', async () => {
  expect(Number.parseInt(await initialValue(32, '27_195_000'), 2)).toBe(27195000);
  expect(Number.parseInt(await initialValue(16, "16'b0011_0101_0001_1111"), 2)).toBe(0x351f);
  expect(Number.parseInt(await initialValue(32, "32'h12ab_f001"), 2)).toBe(0x12abf001);
});

published('LIT-12', 'text that must be rejected', async () => {
  for (const bad of ['4af', "8'd-6"]) {
    const text = `module m(output [15:0] y); assign y = ${bad}; endmodule`;
    const { findings } = await reportOf([{ path: 'm.v', text }]);
    expect(findings.map(({ id }) => id)).toContain('syntax');
  }
});
