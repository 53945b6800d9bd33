// Statements as the tables hold them.

import { describe, expect, test } from 'vitest';
import { moduleOf, readText } from '../tools/reading';
import { spellStatement } from './spell';

async function read(text: string): Promise<string> {
  const module = await moduleOf(`module m; initial begin ${text} end endmodule`);
  const item = module.items[0];
  return item?.kind === 'process' ? spellStatement(item.body).replace(/^begin (.*) end$/, '$1') : 'not read';
}

describe('statements', () => {
  test.each([
    ['a = b;', 'a = b;'],
    ['a <= b;', 'a <= b;'],
    ['a <= b <= c;', 'a <= (b <= c);'],
    ['{a, b[1]} <= c;', '{a, b[1]} <= c;'],
    ['m[i][3:0] = c;', 'm[i][3:0] = c;'],
    ['u.q[2] <= c;', 'u.q[2] <= c;'],
    ['a <= #3 b;', 'a <= #(3) b;'],
    ['a = #(1:2:3) b;', 'a = #(1:2:3) b;'],
    ['a = @(posedge c or d) b;', 'a = @(posedge c, d) b;'],
    ['a += b;', 'a = (a + b);'],
    ['a <<= 1;', 'a = (a << 1);'],
    ['a >>>= 1;', 'a = (a >>> 1);'],
    ['i++;', 'i = (i + 1);'],
    ['--i;', 'i = (i - 1);'],
    ['if (a) b = 1;', 'if a b = 1;'],
    ['if (a) b = 1; else if (c) b = 2; else b = 3;', 'if a b = 1; else if c b = 2; else b = 3;'],
    ['if (a) if (b) c = 1; else c = 2;', 'if a if b c = 1; else c = 2;'],
    ['if (a) ; else c = 2;', 'if a ; else c = 2;'],
    ['unique if (a) b = 1;', 'if a b = 1;'],
    ["case (s) 0, 1: a = 1; 2'b1x: ; default a = 2; endcase", "case s 0, 1: a = 1; 2'b1x: ; default: a = 2; endcase"],
    ["casez (s) 4'b1???: a = 1; endcase", "casez s 4'b1zzz: a = 1; endcase"],
    ['casex (s) default: a = 1; endcase', 'casex s default: a = 1; endcase'],
    ['unique case (s) 0: a = 1; endcase', 'unique case s 0: a = 1; endcase'],
    ['priority case (s) 0: a = 1; endcase', 'priority case s 0: a = 1; endcase'],
    ['for (i = 0; i < 4; i = i + 1) a[i] = b;', 'for (i = 0; (i < 4); i = (i + 1);) a[i] = b;'],
    ['for (integer i = 0; i < 4; i++) a = b;', 'for (own i = 0; (i < 4); i = (i + 1);) a = b;'],
    ['for (int i = 0; i < 4; i += 2) a = b;', 'for (own i = 0; (i < 4); i = (i + 2);) a = b;'],
    ['while (a) b = c;', 'while a b = c;'],
    ['repeat (4) b = c;', 'repeat 4 b = c;'],
    ['forever #5 c = ~c;', 'forever #(5) c = (~c);'],
    ['#10;', '#(10) ;'],
    ['#(P * 2) a = b;', '#((P * 2)) a = b;'],
    ['#2.5 a = b;', '#(real 2.5) a = b;'],
    ['#10ns a = b;', '#(10ns) a = b;'],
    ['#D a = b;', '#(D) a = b;'],
    ['@c;', '@(c) ;'],
    ['@(posedge c) ;', '@(posedge c) ;'],
    ['@* a = b;', '@* a = b;'],
    ['@(*) a = b;', '@* a = b;'],
    ['@( * ) a = b;', '@* a = b;'],
    ['@(a, b or negedge c, d) e = f;', '@(a, b, negedge c, d) e = f;'],
    ['@(edge c) a = b;', '@(edge c) a = b;'],
    ['@(u.clk) a = b;', '@(u.clk) a = b;'],
    ['@(posedge q[0]) a = b;', '@(posedge q[0]) a = b;'],
    ['wait (a) b = c;', 'wait a b = c;'],
    ['wait (a);', 'wait a ;'],
    ['fork a = 1; #1 b = 2; join', 'fork a = 1; #(1) b = 2; join'],
    ['begin : x integer i; reg [3:0] q = 1; a = b; end', 'begin : x integer signed i; reg [3:0] q = 1; a = b; end'],
    ['x : begin a = b; end', 'begin : x a = b; end'],
    ['lab : a = b;', 'a = b;'],
    ['$display("a", , b);', '$display("a", "", b);'],
    ['$finish;', '$finish();'],
    ['$finish(1);', '$finish(1);'],
    ['$fatal(1, "x");', '$fatal("x");'],
    ['t(a, b);', 't(a, b);'],
    ['t;', 't();'],
    ['t();', 't();'],
    ['disable x;', 'disable x;'],
    // IEEE 1800-2017 5.8: no blank stands in a time literal, so that a name of one letter behind a delay is a name.
    ['#5 s = 1;', '#(5) s = 1;'],
    ['#5\n  ns <= 1;', '#(5) ns <= 1;'],
    ['#5 /* late */ s = 1;', '#(5) s = 1;'],
    ['#5ns s = 1;', '#(5ns) s = 1;'],
    ['{>>{a, b}} = c;', '{a, b} = {>>{c}};'],
    ["'{a, b} = c;", '{a, b} = c;'],
    ["a <= '{default: 1};", "a <= '{default: 1};"],
    ['case (a) inside 1, 4: b = c; default: ; endcase', 'casex a 1, 4: b = c; default: ; endcase'],
    ['case (a) inside [1:3]: b = c; endcase', "case 1'b1 ((a >= 1) && (a <= 3)): b = c; endcase"],
    [';', ';'],
    ['(* full_case *) a = b;', 'a = b;'],
  ])('%s', async (text, taken) => {
    expect(await read(text)).toBe(taken);
  });

  test.each([
    ['-> e;', 'event trigger', '?[]'],
    ['assign a = b;', 'procedural continuous assignment', '?[a]'],
    ['force a = b;', 'procedural continuous assignment', '?[a]'],
    ['return;', 'jump out of nothing', '?[]'],
    ['for (;;) a = b;', 'loop of this form', '?[a]'],
    ['case (a) matches 1: b = c; endcase', 'case of this form', '?[b]'],
    ['assert (a);', 'simple immediate assert statement', '?[]'],
    ['a = repeat (2) @(c) b;', 'repeat before an event inside an assign…', '?[a]'],
  ])('%s is a hole that names what it drives', async (text, what, taken) => {
    const reading = await readText(`module m; initial begin ${text} end endmodule`);
    expect(reading.complaints).toMatchObject([{ id: 'unsupported', reason: 'construct', args: { what } }]);
    expect(await read(text)).toBe(taken);
  });

  test('a chain of else-ifs as long as the limit allows', async () => {
    const arms = (count: number) => `${'if (a) b = c; else '.repeat(count)} b = d;`;
    expect(await read(arms(300))).toContain('else b = d;');
    const { complaints } = await readText(`module m; initial begin ${arms(1000)} end endmodule`);
    expect(complaints).toMatchObject([{ id: 'limit-reached', reason: 'limit', args: { limit: 'nesting' } }]);
    expect(await read(arms(1000))).toMatch(/\?\[b\]$/);
  });
});
