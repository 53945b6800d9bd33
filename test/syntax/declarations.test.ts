// Headers, ports, nets, variables, parameters.

import { describe, expect, test } from 'vitest';
import { moduleOf, readText } from '../tools/reading';
import { spellHeader, spellItem } from './spell';

async function items(text: string): Promise<string> {
  return (await moduleOf(`module m; ${text} endmodule`)).items.map(spellItem).join(' ');
}

async function header(text: string): Promise<string> {
  return spellHeader(await moduleOf(`module m${text} endmodule`));
}

describe('nets and variables', () => {
  test.each([
    ['wire a, b;', 'wire a, b;'],
    ['wire signed [3:0] a, b = c;', 'wire signed [3:0] a, b = c;'],
    ['wire [3:0] #2 a = b;', 'wire [3:0] #(2) a = b;'],
    ['wire #(1,2,3) a;', 'wire #(1, 2, 3) a;'],
    ['tri0 #(1:2:3, 4) a;', 'tri0 #(1:2:3, 4) a;'],
    ['wire scalared [3:0] a;', 'wire [3:0] a;'],
    ['wire logic [3:0] a;', 'wire [3:0] a;'],
    ['supply1 v;', 'supply1 v;'],
    ['trireg (large) c;', 'trireg c;'],
    ['wire [3:0] m [0:7][3];', 'wire [3:0] m [0:7] [0:(3 - 1)];'],
    ['reg q = 1, r;', 'reg q = 1, r;'],
    ['reg signed [W-1:0] q;', 'reg signed [(W - 1):0] q;'],
    ['reg [7:0] mem [0:255];', 'reg [7:0] mem [0:255];'],
    ['logic [1:0][7:0] a;', 'logic [1:0] [7:0] a;'],
    ['var logic a;', 'logic a;'],
    ['integer i, j = 3;', 'integer signed i, j = 3;'],
    ['int unsigned u;', 'int u;'],
    ['byte b;', 'byte signed b;'],
    ['time t;', 'time t;'],
    ['real r = 1.5;', 'real signed r = real 1.5;'],
    ['realtime r;', 'real signed r;'],
    ['genvar i, j;', 'genvar i, j;'],
    ['parameter W = 8, X = W + 1;', 'parameter W = 8, X = (W + 1);'],
    ['parameter [3:0] P = 1;', 'parameter [3:0] P = 1;'],
    ['parameter signed [3:0] P = 1;', 'parameter signed [3:0] P = 1;'],
    ['localparam integer P = 1;', 'localparam integer signed P = 1;'],
    ['localparam real P = 1.5;', 'localparam real signed P = real 1.5;'],
    ['parameter P = "abc";', 'parameter P = "abc";'],
    ['(* keep *) wire a;', 'wire a;'],
    [
      'struct packed { logic a; logic [3:0] b, c; } s;',
      'logic struct packed { logic a; logic [3:0] b; logic [3:0] c; } s;',
    ],
    [
      'wire struct packed signed { t a; int b [2]; } [1:0] s;',
      'wire struct packed { t a; int signed b [0:(2 - 1)]; } signed [1:0] s;',
    ],
    [
      'typedef union packed { logic [1:0] a; struct packed { bit x, y; } b; } u;',
      'typedef union packed { logic [1:0] a; struct packed { bit x; bit y; } b; } u;',
    ],
    ['typedef logic [7:0] m [4];', 'typedef logic [7:0] [0:(4 - 1)] m;'],
    ['logic [3:0][7:0] a = 0;', 'logic [3:0] [7:0] a = 0;'],
  ])('%s', async (text, taken) => {
    expect(await items(text)).toBe(taken);
  });

  test.each([
    ['event e;', 'type event', '?[e]'],
    ['string s;', 'type string', '?[s]'],
    ['struct packed { string a; } s;', 'type struct with string', '?[s]'],
    ['typedef struct packed { event a; } pair_t;', 'typedef of type struct with event', 'typedef ? pair_t;'],
    ['union tagged { logic a; } s;', 'type union tagged', '?[s]'],
  ])('%s is a hole that names what it declares', async (text, what, taken) => {
    const reading = await readText(`module m; ${text} endmodule`);
    expect(reading.complaints).toMatchObject([{ id: 'unsupported', reason: 'construct', args: { what } }]);
    expect(await items(text)).toBe(taken);
  });

  test('strengths are read over, and that is said', async () => {
    const reading = await readText('module m; wire (pull0, pull1) a = b; endmodule');
    expect(reading.complaints).toMatchObject([{ id: 'unsupported', args: { what: 'strength' } }]);
    expect(await items('wire (pull0, pull1) a = b;')).toBe('wire a = b;');
  });
});

describe('headers', () => {
  test.each([
    [';', ''],
    ['();', ''],
    ['(input a, b, output reg [3:0] q, r);', 'input a | input b | output reg [3:0] q | output reg [3:0] r'],
    // IEEE 1364-2005 12.3.4: a port without direction takes over all that the one before it said.
    ['(input wire signed [3:0] a, b);', 'input wire signed [3:0] a | input wire signed [3:0] b'],
    ['(inout tri [1:0] a, input b);', 'inout tri [1:0] a | input b'],
    ['(output reg q = 1, output integer n);', 'output reg q = 1 | output integer signed n'],
    ['(input logic a, output var logic b);', 'input logic a | output logic b'],
    ['(input [1:0] a [0:3]);', 'input [1:0] a [0:3]'],
    [' #(parameter W = 8) (input [W-1:0] a);', 'parameter W = 8; | input [(W - 1):0] a'],
    [
      ' #(W = 8, parameter X = 3, Y = 2, localparam Z = 4) ();',
      'parameter W = 8; | parameter X = 3, Y = 2; | localparam Z = 4;',
    ],
    [' #(parameter integer A = 2, int B = 3) ();', 'parameter integer signed A = 2; | parameter int signed B = 3;'],
    ['(a, b);', 'a | b'],
    ['(a, b[3:0], c[2]);', 'a | b[3:0] | c[2]'],
    // IEEE 1364-2005 12.3.2: a port may be left empty, and may have an external name of its own.
    ['(a, , b);', 'a |  | b'],
    ['(a, );', 'a | '],
    ['(.x(a), .y(b[3:0]), c, .z());', '.x(a) | .y(b[3:0]) | c | .z()'],
    ['(.y(b[W - 1:0]), c);', '.y(b[(W - 1):0]) | c'],
    ['({a, b[1]}, c[3:W], .x({d, e}));', '{a, b[1]} | c[3:W] | .x({d, e})'],
  ])('module m%s', async (text, taken) => {
    const { complaints } = await readText(`module m${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(await header(text)).toBe(taken);
  });

  test('what no port can be keeps its place in the list', async () => {
    const { complaints } = await readText('module m({a, b + 1}, c); endmodule');
    expect(complaints).toMatchObject([{ id: 'unsupported', args: { what: 'port expression of this form' } }]);
    expect(await header('({a, b + 1}, c);')).toBe('? | c');
  });

  test('ports declared in the body', async () => {
    const module = await moduleOf('module m(a, b, c); input a; output reg [3:0] b; inout c; reg d; endmodule');
    expect(module.ansi).toBe(false);
    expect(module.items.map(spellItem)).toEqual(['input a;', 'output reg [3:0] b;', 'inout c;', 'reg d;']);
    const several = await moduleOf('module m(a, b); input wire signed [1:0] a, b; output reg q = 1; endmodule');
    expect(several.items.map(spellItem)).toEqual([
      'input wire signed [1:0] a;',
      'input wire signed [1:0] b;',
      'output reg q = 1;',
    ]);
  });

  test('a port of an interface', async () => {
    const { complaints, units } = await readText('module m(bus b, bus.master c, interface d, input e); endmodule');
    expect(complaints).toEqual([]);
    const ports = units[0]?.table.kind === 'module' ? units[0].table.ports : [];
    expect(
      ports.map(({ declarator, interface: reference }) => [
        declarator.name.name,
        reference?.name?.name,
        reference?.modport?.name,
      ]),
    ).toEqual([
      ['b', 'bus', undefined],
      ['c', 'bus', 'master'],
      ['d', undefined, undefined],
      ['e', undefined, undefined],
    ]);
  });
});
