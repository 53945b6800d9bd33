import { expect, it } from 'vitest';
import { scanFile } from '../../server/src/report/scan-file';
import { toEnd } from '../tools/report-of';

const scan = (text: string) => toEnd(scanFile(text));

it('tells units with where their names stand', () => {
  const text =
    '/* 🕰️ */ module automatic a;\nendmodule\n interface b; endinterface package c; endpackage primitive d(y, x);\nendprimitive';
  expect(scan(text).units.map(({ column, line, name, what }) => `${what} ${name} ${line}:${column}`)).toEqual([
    'module a 1:28',
    'interface b 3:12',
    'package c 3:36',
    'primitive d 3:60',
  ]);
});

it('tells names that may be those of other units, and no others', () => {
  const text =
    'module m(bus.sink s, input clk);\n wire w; child u(.a(w)); other #(3) v(w); assign w = p::N; initial x = y;\n /* n o */ always @(posedge clk) q <= clk;\nendmodule';
  expect(scan(text).units[0].uses).toEqual(['bus', 'child', 'other', 'p']);
});

it('tells macros', () => {
  expect(scan('`define A 1\n  `define B(x) \\\n x\n`undef A\n').macros).toEqual([
    { name: 'A', line: 1, column: 9 },
    { name: 'B', line: 2, column: 11 },
  ]);
});

it('takes text that ends in the middle', () => {
  expect(scan('module').units).toEqual([]);
  expect(scan('module m').units.map(({ name }) => name)).toEqual(['m']);
  expect(scan('`define').macros).toEqual([]);
});
