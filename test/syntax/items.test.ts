// Assignments, gates, instances, processes and generate constructs.

import { describe, expect, test } from 'vitest';
import { moduleOf, readText } from '../tools/reading';
import { spellItem } from './spell';

async function items(text: string): Promise<string> {
  return (await moduleOf(`module m; ${text} endmodule`)).items.map(spellItem).join(' ');
}

describe('items', () => {
  test.each([
    ['assign a = b, {c, d[1:0]} = e;', 'assign a = b; assign {c, d[1:0]} = e;'],
    ['assign #(1,2) a = b, c = d;', 'assign #(1, 2) a = b; assign #(1, 2) c = d;'],
    ['and g1 (a, b, c), (d, e, f);', 'and g1(a, b, c), (d, e, f);'],
    ['nand #(1:2:3, 4) g [3:0] (a, b, c);', 'nand #(1:2:3, 4) g [3:0](a, b, c);'],
    ['buf (a, b, c);', 'buf (a, b, c);'],
    ['not #1 (a, b);', 'not #(1) (a, b);'],
    ['bufif1 #(1,2,3) b (o, i, ~e);', 'bufif1 #(1, 2, 3) b(o, i, (~e));'],
    ['pullup (a), p (b);', 'pullup (a), p(b);'],
    ['sub u (a, b), v ();', 'sub u(a, b), v();'],
    ['sub u (a, , b, );', 'sub u(a, , b, );'],
    ['sub u (, a);', 'sub u(, a);'],
    ['sub u (,, a);', 'sub u(, , a);'],
    ['sub #(8, W + 1) u (a);', 'sub #(8, (W + 1)) u(a);'],
    ['sub #(.W(8), .X()) u (.a(b), .c(), .d);', 'sub #(.W(8), .X()) u(.a(b), .c(), .d);'],
    ['sub u (.clk, .*);', 'sub u(.clk, .*);'],
    ['sub u [3:0] (.a({b, c[1]}));', 'sub u [3:0](.a({b, c[1]}));'],
    ['sub (a, b);', 'sub (a, b);'],
    ['always @(posedge c) q <= d;', 'always @(posedge c) q <= d;'],
    ['always_ff @(posedge c) q <= d;', 'always_ff @(posedge c) q <= d;'],
    ['always_comb q = d;', 'always_comb q = d;'],
    ['always_latch if (g) q = d;', 'always_latch if g q = d;'],
    ['initial q = 0;', 'initial q = 0;'],
    ['final $display("x");', 'final $display("x");'],
    ['always #5 c = ~c;', 'always #(5) c = (~c);'],
    [';;', ''],
  ])('%s', async (text, taken) => {
    const { complaints } = await readText(`module m; ${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(await items(text)).toBe(taken);
  });

  test.each([
    ['generate if (A) wire b; else wire c; endgenerate', 'if A wire b; else wire c;'],
    [
      'if (A) begin : x wire b; end else if (C) begin wire d; end',
      'if A begin : x wire b; end else if C begin wire d; end',
    ],
    ['if (A) ; else wire c;', 'if A  else wire c;'],
    ['if (A) x : begin wire b; end', 'if A begin : x wire b; end'],
    ['for (i = 0; i < 4; i = i + 1) begin : g wire w; end', 'for (i = 0; (i < 4); i = (i + 1);) begin : g wire w; end'],
    ['for (genvar i = 0; i < 4; i++) wire w;', 'for (i = 0; (i < 4); i = (i + 1);) wire w;'],
    [
      'case (W) 1, 2: wire a; default: begin : d wire b; end endcase',
      'case W 1, 2: wire a; default: begin : d wire b; end endcase',
    ],
    ['generate genvar i; wire a; endgenerate', 'genvar i; wire a;'],
    // A bare block at the level of items: IEEE 1364-2001 12.1.3 has it, later editions do not.
    ['generate begin : x wire a; end endgenerate', 'begin : x wire a; end'],
    ['begin : x wire a; end', 'begin : x wire a; end'],
    ['import p::*;', 'import p::*;'],
    ['import p::a;', 'import p::a;'],
    ['typedef logic [3:0] nibble;', 'typedef logic [3:0] nibble;'],
    ['typedef enum {OFF, ON = 3} power;', 'typedef enum {OFF, ON = 3} power;'],
    ['localparam type T = byte;', 'localparam type T = byte signed;'],
    ['if (A) begin begin : y wire a; end end', 'if A begin begin : y wire a; end end'],
  ])('%s', async (text, taken) => {
    const { complaints } = await readText(`module m; ${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(await items(text)).toBe(taken);
  });

  test.each([
    ['function f(ref a); f = a; endfunction', 'function', '?[f]'],
    ['nmos n (a, b, c);', 'nmos', '?[n a b c]'],
    ['alias a = b;', 'net alias', '?[a b]'],
  ])('%s is a hole that names what it touches', async (text, what, taken) => {
    const reading = await readText(`module m; ${text} endmodule`);
    expect(reading.complaints).toMatchObject([{ id: 'unsupported', reason: 'construct', args: { what } }]);
    expect(await items(text)).toBe(taken);
  });

  test.each([
    ['function [3:0] f; input a; f = a; endfunction', 'function [3:0] f(input a); f = a; endfunction'],
    ['function f(input a); f = ~a; endfunction', 'function f(input a); f = (~a); endfunction'],
    [
      'function automatic signed [7:0] f(input signed [3:0] a, b, input integer n); f = a; endfunction',
      'function automatic signed [7:0] f(input signed [3:0] a, input signed [3:0] b, input integer signed n); f = a; endfunction',
    ],
    [
      'function integer f; input [3:0] a, b; reg r; integer i; parameter P = 1; begin f = a; end endfunction',
      'function integer signed f(input [3:0] a, input [3:0] b); reg r; integer signed i; parameter P = 1; begin f = a; end endfunction',
    ],
    [
      'function f(input a); integer n; reg m; f = a; endfunction',
      'function f(input a); integer signed n; reg m; f = a; endfunction',
    ],
    [
      'task t; input a; output [1:0] b; inout c; begin b = a; end endtask',
      'task t(input a, output [1:0] b, inout c); begin b = a; end endtask',
    ],
    [
      'task automatic t(input a, output reg b); b = a; endtask',
      'task automatic t(input a, output reg b); b = a; endtask',
    ],
    ['task t; ; endtask', 'task t(); ; endtask'],
    ['task t; begin end endtask', 'task t(); begin end endtask'],
    ['defparam u.W = 3, g[0].u.t.D = 8 + 1;', 'defparam u.W = 3; defparam g[0].u.t.D = (8 + 1);'],
    ['function f(input a); endfunction', 'function f(input a); begin end endfunction'],
  ])('%s', async (text, taken) => {
    const { complaints } = await readText(`module m; ${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(await items(text)).toBe(taken);
  });

  test('a strength is read over, and that is said', async () => {
    const { complaints } = await readText('module m; pulldown (strong0) p (a); pullup (strong1) q (a); endmodule');
    expect(complaints).toMatchObject([{ id: 'unsupported', args: { what: 'strength' } }]);
    expect(await items('pulldown (strong0) p (a); pullup (strong1) q (a);')).toBe('pulldown p(a); pullup q(a);');
  });

  test('words that only SystemVerilog reserves are names of Verilog (IEEE 1364-2005 annex B)', async () => {
    const text = 'module m(input do, output bit); wire priority = do; assign bit = priority & do; endmodule';
    const { complaints } = await readText(text);
    expect(complaints).toEqual([]);
    const module = await moduleOf(text);
    expect(module.ports.map((port) => port.declarator.name.name)).toEqual(['do', 'bit']);
    expect(module.items.map(spellItem)).toEqual(['wire priority = do;', 'assign bit = (priority & do);']);
  });

  test('`begin_keywords settles it for every word', async () => {
    const text =
      '`begin_keywords "1364-2005"\nmodule m; wire logic; reg int; endmodule\n`end_keywords\nmodule n; logic a; endmodule';
    const { complaints, units } = await readText(text);
    expect(complaints).toEqual([]);
    const [first, second] = units.map(({ table }) => (table.kind === 'module' ? table.items.map(spellItem) : []));
    expect(first).toEqual(['wire logic;', 'reg int;']);
    expect(second).toEqual(['logic a;']);
  });
});
