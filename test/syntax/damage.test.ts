// Broken text: what is said, where, and that no more is lost than must be. What is said names the first token
// that no reading allows, or the end of what is not whole.

import { describe, expect, test } from 'vitest';
import { spanOf } from '../../server/src/text/origin';
import { readText } from '../tools/reading';
import { spellHeader, spellItem } from './spell';

async function read(text: string) {
  const reading = await readText(text);
  const said = reading.complaints.map(({ id, reason, args, place }) => {
    const unit = reading.units[place.unit];
    if (unit === undefined) throw new Error('no such unit');
    const { line, column, endLine, endColumn } = spanOf(reading.files, unit.origin, place);
    const span =
      line === endLine && column === endColumn ? `${line}:${column}` : `${line}:${column}-${endLine}:${endColumn}`;
    return `${id} ${[reason, ...Object.values(args)].join(' ')} @ ${span}`;
  });
  const modules = reading.units.flatMap(({ table }) => (table.kind === 'module' ? [table] : []));
  return { said, items: modules.flatMap((module) => module.items.map(spellItem)), modules };
}

const inModule = (text: string) => `module m;\n${text}\nendmodule\n`;

describe('one item', () => {
  test.each([
    ['assign a = b + ;', 'syntax unexpected ; @ 2:16-2:17', '?[a]'],
    ['assign a = (b;', 'syntax missing ) @ 2:14', '?[a]'],
    ['assign {a, b = c;', 'syntax unexpected = @ 2:14-2:15', '?[a b]'],
    ['assign a = b c;', 'syntax unexpected c @ 2:14-2:15', '?[a]'],
    ['wire [3:0 a;', 'syntax unexpected a @ 2:11-2:12', '?[a]'],
    ['wire a, ;', 'syntax unexpected ; @ 2:9-2:10', 'wire a;'],
    ['reg [3:0] q = ;', 'syntax unexpected ; @ 2:15-2:16', '?[q]'],
    ['parameter = 3;', 'syntax unexpected = @ 2:11-2:12', '?[]'],
    ['sub u (.a(b), .c(;', 'syntax missing ) @ 2:18', '?[u b]'],
    ['sub u (.a(b) .c(d));', 'syntax unexpected . @ 2:14-2:15', '?[u b d]'],
    ['and (a, b, ;', 'syntax missing ) @ 2:12', '?[a b]'],
    ['always @(posedge c q <= d;', 'syntax unexpected q @ 2:20-2:21', 'always ?[c q]'],
    ['initial $display("abc);', 'syntax unclosed string " @ 2:18-2:24', 'initial ?[]'],
    [
      'function f; input x; f = ; endfunction',
      'syntax unexpected ; @ 2:26-2:27',
      'function f(input x); ?[f] endfunction',
    ],
    ['end', 'syntax unexpected end @ 2:1-2:4', '?[]'],
    ['endcase', 'syntax unexpected endcase @ 2:1-2:8', '?[]'],
    ['foo', 'syntax unexpected-end @ 2:1-2:4', '?[]'],
    ['q <= d;', 'syntax unexpected <= @ 2:3-2:5', '?[q]'],
    ['input a;', 'syntax unexpected input @ 2:1-2:6', '?[a]'],
  ])('%s', async (text, complaint, taken) => {
    const { said, items } = await read(inModule(`${text}\nwire after;`));
    expect(said).toEqual([complaint]);
    expect(items).toEqual([taken, 'wire after;']);
  });

  test('a missing comma between lines of a list loses nothing', async () => {
    const { said, items } = await read(inModule('sub u (\n  .a(b)\n  .c(d)\n);\nwire w;'));
    expect(said).toEqual(['syntax missing , @ 3:8']);
    expect(items).toEqual(['sub u(.a(b), .c(d));', 'wire w;']);
  });

  test('a missing semicolon loses nothing', async () => {
    const { said, items } = await read(
      inModule('assign a = b\nassign c = d;\nwire [3:0] w\nreg r\nsub u (a)\nsub v (b);\ninitial r = 0\nwire x;'),
    );
    expect(said).toEqual([
      'syntax missing ; @ 2:13',
      'syntax missing ; @ 4:13',
      'syntax missing ; @ 5:6',
      'syntax missing ; @ 6:10',
      'syntax missing ; @ 8:14',
    ]);
    expect(items).toEqual([
      'assign a = b;',
      'assign c = d;',
      'wire [3:0] w;',
      'reg r;',
      'sub u(a);',
      'sub v(b);',
      'initial r = 0;',
      'wire x;',
    ]);
  });
});

describe('one statement', () => {
  const inBlock = (text: string) => inModule(`always @(posedge c) begin\na <= 1;\n${text}\nb <= 2;\nend\nwire after;`);

  test.each([
    ['x <= ;', 'syntax unexpected ; @ 4:6-4:7', '?[x]'],
    ['x = = y;', 'syntax unexpected = @ 4:5-4:6', '?[x]'],
    ['if (p & ) x <= 1;', 'syntax unexpected ) @ 4:9-4:10', '?[x]'],
    ['if p) x <= 1;', 'syntax unexpected p @ 4:4-4:5', '?[x]'],
    ['for (i = 0; i < ; i = i + 1) x[i] <= 1;', 'syntax unexpected ; @ 4:17-4:18', '?[x]'],
    ['if (p begin x <= 1; end', 'syntax unexpected begin @ 4:7-4:12', '?[x]'],
    ['case (s) 0 x <= 1; 1: y <= 2; endcase', 'syntax unexpected x @ 4:12-4:13', '?[x y]'],
    ['x <= y', 'syntax missing ; @ 4:7', 'x <= y;'],
    ['$display("a" "b");', 'syntax unexpected "b" @ 4:14-4:17', '?[]'],
  ])('%s', async (text, complaint, taken) => {
    const { said, items } = await read(inBlock(text));
    expect(said).toEqual([complaint]);
    expect(items).toEqual([`always @(posedge c) begin a <= 1; ${taken} b <= 2; end`, 'wire after;']);
  });

  test('inside an arm of a case only that arm is lost', async () => {
    const { said, items } = await read(inBlock('case (s) 0: x <= ; 1: begin y <= 2; z = ; end endcase'));
    expect(said).toEqual(['syntax unexpected ; @ 4:18-4:19', 'syntax unexpected ; @ 4:41-4:42']);
    expect(items[0]).toContain('case s 0: ?[x] 1: begin y <= 2; ?[z] end endcase');
  });

  test('a begin without its end is closed before the next item', async () => {
    const { said, items } = await read(
      inModule('always @(posedge c) begin\n  if (a) begin\n    x <= 1;\n  y <= 2;\nassign p = q;\nwire w;'),
    );
    expect(said).toEqual(['syntax unclosed begin end @ 2:21-2:26', 'syntax unclosed begin end @ 3:10-3:15']);
    expect(items).toEqual(['always @(posedge c) begin if a begin x <= 1; y <= 2; end end', 'assign p = q;', 'wire w;']);
  });

  test.each([
    [
      'case without endcase',
      'always @* begin\ncase (s)\n0: a = 1;\nend\nwire w;',
      ['syntax unclosed case endcase @ 3:1-3:5'],
      'always @* begin case s 0: a = 1; endcase end',
    ],
    [
      'fork without join',
      'initial fork\na = 1;\nwire w;',
      ['syntax unclosed fork join @ 2:9-2:13'],
      'initial fork a = 1; join',
    ],
    [
      'a process without a statement',
      'always @(posedge c)\nwire w;',
      ['syntax unexpected-end @ 2:19-2:20'],
      'always ?[]',
    ],
  ])('%s', async (_what, text, complaints, taken) => {
    const { said, items } = await read(inModule(text));
    expect(said).toEqual(complaints);
    expect(items).toEqual([taken, 'wire w;']);
  });
});

describe('functions and tasks', () => {
  test('a damaged statement or declaration loses only itself', async () => {
    const { said, items } = await read(
      inModule('function [3:0] f(input a);\nreg [1:0 b;\nreg c;\nbegin\nc = a;\nf = ;\nend\nendfunction\nwire w;'),
    );
    expect(said).toEqual(['syntax unexpected b @ 3:10-3:11', 'syntax unexpected ; @ 7:5-7:6']);
    expect(items).toEqual(['function [3:0] f(input a); ?[b] reg c; begin c = a; ?[f] end endfunction', 'wire w;']);
  });

  test('an end that is missing is put before endtask', async () => {
    const { said, items } = await read(inModule('task t;\nif (a) begin\nb = 1;\nendtask\nwire w;'));
    expect(said).toEqual(['syntax unclosed begin end @ 3:8-3:13']);
    expect(items).toEqual(['task t(); if a begin b = 1; end endtask', 'wire w;']);
  });
});

// In text whose closing words stand where the line of the opening word begins.
describe('closing words by column', () => {
  const process = (...lines: readonly string[]) =>
    inModule(
      ['  always @(posedge c)', '    if (r) begin', '      q <= 0;', '    end', ...lines, '  wire w;'].join('\n'),
    );

  test('an end too many before else', async () => {
    const { said, items } = await read(
      process('    end else begin', '      q <= d;', '    end').replace('    end\n', ''),
    );
    expect(said).toEqual([]);
    expect(items).toHaveLength(2);
    const twice = await read(process('    end end else begin', '      q <= d;', '    end').replace('    end\n', ''));
    expect(twice.said).toEqual(['syntax unexpected end @ 5:9-5:12']);
    expect(twice.items).toEqual(items);
  });

  test('a begin that is missing costs its branch, not what is around it', async () => {
    const lines = [
      '    else begin',
      '      case (s)',
      '        0:',
      '          if (a)',
      '            x <= 1;',
      '            y <= 2;',
    ];
    const rest = ['          end', '        1: z <= 3;', '      endcase', '      v <= 4;', '    end'];
    const { items } = await read(process(...lines, ...rest));
    expect(items[0]).toContain('1: z <= 3; endcase v <= 4; end');
    expect(items[1]).toBe('wire w;');
  });

  test('an end that is missing', async () => {
    const lines = ['    else begin', '      if (a) begin', '        x <= 1;', '      y <= 2;', '    end'];
    const { said, items } = await read(process(...lines));
    expect(said).toEqual(['syntax unclosed begin end @ 7:14-7:19']);
    expect(items[0]).toContain('else begin if a begin x <= 1; y <= 2; end end');
  });
});

test('arms of a case that lack their statement or their colon', async () => {
  const arms = (text: string) => read(inModule(`always @* case (s)\n${text}\n2: z = 3;\nendcase`));
  expect(await arms('0:\n1: y = 2;')).toMatchObject({
    said: ['syntax missing a statement @ 3:3'],
    items: ['always @* case s 0: begin end 1: y = 2; 2: z = 3; endcase'],
  });
  expect((await arms('0: x = 1;\n1 y = 2;')).items).toEqual(['always @* case s 0: ?[x y] 2: z = 3; endcase']);
  expect((await arms('0: x = 1;;')).items).toEqual(['always @* case s 0: x = 1; 2: z = 3; endcase']);
});

describe('generate constructs', () => {
  test('an item inside loses only itself', async () => {
    const { said, items } = await read(
      inModule('generate if (A) begin : x\nassign a = ;\nwire b;\nend else wire c;\nendgenerate\nwire w;'),
    );
    expect(said).toEqual(['syntax unexpected ; @ 3:12-3:13']);
    expect(items).toEqual(['if A begin : x ?[a] wire b; end else wire c;', 'wire w;']);
  });

  test('generate without endgenerate', async () => {
    const { said, items } = await read(inModule('generate\nwire a;'));
    expect(said).toEqual(['syntax unclosed generate endgenerate @ 2:1-2:9']);
    expect(items).toEqual(['wire a;']);
  });
});

describe('headers', () => {
  test.each([
    ['module m(input a, output b\n', 'syntax missing ) @ 1:27', 'input a | output b', ''],
    ['module m(input a, output b;\n', 'syntax missing ) @ 1:27', 'input a | output b', ''],
    ['module m(input a, output b)\n', 'syntax missing ; @ 1:28', 'input a | output b', ''],
    ['module m(\n  input a\n  input b\n);\n', 'syntax missing , @ 2:10', 'input a | input b', ''],
    ['module m(input a,);\n', 'syntax unexpected ) @ 1:18-1:19', 'input a', ''],
    ['module m #(parameter W = ) (input a);\n', 'syntax unexpected ) @ 1:26-1:27', 'input a', '?[W]'],
    ['module m(input [3:0 a);\n', 'syntax unexpected a @ 1:21-1:22', '', '?[a]'],
    ['module m(input a, input [3:0 b, output c);\n', 'syntax unexpected b @ 1:30-1:31', 'input a | output c', '?[b]'],
    ['module m(input a, input b + c, output d);\n', 'syntax unexpected + @ 1:27-1:28', 'input a | output d', '?[c]'],
    // What takes its type from a lost port is lost with it.
    [
      'module m(input a, output [3: b, c, input d);\n',
      'syntax unexpected , @ 1:31-1:32',
      'input a | input d',
      '?[b c]',
    ],
    ['module m(input a; output b);\n', 'syntax unexpected ; @ 1:17-1:18', 'input a | output b', ''],
    [
      'module m #(parameter W = 4, parameter = 3) (input a);\n',
      'syntax unexpected = @ 1:39-1:40',
      'parameter W = 4; | input a',
      '?[]',
    ],
    [
      'module m import p::*; #(parameter W = 4 (input 3, input a);\n',
      'syntax unexpected ( @ 1:41-1:42',
      'parameter W = 4; | input a',
      '?[] import p::*;',
    ],
  ])('%s', async (header, complaint, taken, holes) => {
    const { said, items, modules } = await read(
      `${header}wire w;\nassign w = a;\nendmodule\nmodule n; wire v; endmodule\n`,
    );
    expect(said).toEqual([complaint]);
    expect(items.join(' ').replace(/ +/g, ' ')).toBe(`${holes === '' ? '' : `${holes} `}wire w; assign w = a; wire v;`);
    const [first] = modules;
    expect(first === undefined ? '' : spellHeader(first)).toBe(taken);
    expect(first?.headerWhole).toBe(holes === '');
  });

  test('ports declared in the body are read where the header is lost', async () => {
    const { items } = await read('module m(a, b c);\ninput a; output b;\nwire w;\nendmodule\n');
    expect(items).toEqual(['?[c]', 'input a;', 'output b;', 'wire w;']);
  });
});

test('one broken module leaves its neighbors whole', async () => {
  const { items, modules } = await read(
    'module a; wire x; endmodule\nmodule b; ) ( ] begin = = ; endmodule\nmodule c; wire z; endmodule\n',
  );
  expect(modules.map(({ name }) => name.name)).toEqual(['a', 'b', 'c']);
  expect(items[0]).toBe('wire x;');
  expect(items[items.length - 1]).toBe('wire z;');
});

test('text that is no Verilog at all gives a bounded number of complaints', async () => {
  const { said } = await read(inModule('Dear all,\n\nplease find the minutes attached; they are short.\n\nRegards'));
  expect(said.length).toBeGreaterThan(0);
  expect(said.length).toBeLessThan(6);
});
