// Functions and tasks (IEEE 1364-2005 10): of constants, of what varies, in processes and initial blocks; what each call
// keeps for itself; early exits by `disable` (10.3).
import { describe, expect, test } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';
import { driverOf, nodeText, registerNames, registerOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

/** The value of parameter P of a module with this text. */
async function parameterOf(text: string): Promise<string> {
  const { netlist, complaints } = await netlistOf(`module m(input a, output y); ${text} assign y = a; endmodule`);
  expect(complaints).toEqual([]);
  const found = netlist.instances[0].parameters.find(({ name }) => name === 'P');
  return found === undefined ? 'none' : toBinary(found.value).replace(/^0+(?=.)/, '');
}

async function drivenBy(text: string): Promise<string> {
  const { netlist, complaints } = await netlistOf(
    `module m(input a, b, c, input [3:0] v, output [3:0] y); ${text} endmodule`,
  );
  expect(complaints).toEqual([]);
  return driverBehind(netlist);
}

/** Of y, or of r where y only passes it on. */
function driverBehind(netlist: Netlist): string {
  const driver = driverOf(netlist, 'y');
  return /^r(\[3:0\])?$|^\{000, r\}$/.test(driver) ? driverOf(netlist, 'r') : driver;
}

describe('functions of constants (10.4.5)', () => {
  const width = `function integer width; input integer value;
    begin value = value - 1; for (width = 0; value > 0; width = width + 1) value = value >> 1; end
  endfunction`;

  test.each([
    ['before its use', `${width} localparam P = width(12);`, '100'],
    ['behind its use', `localparam P = width(17); ${width}`, '101'],
    ['called in its own arguments', `${width} localparam P = width(width(256) + 9);`, '101'],
    [
      'that calls another one',
      `${width} function integer twice(input integer n); twice = 2 * width(n); endfunction localparam P = twice(9);`,
      '1000',
    ],
    [
      'automatic and recursive',
      'function automatic integer fact(input integer n); if (n < 2) fact = 1; else fact = n * fact(n - 1); endfunction localparam P = fact(5);',
      '1111000',
    ],
    [
      'recursive in a conditional expression: the other arm is not run (5.1.13)',
      'function automatic integer sum(input integer n); sum = n == 0 ? 0 : n + sum(n - 1); endfunction localparam P = sum(9);',
      '101101',
    ],
    [
      'a call for each bit of a word',
      "function automatic integer ones(input [63:0] n); ones = n == 0 ? 0 : n[0] + ones(n >> 1); endfunction localparam P = ones(64'hffff_0000_ffff_0001);",
      '100001',
    ],
    ['with a parameter of the module', `parameter N = 40; ${width} localparam P = width(N);`, '110'],
    [
      'with a parameter of its own',
      'function [7:0] f(input [7:0] n); localparam K = 3; f = n * K; endfunction localparam P = f(7);',
      '10101',
    ],
    [
      'with a named block',
      'function integer f(input integer n); begin : count integer i; f = 0; for (i = 0; i < n; i = i + 1) f = f + i; end endfunction localparam P = f(5);',
      '1010',
    ],
    [
      'that is left early',
      "function integer first(input [7:0] n); begin : scan integer i; first = 8; for (i = 0; i < 8; i = i + 1) if (n[i]) begin first = i; disable scan; end end endfunction localparam P = first(8'b1010_0000);",
      '101',
    ],
    [
      'that leaves itself early',
      'function integer f(input integer n); begin f = 1; if (n > 2) disable f; f = 2; end endfunction localparam P = {f(2), f(3)} >> 0;',
      `${'10'}${'1'.padStart(32, '0')}`,
    ],
    [
      'by case, repeat and while',
      'function [7:0] f(input [1:0] s, input integer n); begin case (s) 0: f = 1; 1: f = 3; default: f = 5; endcase repeat (n) f = f + 1; while (f < 20) f = f * 2; end endfunction localparam P = f(1, 4);',
      '11100',
    ],
    // 10.4.3, 5.5: an argument is assigned to its input, the result is an operand of its own type.
    ['whose argument is cut', "function [7:0] f(input [3:0] n); f = n; endfunction localparam P = f(8'hff);", '1111'],
    [
      'whose signed argument is widened',
      "function [7:0] f(input signed [7:0] n); f = n; endfunction localparam P = f(-4'sd2);",
      '11111110',
    ],
    [
      'whose signed result is widened',
      'function signed [3:0] f(input a); f = -1; endfunction localparam [7:0] P = f(0);',
      '11111111',
    ],
    [
      'whose unsigned result is widened',
      'function [3:0] f(input a); f = -1; endfunction localparam [7:0] P = f(0);',
      '1111',
    ],
  ])('%s', async (_, text, expected) => {
    expect(await parameterOf(text)).toBe(expected);
  });

  test('a range, a replication and a generate condition', async () => {
    const { netlist, complaints } =
      await netlistOf(`module m #(parameter D = 12) (input [width(D) - 1:0] a, output [7:0] y);
      function integer width(input integer n); begin width = 0; while (n > 1) begin width = width + 1; n = (n + 1) / 2; end end endfunction
      generate if (width(D) == 4) begin assign y = {{width(16){1'b0}}, a}; end else begin assign y = 0; end endgenerate
    endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe('{0000, a[3:0]}');
  });
});

describe('functions of what varies', () => {
  test.each([
    [
      'logic',
      'function [3:0] f(input p, input [3:0] q); f = p ? q : ~q; endfunction assign y = f(a, v);',
      'mux(a, v[3:0], not(v[3:0]))',
    ],
    [
      'statements',
      "function f(input p, q); begin f = q; if (p) f = ~q; end endfunction assign y = {f(a, b), f(b, a), 2'b0};",
      '{mux(a, not(b), b), mux(b, not(a), a), 00}',
    ],
    ['reads what is around it', 'function f(input p); f = p & b; endfunction assign y = f(a);', '{000, and(a, b)}'],
    [
      'in a process it reads what the process has assigned',
      'reg t; reg [3:0] r; function f(input p); f = p & t; endfunction always @* begin t = b; r = f(a); t = c; end assign y = r;',
      '{000, and(a, b)}',
    ],
    [
      'loops unroll',
      'function f(input [3:0] p); integer i; begin f = 0; for (i = 0; i < 3; i = i + 1) f = f ^ p[i]; end endfunction assign y = f(v);',
      '{000, xor(xor(xor(0, v[0]), v[1]), v[2])}',
    ],
    [
      'recursion',
      'function automatic f(input [3:0] p, input integer n); f = n == 0 ? p[0] : p[n] ^ f(p, n - 1); endfunction assign y = f(v, 2);',
      '{000, xor(v[2], xor(v[1], v[0]))}',
    ],
    [
      'a call inside a call',
      'function f(input p, q); f = p & q; endfunction assign y = f(f(a, b), c);',
      '{000, and(and(a, b), c)}',
    ],
    [
      'a case',
      'function f(input [1:0] s); case (s) 0: f = a; 1, 2: f = b; default: f = c; endcase endfunction assign y = f(v);',
      '{000, select(v[1:0], 00, a, 01, b, 10, b, c)}',
    ],
    [
      'as a port',
      'function f(input p); f = ~p; endfunction wire w; sub u(.i(f(a)), .o(w)); assign y = {4{w}};',
      '{w, w, w, w}',
    ],
    [
      'a variable write inside',
      'function [3:0] f(input [1:0] s); begin f = 0; f[s] = 1; end endfunction assign y = f(v);',
      'writeAt(0000, {000000000000000000000000000000, v[1:0]}, 1)',
    ],
    [
      'with constant arguments it is a constant',
      'function f(input p); f = p ? 1 : 0; endfunction assign y = f(1);',
      '0001',
    ],
  ])('%s', async (_, text, expected) => {
    const module = 'module sub(input i, output o); buf (o, i); endmodule';
    const { netlist, complaints } = await netlistOf(
      [
        { path: 'm.v', text: `module m(input a, b, c, input [3:0] v, output [3:0] y); ${text} endmodule` },
        { path: 'sub.v', text: module },
      ],
      { top: 'm' },
    );
    expect(complaints).toEqual([]);
    expect(driverBehind(netlist)).toBe(expected);
  });

  test('a path that gives no result is said, and reads x there', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input a, b, output y); function f(input p, q); if (p) f = q; endfunction assign y = f(a, b); endmodule',
    );
    expect(reasons(complaints)).toEqual(['unsupported unset-result']);
    expect(driverOf(netlist, 'y')).toBe('mux(a, b, x)');
  });

  test('two tests that leave no path are enough', async () => {
    const text = 'function f(input p, q); begin if (p) f = q; if (!p) f = ~q; end endfunction assign y = f(a, b);';
    expect(await drivenBy(text)).toContain('mux');
  });

  test('what a call uses is no signal of the design', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, output y); function f(input p); reg t; begin : w reg u; u = p; t = u; f = t; end endfunction assign y = f(a); endmodule',
    );
    expect(netlist.signals.map(({ name }) => name)).toEqual(['a', 'y']);
  });
});

describe('tasks', () => {
  test.each([
    [
      'outputs are copied out',
      'task t(input p, output q); q = ~p; endtask reg [3:0] r; always @* begin r = 0; t(a, r[1]); end assign y = r;',
      '{00, not(a), 0}',
    ],
    [
      'an inout goes both ways',
      "task t(inout p); p = ~p; endtask reg [3:0] r; always @* begin r = {3'b0, a}; t(r[0]); end assign y = r;",
      '{000, not(a)}',
    ],
    [
      'a concatenation takes an output',
      'task t(output [1:0] q); q = {a, b}; endtask reg [3:0] r; always @* begin r = 0; t({r[3], r[0]}); end assign y = r;',
      '{a, 00, b}',
    ],
    [
      'a task assigns what is around it',
      'reg [3:0] r; task t; begin r = 0; r[0] = a; end endtask always @* t; assign y = r;',
      '{000, a}',
    ],
    [
      'a task calls a task',
      'task s(input p, output q); q = p & b; endtask task t(input p, output q); s(p, q); endtask reg r; always @* t(a, r); assign y = r;',
      'and(a, b)',
    ],
    [
      'a task is left early',
      'reg [3:0] r; task t(input p); begin r = 1; if (p) disable t; r = 2; end endtask always @* t(a); assign y = r;',
      'mux(a, 0001, 0010)',
    ],
  ])('%s', async (_, text, expected) => {
    expect(await drivenBy(text)).toBe(expected);
  });

  test('in a clocked process: registers, and nothing of the task beside them', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input clk, input d, output reg p, q);
      task shift(input s); begin : b reg t; t = s; q <= p; p <= t; end endtask
      always @(posedge clk) shift(~d);
    endmodule`);
    expect(complaints).toEqual([]);
    expect(registerNames(netlist)).toEqual(['p', 'q']);
    expect(nodeText(netlist, registerOf(netlist, 'p').data)).toBe('not(d)');
    expect(netlist.signals.map(({ name }) => name)).toEqual(['clk', 'd', 'p', 'q']);
  });

  test('in an initial block: start values', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input clk, d, output reg [3:0] q);
      task load(input [3:0] v); q = v + 1; endtask
      function [3:0] two(input a); two = {a, 1'b0}; endfunction
      initial load(two(1));
      always @(posedge clk) q <= d;
    endmodule`);
    expect(complaints).toEqual([]);
    expect(toBinary(netlist.registers[0].initial)).toBe('0011');
  });
});

describe('early exits', () => {
  test.each([
    [
      'the first set bit',
      'reg [3:0] r; integer i; always @* begin : s r = 4; for (i = 0; i < 3; i = i + 1) if (v[i]) begin r = i; disable s; end end assign y = r;',
      'mux(v[0], 0000, mux(v[1], 0001, mux(v[2], 0010, 0100)))',
    ],
    [
      'one turn of a loop',
      'reg [3:0] r; integer i; always @* begin r = 0; for (i = 0; i < 2; i = i + 1) begin : turn if (v[i]) disable turn; r[i] = 1; end end assign y = r;',
      '{00, mux(v[1], 0, 1), mux(v[0], 0, 1)}',
    ],
    [
      'the inner of two blocks',
      'reg [3:0] r; always @* begin : o r = 0; begin : i if (a) disable i; r[0] = 1; end r[1] = 1; end assign y = r;',
      '{001, mux(a, 0, 1)}',
    ],
    [
      'the outer of two blocks',
      'reg [3:0] r; always @* begin : o r = 0; begin : i if (a) disable o; r[0] = 1; end r[1] = 1; end assign y = r;',
      '{00, mux(a, 0, 1), mux(a, 0, 1)}',
    ],
    ['always', 'reg [3:0] r; always @* begin : o r = v; disable o; r = 0; end assign y = r;', 'v[3:0]'],
  ])('%s', async (_, text, expected) => {
    expect(await drivenBy(text)).toBe(expected);
  });

  test('what stays behind an exit is an enable', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input clk, c, d, output reg q);
      always @(posedge clk) begin : main if (c) disable main; q <= d; end endmodule`);
    expect(complaints).toEqual([]);
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(c, R q, d)');
    expect(registerOf(netlist, 'q').enables.map(({ text }) => text)).toEqual(['!(c)']);
  });
});
