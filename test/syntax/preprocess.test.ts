// Compiler directives: IEEE 1364-2005 clause 19; defaults of arguments and paste marks: IEEE 1800-2017 22.5.1.

import { describe, expect, test } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { spanOf } from '../../server/src/text/origin';
import { readSources, readText } from '../tools/reading';
import { spellItem } from './spell';

/** The items of the first module, and what was said. */
async function read(text: string): Promise<{ readonly items: string; readonly said: readonly string[] }> {
  const reading = await readText(text);
  const table = reading.units.map((unit) => unit.table).find((each) => each.kind === 'module');
  const items = table?.kind === 'module' ? table.items.map(spellItem).join(' ') : '';
  const said = reading.complaints.map((complaint) => {
    const { line, column, endLine, endColumn } = spanOf(
      reading.files,
      reading.units[complaint.place.unit]?.origin as never,
      complaint.place,
    );
    return `${complaint.id} ${complaint.reason} ${line}:${column}-${endLine}:${endColumn}`;
  });
  return { items, said };
}

const inModule = (text: string) => `module m;\n${text}\nendmodule\n`;

describe('macros', () => {
  test.each([
    ['`define W 8\n', 'wire [`W-1:0] a;', 'wire [(8 - 1):0] a;'],
    ['`define W 8 // eight\n', 'wire [`W:0] a;', 'wire [8:0] a;'],
    ['`define W 8 /* eight */\n', 'wire [`W:0] a;', 'wire [8:0] a;'],
    ['`define E\n', 'wire `E a;', 'wire a;'],
    ['`define A `B\n`define B 3\n', 'wire [`A:0] a;', 'wire [3:0] a;'],
    ['`define A 3\n`define A 4\n', 'wire [`A:0] a;', 'wire [4:0] a;'],
    ['`define TWO wire a; \\\n  wire b;\n', '`TWO', 'wire a; wire b;'],
    ['`define TWO wire a; \\\r\n  wire b;\r\n', '`TWO', 'wire a; wire b;'],
    ['`define W 4\n', "wire [7:0] a = `W'd9;", "wire [7:0] a = 4'd9;"],
    // A use is a token of its own: it never joins the word beside it.
    ['`define N x\n', 'assign y = a`N;', null],
    ['`define MAX(a, b) ((a) > (b) ? (a) : (b))\n', 'wire [`MAX(3, 4):0] a;', 'wire [((3 > 4) ? 3 : 4):0] a;'],
    [
      '`define MAX(a,b) ((a) > (b) ? (a) : (b))\n',
      'assign x = `MAX (`MAX(p, q), r[1:0]);',
      'assign x = ((((p > q) ? p : q) > r[1:0]) ? ((p > q) ? p : q) : r[1:0]);',
    ],
    ['`define F(a) {a}\n', 'assign x = `F((b, c));', null],
    ['`define F(a) a\n', 'assign x = `F({b, c});', 'assign x = {b, c};'],
    ['`define F(a) a\n', 'assign x = `F(g(b, c));', 'assign x = g(b, c);'],
    ['`define F(a) $display("a", a)\n', 'initial `F(",)");', 'initial $display("a", ",)");'],
    [
      '`define F(a = 3, b = 4) a + b\n',
      'assign x = `F(1) + `F(,2) + `F();',
      'assign x = (((((1 + 4) + 3) + 2) + 3) + 4);',
    ],
    ['`define REG(n) reg n``_q;\n', '`REG(a)', 'reg a_q;'],
    ['`define S(n) `"n`"\n', 'initial $display(`S(abc));', 'initial $display("abc");'],
    ['`define F() 5\n', 'wire [`F():0] a;', 'wire [5:0] a;'],
    [
      '',
      'wire a; // `not a macro\n/* `nor here */ initial $display("`nor here");',
      'wire a; initial $display("`nor here");',
    ],
  ])('%s %s', async (definitions, text, taken) => {
    const { items, said } = await read(definitions + inModule(text));
    if (taken === null) expect(said[0]).toMatch(/^(syntax|unsupported)/);
    else expect({ items, said }).toEqual({ items: taken, said: [] });
  });

  test('undefined by `undef, and then unknown', async () => {
    const { said } = await read(`\`define A 3\n\`undef A\n${inModule('wire [`A:0] a;\nwire b;')}`);
    expect(said).toEqual(['unresolved-name removed-macro 4:7-4:9']);
  });

  test('an unknown macro is said once, and what stands around it is still read', async () => {
    const { items, said } = await read(inModule('assign a = `NONE;\nassign b = c;'));
    expect(said).toEqual(['unresolved-name unknown-macro 2:12-2:17']);
    expect(items).toBe('?[a] assign b = c;');
  });

  test.each([
    ['`define F(a, b) a\n', '`F(1)'],
    ['`define F(a) a\n', '`F(1, 2)'],
    ['`define F(a) a\n', '`F'],
    ['`define F(a) a\n', '`F(1'],
  ])('arguments that do not fit: %s%s', async (definition, use) => {
    const { items, said } = await read(`${definition}${inModule(`assign a = ${use};\nwire b;`)}`);
    expect(said[0]).toMatch(/^syntax macro-arguments 3:12-3:14$/);
    expect(items).toContain('wire b;');
  });

  test('a macro that leads back to itself', async () => {
    const { said } = await read(`\`define A \`B\n\`define B \`A\n${inModule('wire [`A:0] a;')}`);
    expect(said).toEqual(['syntax recursive-macro 4:7-4:9']);
  });

  test('a use of itself among its arguments is no recursion', async () => {
    const { items } = await read(`\`define F(a) (a + 1)\n${inModule('assign x = `F(`F(`F(y)));')}`);
    expect(items).toBe('assign x = (((y + 1) + 1) + 1);');
  });

  test('definitions by the caller', async () => {
    const { units } = await readText(inModule('wire [`W:0] a;'), { defines: { W: '7' } });
    const [first] = units;
    expect(first?.table.kind === 'module' && first.table.items.map(spellItem)).toEqual(['wire [7:0] a;']);
  });

  test('carried on to later files in the order given (IEEE 1364-2005 19.3)', async () => {
    const { complaints } = await readSources([
      { path: 'a.v', text: '`define W 3\n' },
      { path: 'b.v', text: inModule('wire [`W:0] a;') },
    ]);
    expect(complaints).toEqual([]);
    const reversed = await readSources([
      { path: 'b.v', text: inModule('wire [`W:0] a;') },
      { path: 'a.v', text: '`define W 3\n' },
    ]);
    expect(reversed.complaints).toMatchObject([{ reason: 'late-macro', args: { name: 'W', path: 'a.v', line: 1 } }]);
  });

  test('`__LINE__ and `__FILE__', async () => {
    const { items } = await read(inModule('initial $display(`__FILE__, `__LINE__);'));
    expect(items).toBe('initial $display("test.v", 2);');
  });
});

describe('conditionals', () => {
  test.each([
    ['`ifdef A\nwire a;\n`else\nwire b;\n`endif', 'wire b;'],
    ['`ifndef A\nwire a;\n`else\nwire b;\n`endif', 'wire a;'],
    ['`ifdef A\nwire a;\n`elsif B\nwire b;\n`elsif C\nwire c;\n`else\nwire d;\n`endif', 'wire b;'],
    [
      '`ifdef A\n`ifdef B\nwire a;\n`else\nwire x;\n`endif\n`else\n`ifdef B\nwire b;\n`endif\n`endif wire e;',
      'wire b; wire e;',
    ],
    ['`ifdef A\n`define C 1\n`endif\n`ifdef C\nwire a;\n`endif', ''],
    ['`ifdef A\nthis is not " read ` `UNKNOWN at all\n`endif\nwire a;', 'wire a;'],
    ['`ifdef A\n/* `endif */ // `endif\n$display("`endif");\n`endif\nwire a;', 'wire a;'],
    ['`define M(x) `ifdef B x `else wire no; `endif\n`M(wire a;)', 'wire a;'],
  ])('%s', async (text, taken) => {
    expect(await read(`\`define B\n${inModule(text)}`)).toEqual({ items: taken, said: [] });
  });

  test.each([
    ['`ifdef A\nwire a;', ['syntax unclosed 2:1-2:9']],
    ['wire a;\n`endif', ['syntax bad-directive 3:1-3:7']],
    ['`ifdef A\n`else\n`else\n`endif', ['syntax bad-directive 4:1-4:6']],
    ['`ifdef\n`endif', ['syntax bad-directive 2:1-2:7']],
  ])('%s', async (text, expected) => {
    const { said } = await read(inModule(text));
    expect(said.filter((each) => !each.includes('endmodule'))).toEqual(expect.arrayContaining(expected));
  });
});

describe('includes', () => {
  const main = { path: 'rtl/main.v', text: 'module m;\n`include "parts/a.vh"\nwire b;\nendmodule\n' };

  test('beside the file that asks, before the include folders', async () => {
    const provided = [
      { path: 'inc/parts/a.vh', text: 'wire from_folder;' },
      { path: 'rtl/parts/a.vh', text: 'wire from_beside;' },
    ];
    const reading = await readSources([main], { provided, includeFolders: ['inc'] });
    const table = reading.units[0]?.table;
    expect(table?.kind === 'module' && table.items.map(spellItem)).toEqual(['wire from_beside;', 'wire b;']);
    expect(reading.files.map(({ path }) => path)).toEqual(['rtl/main.v', 'rtl/parts/a.vh']);
    expect(reading.wanted).toEqual([]);
  });

  test('where it is not at hand, every place it may be in is wanted, and the directive says so', async () => {
    const reading = await readSources([main], { includeFolders: ['inc', 'more/'] });
    expect(reading.wanted).toEqual(['rtl/parts/a.vh', 'inc/parts/a.vh', 'more/parts/a.vh']);
    expect(reading.complaints).toMatchObject([
      { id: 'unresolved-name', reason: 'missing-include', args: { path: 'parts/a.vh' } },
    ]);
    expect(spanOf(reading.files, reading.units[0]?.origin as never, reading.complaints[0]?.place as never)).toEqual({
      file: 'rtl/main.v',
      line: 2,
      column: 1,
      endLine: 2,
      endColumn: 22,
    });
  });

  test('`..` leads up, an absolute name stands for itself, angle brackets and macros may hold the name', async () => {
    const wanted = async (name: string) =>
      (await readSources([{ path: 'a/b/m.v', text: `\`define F "x.vh"\n\`include ${name}\n` }])).wanted;
    expect(await wanted('"../c.vh"')).toEqual(['a/c.vh']);
    expect(await wanted('"/c.vh"')).toEqual(['/c.vh']);
    expect(await wanted('<c.vh>')).toEqual(['a/b/c.vh']);
    expect(await wanted('`F')).toEqual(['a/b/x.vh']);
  });

  test('what an included file defines holds behind the include; guards keep it from being read twice', async () => {
    const text = '`include "w.vh"\n`include "w.vh"\nmodule m; wire [`W:0] a; endmodule\n';
    const guarded = '`ifndef W_VH\n`define W_VH\n`define W 3\n`endif\n';
    const reading = await readSources([{ path: 'm.v', text }], { provided: [{ path: 'w.vh', text: guarded }] });
    expect(reading.complaints).toEqual([]);
    expect(reading.units.map(({ table }) => table.kind)).toEqual(['module']);
  });

  test('a file may include a file that is itself compiled', async () => {
    const files = [
      { path: 'a.v', text: '`include "b.v"\n' },
      { path: 'b.v', text: 'module b; endmodule\n' },
    ];
    const reading = await readSources(files);
    expect(reading.units.map((unit) => [unit.file, unit.table.name?.name])).toEqual([
      [0, 'b'],
      [1, 'b'],
    ]);
  });

  test('a complaint inside an included file is placed there', async () => {
    const provided = [{ path: 'rtl/parts/a.vh', text: '// first line\nwire ok;\nassign = 3;\n' }];
    const reading = await readSources([main], { provided });
    expect(reading.complaints).toHaveLength(1);
    expect(spanOf(reading.files, reading.units[0]?.origin as never, reading.complaints[0]?.place as never)).toEqual({
      file: 'rtl/parts/a.vh',
      line: 3,
      column: 8,
      endLine: 3,
      endColumn: 9,
    });
  });

  test.each([
    ['itself', { 'm.v': '`include "m.v"\nmodule m; endmodule\n' }],
    ['itself twice', { 'm.v': '`include "m.v"\n`include "m.v"\nmodule m; endmodule\n' }],
    ['each other', { 'm.v': '`include "n.vh"\nmodule m; endmodule\n', 'n.vh': '`include "m.v"\n`include "m.v"\n' }],
  ])('files that include %s', async (_name, texts) => {
    const files = Object.entries(texts).map(([path, text]) => ({ path, text }));
    const reading = await readSources(files.slice(0, 1), { provided: files.slice(1) });
    expect(reading.complaints.map(({ reason }) => reason)).toContain('recursive-include');
  });

  test('deeper than the limit', async () => {
    const provided = Array.from({ length: 40 }, (_each, depth) => ({
      path: `${depth}.vh`,
      text: `\`include "${depth + 1}.vh"\n`,
    }));
    const { complaints } = await readSources([{ path: 'm.v', text: '`include "0.vh"\n' }], { provided });
    expect(complaints).toMatchObject([
      { id: 'limit-reached', args: { limit: 'includeDepth', value: limitDefaults.includeDepth } },
    ]);
  });
});

describe('what directives set', () => {
  async function modules(text: string) {
    const { units } = await readText(text);
    return units.flatMap(({ table }) => (table.kind === 'module' ? [table] : []));
  }

  test('time scale, net type and cells hold from where they stand', async () => {
    const text = [
      'module a; endmodule',
      '`timescale 1 ns / 10 ps',
      '`default_nettype none',
      '`celldefine',
      'module b; endmodule',
      '`endcelldefine',
      '`timescale 100us/1us // slow',
      '`default_nettype tri0',
      'module c; endmodule',
      '`resetall',
      'module d; endmodule',
    ].join('\n');
    const seen = (await modules(text)).map(({ timeUnit, timePrecision, defaultNet, celldefine }) => [
      timeUnit,
      timePrecision,
      defaultNet,
      celldefine,
    ]);
    expect(seen).toEqual([
      [null, null, 'wire', false],
      [1000, 10, 'none', true],
      [100_000_000, 1_000_000, 'tri0', false],
      [null, null, 'wire', false],
    ]);
  });

  test('carried on to later files', async () => {
    const { units } = await readSources([
      { path: 'a.v', text: '`timescale 1ns/1ns\n' },
      { path: 'b.v', text: 'module b; endmodule\n' },
    ]);
    expect(units[0]?.table).toMatchObject({ timeUnit: 1000 });
  });

  test.each([
    '`timescale 3ns/1ns',
    '`timescale 1ps/1ns',
    '`timescale 1ns',
    '`default_nettype reg',
    '`begin_keywords x',
  ])('%s cannot be read', async (directive) => {
    const { said } = await read(`${directive}\nmodule m; endmodule\n`);
    expect(said).toEqual([expect.stringMatching(/^syntax bad-directive 1:1-1:\d+$/)]);
  });

  test.each(['`unconnected_drive pull1', '`delay_mode_zero'])(
    '%s changes what the text means: said',
    async (directive) => {
      const { said } = await read(`${directive}\nmodule m; endmodule\n`);
      expect(said).toEqual([expect.stringMatching(/^unsupported directive 1:1/)]);
    },
  );

  test.each(['`nounconnected_drive', '`line 3 "x.v" 0', '`pragma protect begin'])(
    '%s is passed over',
    async (directive) => {
      expect(await read(`${directive}\nmodule m; wire a; endmodule\n`)).toEqual({ items: 'wire a;', said: [] });
    },
  );
});
