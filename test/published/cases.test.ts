// IEEE 1364-2005 clause 9.5: how case items are matched. What the standard does with unknown bits is asked of its own
// evaluator, in an initial block; the netlist merges what an unknown selector may choose.

import { expect } from 'vitest';
import { valueAt } from '../tools/report-of';
import { published } from './published';
import { initialValue } from './values';

const chosen = (width: number, body: string, declarations = '') =>
  initialValue(width, 'r_', `reg [${width - 1}:0] r_; ${declarations} initial begin ${body} end`);

const flagged = (select: string) => `case (${select})
    2'b00: r_ = 0;
    2'b01: r_ = flaga;
    2'b0x, 2'b0z: r_ = flaga ? 1'bx : 1'b0;
    2'b10: r_ = flagb;
    2'bx0, 2'bz0: r_ = flagb ? 1'bx : 1'b0;
    default: r_ = 1'bx;
  endcase`;
const flags = 'reg flaga, flagb; initial begin flaga = 0; flagb = 1; end';

published('CASE-1', 'by the standard: 0x meets the third item', async () => {
  expect(await chosen(1, flagged("2'b0x"), flags)).toBe('0');
  expect(await chosen(1, flagged("2'b0z"), flags)).toBe('0');
  expect(await chosen(1, flagged("2'b10"), flags)).toBe('1');
  expect(await chosen(1, flagged("2'bx0"), flags)).toBe('x');
});

published('CASE-2', 'by the standard: z and x are met as they are written', async () => {
  const item = (select: string) => chosen(2, `case (${select}) 1'bz: r_ = 1; 1'bx: r_ = 2; default: r_ = 3; endcase`);
  expect([await item("1'bz"), await item("1'bx"), await item("1'b0"), await item("1'b1")]).toEqual([
    '01',
    '10',
    '11',
    '11',
  ]);
});

/** The value of an output after a case statement in the netlist; `s` is the selector. */
async function inNetlist(width: number, selector: string, statement: string): Promise<string> {
  const [bits] = selector.split("'");
  const text = `module m(input [${Number(bits) - 1}:0] s, output reg [${width - 1}:0] y);
    always @* begin y = 0; ${statement} end
  endmodule`;
  return valueAt([{ path: 'm.v', text }], 'y', 0, { project: JSON.stringify({ inputs: { s: selector } }) });
}

published(
  ['CASE-1', 'CASE-2'],
  'in the netlist: x and z are no levels, so an unknown selector gives what may be',
  async () => {
    const statement = "case (s) 2'b00: y = 1; 2'b01: y = 1; default: y = 0; endcase";
    expect(await inNetlist(1, "2'b0x", statement)).toBe('1');
    expect(await inNetlist(1, "2'bx0", statement)).toBe('x');
  },
);

const instructions = `casez (s)
    8'b1???????: y = 1;
    8'b01??????: y = 2;
    8'b00010???: y = 3;
    8'b000001??: y = 4;
  endcase`;

published('CASE-3', 'casez on instructions', async () => {
  const values = await Promise.all(
    ['10110010', '01000000', '00010111', '00000100', '00000000'].map((s) => inNetlist(3, `8'b${s}`, instructions)),
  );
  expect(values.map((digits) => Number.parseInt(digits, 2))).toEqual([1, 2, 3, 4, 0]);
});

published('CASE-4', 'casez does not care where the selector is z', async () => {
  expect(await chosen(2, "casez (4'b1z11) 4'b1zzz: r_ = 1; default: r_ = 2; endcase")).toBe('01');
});

published('CASE-5', 'casex does not care where either is x or z', async () => {
  const body = `casex (8'b01100110 ^ 8'bx0x0x0x0)
      8'b001100xx: r_ = 1;
      8'b1100xx00: r_ = 2;
      8'b00xx0011: r_ = 3;
      8'bxx010100: r_ = 0;
    endcase`;
  expect(await chosen(2, body)).toBe('10');
});

published('CASE-6', 'in casez an unknown bit meets no 0', async () => {
  expect(await chosen(2, "casez (2'bx1) 2'b01: r_ = 1; 2'b?1: r_ = 2; default: r_ = 3; endcase")).toBe('10');
});

published('CASE-7', 'a case of 1 takes the first that is', async () => {
  const statement = 'case (1) s[2]: y = 1; s[1]: y = 2; s[0]: y = 3; endcase';
  const taken = async (s: string) => Number.parseInt(await inNetlist(2, `3'b${s}`, statement), 2);
  expect([await taken('011'), await taken('100'), await taken('001'), await taken('000')]).toEqual([2, 1, 3, 0]);
});
