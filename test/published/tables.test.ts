// IEEE 1364-2005 tables 5-12 to 5-16 (bitwise), clause 5.1.11 (reduction), tables 4-2 to 4-4 (several drivers).

import { expect } from 'vitest';
import { valueAt } from '../tools/report-of';
import { published } from './published';
import { initialValue, netlistValue } from './values';

const rows = "16'b0000_1111_xxxx_zzzz";
const columns = "16'b01xz_01xz_01xz_01xz";

/** The whole 4 × 4 table at once, by row, in the netlist and in constants. */
async function expectTable(operator: string, expected: string): Promise<void> {
  expect(await netlistValue(16, `a ${operator} b`, { a: rows, b: columns })).toBe(expected.replace(/ /g, ''));
  expect(await initialValue(16, `${rows} ${operator} ${columns}`)).toBe(expected.replace(/ /g, ''));
}

published('TAB-AND', 'bitwise and', () => expectTable('&', '0000 01xx 0xxx 0xxx'));
published('TAB-OR', 'bitwise or', () => expectTable('|', '01xx 1111 x1xx x1xx'));
published('TAB-XOR', 'bitwise exclusive or', () => expectTable('^', '01xx 10xx xxxx xxxx'));
published('TAB-XNOR', 'bitwise exclusive nor', () => expectTable('~^', '10xx 01xx xxxx xxxx'));

published('TAB-NOT', 'bitwise negation', async () => {
  expect(await netlistValue(4, '~a', { a: "4'b01xz" })).toBe('10xx');
  expect(await initialValue(4, "~4'b01xz")).toBe('10xx');
});

const reductions = ['&', '~&', '|', '~|', '^', '~^'];

async function expectReductions(operand: string, expected: string): Promise<void> {
  const all = `{${reductions.map((operator) => `${operator}a`).join(', ')}}`;
  expect(await netlistValue(6, all, { a: `4'b${operand}` })).toBe(expected);
}

published('RED-1', 'of 0000', () => expectReductions('0000', '010101'));
published('RED-2', 'of 1111', () => expectReductions('1111', '101001'));
published('RED-3', 'of 0110', () => expectReductions('0110', '011001'));
published('RED-4', 'of 1000', () => expectReductions('1000', '011010'));

published('RED-5', 'with unknown bits', async () => {
  expect(await netlistValue(1, '&a', { a: "4'b1x11" })).toBe('x');
  expect(await netlistValue(1, '&a', { a: "4'b0x11" })).toBe('0');
  expect(await netlistValue(1, '|a', { a: "4'b0x00" })).toBe('x');
  expect(await netlistValue(1, '|a', { a: "4'b1x00" })).toBe('1');
  expect(await netlistValue(1, '^a', { a: "4'b1x00" })).toBe('x');
  expect(await netlistValue(1, '^a', { a: "4'b1z00" })).toBe('x');
});

/** Two drivers on a net of the given type, all 16 pairs at once. */
async function resolved(net: string): Promise<string> {
  const text = `module m(input [15:0] a, b, output [15:0] y);
    ${net} [15:0] joined;
    assign joined = a;
    assign joined = b;
    assign y = joined;
  endmodule`;
  return valueAt([{ path: 'm.v', text }], 'joined', 0, {
    project: JSON.stringify({ inputs: { a: rows, b: columns } }),
  });
}

published('TAB-WIRE', 'two drivers on a wire', async () => {
  expect(await resolved('wire')).toBe('0xx0x1x1xxxx01xz');
});

published('TAB-WAND', 'two drivers on a wand', async () => {
  expect(await resolved('wand')).toBe('000001x10xxx01xz');
});

published('TAB-WOR', 'two drivers on a wor', async () => {
  expect(await resolved('wor')).toBe('01x01111x1xx01xz');
});
