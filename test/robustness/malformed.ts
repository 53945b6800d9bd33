// Files that nobody should have to read, each beside a small whole module: made to be too deep, too long, without end, or no
// text at all. Made here, byte by byte, so that nothing large is kept.

export interface MalformedInput {
  readonly what: string;
  readonly files: Readonly<Record<string, string | Uint8Array>>;
  /** Some message says this; null where the text is as it should be, and nothing is to be said. */
  readonly says: RegExp | null;
  /** Where the whole module cannot be reached: what opens before it is never closed. */
  readonly hidden?: true;
}

/** A flip-flop that toggles: what is to be found in it is known. */
const steady =
  'module steady(input clk, output reg q);\n  initial q = 0;\n  always @(posedge clk) q <= ~q;\nendmodule\n';

const many = 100_000;

/** The damaged module comes second, so that what it never closes hides nothing. */
function beside(text: string): Readonly<Record<string, string>> {
  return { 'm.v': `${steady}${text}\n` };
}

function inModule(text: string): Readonly<Record<string, string>> {
  return beside(`module m(input a, output b);\n${text}\nendmodule`);
}

/** Both modules under one top, so that the whole design is gone through. */
function underTop(text: string): Readonly<Record<string, string>> {
  const top = 'module top(input clk, output q, output [7:0] x);\n  steady s(clk, q);\n  m u(x);\nendmodule\n';
  return { 'm.v': `${steady}module m(output [7:0] x);\n${text}\nendmodule\n${top}` };
}

export const malformedInputs: readonly MalformedInput[] = [
  { what: 'a comment that is never closed', files: beside('module m; /* open'), says: /comment is never closed/ },
  {
    what: 'a comment that is never closed, before all',
    files: { 'm.v': `/* open\n${steady}` },
    says: /comment is never closed/,
    hidden: true,
  },
  {
    what: 'a block that is never closed',
    files: beside('module m;\n initial begin a = 1;\n'),
    says: /begin is never closed/,
  },
  { what: 'a module that is never closed', files: beside('module m; wire a;'), says: /module is never closed/ },
  { what: 'a string that is never closed', files: inModule('initial $display("abc);'), says: /string is never closed/ },
  {
    what: '100,000 parentheses',
    files: inModule(`assign b = ${'('.repeat(many)}a${')'.repeat(many)};`),
    says: null,
  },
  {
    what: '100,000 parentheses, open',
    files: inModule(`assign b = ${'('.repeat(many)}a;`),
    says: /\) is missing here/,
  },
  {
    what: '100,000 blocks',
    files: inModule(`initial ${'begin '.repeat(many)}${'end '.repeat(many)}`),
    says: /more than 400 levels of nesting/,
  },
  { what: '100,000 blocks, open', files: inModule(`initial ${'begin '.repeat(many)}`), says: /begin is never closed/ },
  { what: '100,000 `ifdef', files: beside('`ifdef A\n'.repeat(many)), says: /`ifdef is never closed/ },
  {
    what: '100,000 `ifndef, closed',
    files: beside(`${'`ifndef A\n'.repeat(many)}${'`endif\n'.repeat(many)}`),
    says: null,
  },
  {
    what: '20,000 modules, open',
    files: beside(Array.from({ length: 20_000 }, (_each, index) => `module m${index};\n`).join('')),
    says: /module is never closed/,
  },
  {
    what: 'a generate loop of a thousand million',
    files: underTop('genvar i; for (i = 0; i < 1000000000; i = i + 1) begin : g wire w; end'),
    says: /more than 65536 turns/,
  },
  {
    what: 'a generate loop without end',
    files: underTop('genvar i; for (i = 0; i < 8; i = i) begin : g wire w; end'),
    says: /more than 65536 turns/,
  },
  {
    what: 'a loop without end in a function of constants',
    files: underTop(
      'function integer f(input integer n); begin f = n; while (f > 0) f = f + 0; end endfunction\nlocalparam A = f(1); assign x = A;',
    ),
    says: /more than 65536 turns/,
  },
  {
    what: 'a function of constants that calls itself without end',
    files: underTop(
      'function automatic integer f(input integer n); f = f(n + 1); endfunction\nlocalparam A = f(1); assign x = A;',
    ),
    says: /more than 400 levels/,
  },
  {
    what: 'a module inside itself',
    files: beside(
      'module m(input a); m u(a); endmodule\nmodule top(input clk, output q); steady s(clk, q); m u(clk); endmodule',
    ),
    says: /contains itself without end/,
  },
  {
    what: 'two modules inside each other, twice',
    files: beside(
      'module m(input a); n u(a); n v(a); endmodule\nmodule n(input a); m u(a); m v(a); endmodule\nmodule top(input clk, output q); steady s(clk, q); m u(clk); endmodule',
    ),
    says: /contains itself without end/,
  },
  {
    what: 'modules that double thirty times',
    files: beside(
      `${Array.from({ length: 30 }, (_each, level) => `module d${level}(input a); ${level === 0 ? '' : `d${level - 1} u(a), v(a);`} endmodule\n`).join('')}module top(input clk, output q); steady s(clk, q); d29 u(clk); endmodule`,
    ),
    says: /more than 100000 instances/,
  },
  { what: 'a line of 8 MB', files: inModule(`assign b = a; ${'// long '.repeat(1_200_000)}`), says: null },
  {
    what: 'a statement of 8 MB on one line',
    files: inModule(`assign b = a${' + a'.repeat(2_000_000)};`),
    says: /more than 1500000 words/,
  },
  {
    what: 'words without sense, 8 MB on one line',
    files: inModule('foo bar ( ) = ; '.repeat(500_000)),
    says: /more than 1500000 words/,
  },
  { what: 'a name of 1 MB', files: inModule(`wire ${'x'.repeat(1 << 20)};`), says: null },
  { what: 'an unknown name of 1 MB', files: underTop(`assign x = ${'y'.repeat(1 << 20)};`), says: /is not declared/ },
  { what: 'a number of 1 MB', files: underTop(`assign x = 8'd${'9'.repeat(1 << 20)};`), says: null },
  { what: 'NUL bytes', files: inModule(`assign b = ${'\0'.repeat(100)}a;\n\0`), says: /not expected here/ },
  {
    what: 'random bytes',
    files: { 'm.v': bytes(1_000_000), 'n.v': steady },
    says: /no text in UTF-8/,
  },
  { what: 'a byte order mark', files: { 'm.v': `\uFEFF${steady}` }, says: null },
  { what: 'a byte order mark in the middle', files: beside('\uFEFFmodule m(input a); endmodule'), says: null },
  { what: 'another byte order', files: { 'm.v': wide(steady), 'n.v': steady }, says: /no text in UTF-8/ },
  { what: 'carriage returns alone', files: { 'm.v': steady.replaceAll('\n', '\r') }, says: null },
  {
    what: 'bytes that are no UTF-8',
    files: { 'm.v': latin(`${steady}// gr\xfcn\nmodule m(input \xe9); endmodule\n`) },
    says: /character here is not in UTF-8/,
  },
  {
    what: 'an include cycle',
    files: {
      'm.v': `${steady}\`include "n.vh"\n`,
      'n.vh': '`include "o.vh"\n',
      'o.vh': '`include "n.vh"\n`include "n.vh"\n',
    },
    says: /includes itself/,
  },
  {
    what: 'a file that includes itself twice',
    files: { 'm.v': `${steady}\`include "m.v"\n\`include "m.v"\n` },
    says: /includes itself/,
  },
  {
    what: 'a width of a thousand million',
    files: underTop('wire [999999999:0] w; assign x = w[7:0];'),
    says: /more than 65536 bits/,
  },
  {
    what: 'a concatenation of a thousand million bits',
    files: underTop("wire w = ^{1000000000{1'b1}}; assign x = {8{w}};"),
    says: /more than 65536 bits/,
  },
  {
    what: 'a constant of a thousand million bits',
    files: underTop("assign x = 1000000000'd5;"),
    says: /more than 65536 bits/,
  },
  {
    what: 'a memory of a thousand million words',
    files: underTop('reg [7:0] mem [0:999999999]; assign x = mem[3];'),
    says: /more than 4194304 words/,
  },
  {
    what: 'a power without end',
    files: underTop('localparam A = 2 ** 1000000000; localparam [65535:0] B = 3 ** 1000000000; assign x = A + B;'),
    says: null,
  },
  { what: 'a shift by a thousand million', files: underTop("assign x = 8'd1 << 1000000000;"), says: null },
  {
    what: 'a macro that doubles sixty times',
    files: beside(`${doubling('x')}module m; wire \`D60; endmodule`),
    says: /more than 16000000 characters after macro expansion/,
  },
  {
    what: 'a macro that doubles nothing sixty times',
    files: beside(`${doubling('')}module m; wire \`D60 a; endmodule`),
    says: /more than 16000000 characters after macro expansion/,
  },
  {
    what: 'macros one inside the other',
    files: beside(
      `\`define C0 a\n${Array.from({ length: 5_000 }, (_each, level) => `\`define C${level + 1} \`C${level}\n`).join('')}module m; wire \`C5000; endmodule`,
    ),
    says: /more than 128 nested macro uses/,
  },
  {
    what: 'a macro that leads back to itself',
    files: beside('`define A `B\n`define B `A\nmodule m; wire `A; endmodule'),
    says: /leads back to itself/,
  },
  {
    what: 'zero divisors in constants',
    files: underTop('parameter A = 1 / 0; parameter B = 1 % 0; wire [A:0] w; assign x = B + w;'),
    says: /unknown bits/,
  },
  {
    what: 'a range with an unknown bound',
    files: underTop("parameter A = 8'bx; wire [A:0] w; assign x = w;"),
    says: /unknown bits/,
  },
  {
    what: 'parameters that depend on each other',
    files: underTop('parameter A = B; parameter B = A; wire [A:0] w; assign x = w;'),
    says: /depends on itself/,
  },
  {
    what: 'a thousand modules of one name',
    files: beside('module m; endmodule\n'.repeat(1_000)),
    says: /is given twice/,
  },
  {
    what: 'a case of 20,000 arms',
    files: underTop(
      `reg [7:0] y; wire [16:0] s; always @* case (s)\n${Array.from({ length: 20_000 }, (_each, arm) => `${arm}: y = ${arm % 256};`).join('\n')}\nendcase\nassign x = y;`,
    ),
    says: /latch/,
  },
  { what: 'a ring of gates', files: underTop('wire r; not (r, r); assign x = {8{r}};'), says: /feeds itself/ },
  { what: 'an empty file', files: { 'm.v': '', 'n.v': steady }, says: null },
];

/** Sixty macros, each twice the one before. */
function doubling(first: string): string {
  return [
    `\`define D0 ${first}`,
    ...Array.from({ length: 60 }, (_each, level) => `\`define D${level + 1} \`D${level} \`D${level}`),
    '',
  ].join('\n');
}

/** Every value of a byte, in no order that means anything. */
function bytes(length: number): Uint8Array {
  return Uint8Array.from({ length }, (_each, index) => (index * 7_919 + (index >> 3) * 104_729) % 256);
}

/** Two bytes to a character, the high one first, with the mark that says so. */
function wide(text: string): Uint8Array {
  const marked = `\uFEFF${text}`;
  return Uint8Array.from(
    { length: marked.length * 2 },
    (_each, index) => (marked.charCodeAt(index >> 1) >> (index % 2 === 0 ? 8 : 0)) & 255,
  );
}

function latin(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}
