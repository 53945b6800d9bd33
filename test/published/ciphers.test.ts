// FIPS 197 (from memory, recomputed): the substitution box of AES and products in its field, by functions of the design.

import { expect } from 'vitest';
import { valueAt } from '../tools/report-of';
import { published } from './published';

/** Products in the field of 8 bits with 11b (FIPS 197 section 4.2), and the box made of inverse and affine map (5.1.1). */
const field = `
  function [7:0] double(input [7:0] a); double = {a[6:0], 1'b0} ^ (a[7] ? 8'h1b : 8'h00); endfunction
  function [7:0] times(input [7:0] a, input [7:0] b);
    integer i; reg [7:0] power;
    begin
      times = 0; power = a;
      for (i = 0; i < 8; i = i + 1) begin
        if (b[i]) times = times ^ power;
        power = double(power);
      end
    end
  endfunction
  function [7:0] substitute(input [7:0] a);
    integer i; reg [7:0] square, inverse;
    begin
      square = times(a, a); inverse = square;
      for (i = 0; i < 6; i = i + 1) begin square = times(square, square); inverse = times(inverse, square); end
      for (i = 0; i < 8; i = i + 1)
        substitute[i] = inverse[i] ^ inverse[(i + 4) % 8] ^ inverse[(i + 5) % 8] ^ inverse[(i + 6) % 8] ^ inverse[(i + 7) % 8];
      substitute = substitute ^ 8'h63;
    end
  endfunction`;

async function ofBytes(expression: string, a: string, b = '00'): Promise<string> {
  const text = `module m(input [7:0] a, b, output [7:0] y); ${field} assign y = ${expression}; endmodule`;
  const project = JSON.stringify({ inputs: { a: `8'h${a}`, b: `8'h${b}` } });
  const digits = await valueAt([{ path: 'm.v', text }], 'y', 0, { project });
  return Number.parseInt(digits, 2).toString(16).padStart(2, '0');
}

published('FUN-19', 'the substitution of 00, 01, 53 and ff', async () => {
  const values = await Promise.all(['00', '01', '53', 'ff'].map((a) => ofBytes('substitute(a)', a)));
  expect(values).toEqual(['63', '7c', 'ed', '16']);
});

published('FUN-20', 'products in the field', async () => {
  expect([await ofBytes('times(a, b)', '57', '83'), await ofBytes('times(a, b)', '57', '13')]).toEqual(['c1', 'fe']);
  const doubled = ['double(a)', 'double(double(a))', 'double(double(double(a)))', 'double(double(double(double(a))))'];
  expect(await Promise.all(doubled.map((each) => ofBytes(each, '57')))).toEqual(['ae', '47', '8e', '07']);
});
