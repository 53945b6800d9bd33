// SystemVerilog that stands for Verilog: jumps, do and foreach (IEEE 1800-2017 12.7, 12.8), inside, wildcard equality and
// casts (11.4.6, 11.4.13, 6.24.1). Each beside what it means; the two must give one circuit.

import { expect, test } from 'vitest';
import { compareCircuits } from '../../server/src/cures/same-circuit';
import { netlistOf } from '../tools/elaborated';
import { toEnd } from '../tools/report-of';

const ports = 'input logic clk, input logic [3:0] a, b, input logic c, d, output logic [7:0] y';

async function sameAs(written: string, meant: string): Promise<void> {
  const text = (body: string) => [{ path: 'm.sv', text: `module m(${ports}); ${body} endmodule` }];
  const [first, second] = [await netlistOf(text(written)), await netlistOf(text(meant))];
  expect(first.complaints.map(({ reason, args }) => [reason, args])).toEqual([]);
  expect(second.complaints).toEqual([]);
  expect(['proven', 'tried']).toContain(toEnd(compareCircuits(first.netlist, second.netlist)).kind);
}

test.each([
  [
    'return',
    "function logic [7:0] f(input logic [3:0] p); return p + 8'd1; endfunction assign y = f(a);",
    "assign y = a + 8'd1;",
  ],
  [
    'return in a branch',
    'function automatic logic [7:0] f(input logic [3:0] p); if (p[0]) return 1; f = 2; if (p[1]) return 3; f = f + 4; endfunction assign y = f(a);',
    'assign y = a[0] ? 1 : a[1] ? 3 : 6;',
  ],
  [
    'a void function, left early',
    'function void f(input logic p, output logic [7:0] q); q = 1; if (p) return; q = 2; endfunction always_comb f(c, y);',
    'assign y = c ? 1 : 2;',
  ],
  [
    'break: the first that is set',
    'always_comb begin y = 0; for (int i = 0; i < 4; i++) if (a[i]) begin y = i + 1; break; end end',
    'assign y = a[0] ? 1 : a[1] ? 2 : a[2] ? 3 : a[3] ? 4 : 0;',
  ],
  [
    'continue: how many are set',
    'always_comb begin y = 0; for (int i = 0; i < 4; i++) begin if (!a[i]) continue; y += 1; end end',
    "assign y = {7'd0, a[0]} + {7'd0, a[1]} + {7'd0, a[2]} + {7'd0, a[3]};",
  ],
  [
    'break out of the inner of two loops',
    'always_comb begin y = 0; for (int i = 0; i < 2; i++) for (int j = 0; j < 2; j++) begin if (a[2*i+j]) break; y += 1; end end',
    'assign y = (a[0] ? 0 : a[1] ? 1 : 2) + (a[2] ? 0 : a[3] ? 1 : 2);',
  ],
  [
    'do while',
    'always_comb begin int n; n = 0; y = a; do begin y = y + b; n = n + 1; end while (n < 3); end',
    "assign y = a + 8'd3 * b;",
  ],
  [
    'foreach over an array',
    'logic [3:0] w [2:4]; always_comb foreach (w[i]) w[i] = a + i; assign y = w[2] + w[3] + w[4];',
    'logic [3:0] p, q, r; assign p = a + 2, q = a + 3, r = a + 4; assign y = p + q + r;',
  ],
  ['foreach over a vector', 'always_comb foreach (y[i]) y[i] = a[i % 4] ^ c;', 'assign y = {2{a ^ {4{c}}}};'],
  [
    'inside',
    "assign y = {7'd0, a inside {1, [4:6], 4'b1?00}};",
    "assign y = {7'd0, a == 1 || (a >= 4 && a <= 6) || (a & 4'b1011) == 4'b1000};",
  ],
  [
    'wildcard equality',
    "assign y = {a ==? 4'b1x0z, a !=? 4'b1x0z};",
    "assign y = {(a & 4'b1010) == 4'b1000, (a & 4'b1010) != 4'b1000};",
  ],
  ['size casts', "assign y = 2'(a) + 8'(b);", "assign y = {6'd0, a[1:0]} + {4'd0, b};"],
  ['a cast to a signed type', "logic signed [3:0] s; assign s = a; assign y = byte'(s);", 'assign y = {{4{a[3]}}, a};'],
  ['a cast to a named type', "typedef logic [2:0] three; assign y = three'(a);", "assign y = {5'd0, a[2:0]};"],
  ['a size that is a parameter', "localparam W = 3; assign y = W'(a);", "assign y = {5'd0, a[2:0]};"],
  ['queries', 'logic [5:2] v; assign v = a; assign y = $left(v) + $right(v) + $size(v) + v;', "assign y = 8'd11 + a;"],
])('%s', async (_, written, meant) => {
  await sameAs(written, meant);
});
