import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { legend, semanticTokens } from '../../../server/src/editor/features/semantic-tokens';
import { document, open, run } from './caret';

/** `line text type modifiers`, read back from the five numbers of each token. */
async function tokens(text: string, within: Range | null = null, more = {}): Promise<readonly string[]> {
  const { study } = await open(text, more);
  const { data } = run(semanticTokens(study, document, within));
  const lines = text.split('\n');
  const found: string[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [down, across, length, type, bits] = data.slice(at, at + 5);
    line += down;
    character = down === 0 ? character + across : across;
    const marks = legend.tokenModifiers.filter((_, place) => (bits >> place) & 1);
    found.push(
      [line + 1, lines[line].slice(character, character + length), legend.tokenTypes[type], ...marks].join(' '),
    );
  }
  return found;
}

it('have the modifiers of ours that the manifest declares', () => {
  const manifest = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8'));
  const declared = manifest.contributes.semanticTokenModifiers.map(({ id }: { readonly id: string }) => id);
  // Those of protocol 3.17, SemanticTokenModifiers, need no declaration.
  const known = ['declaration', 'modification', 'readonly'];
  expect(legend.tokenModifiers.filter((modifier) => !known.includes(modifier))).toEqual(declared);
});

it('tell registers and clocks from other signals', async () => {
  const text =
    'module m(input clk, input en, output reg q);\n wire d = ~q & en;\n always @(posedge clk) q <= d;\nendmodule\n';
  expect(await tokens(text)).toEqual([
    '1 m class declaration',
    '1 clk variable declaration clock',
    '1 en variable declaration',
    '1 q variable declaration register',
    '2 d variable declaration',
    '2 q variable register',
    '2 en variable',
    '3 clk variable clock',
    '3 q variable modification register',
    '3 d variable',
  ]);
});

it('tell a clock where it only passes through, and a register that is a clock', async () => {
  const half = 'module half(input c, output reg q = 0);\n always @(negedge c) q <= ~q;\nendmodule\n';
  const text = 'module m(input clk, output r);\n wire q;\n half u(clk, q);\n half v(q, r);\nendmodule\n';
  const found = await tokens(text, null, { 'file:///project/half.v': half });
  expect(found).toContain('1 clk variable declaration clock');
  expect(found).toContain('2 q variable declaration clock');
  expect(found).toContain('3 half class');
  expect(found).toContain('3 u property declaration');
  expect(await tokens(half)).toContain('2 q variable modification register');
});

it('tell parameters, functions, macros, packages and blocks', async () => {
  const text =
    '`define W 2\npackage p; parameter N = `W; endpackage\nmodule m;\n localparam L = p::N;\n function f(input a); f = a; endfunction\n if (L) begin : g wire w = f(1); end\nendmodule\n';
  const found = await tokens(text);
  expect(found).toEqual(
    expect.arrayContaining([
      '1 W macro',
      '2 W macro',
      '2 p namespace declaration',
      '4 L variable declaration readonly',
      '4 p namespace',
      '4 N variable readonly',
      '5 f function declaration',
      '6 g namespace declaration',
      '6 f function',
    ]),
  );
});

it('tell types and the names that they list', async () => {
  const text = 'module m;\n typedef enum { IDLE, BUSY } state_t;\n state_t s;\n initial s = BUSY;\nendmodule\n';
  expect(await tokens(text)).toEqual(
    expect.arrayContaining([
      '2 state_t type declaration',
      '2 IDLE enumMember declaration',
      '3 state_t type',
      '4 BUSY enumMember',
    ]),
  );
});

it('are those of a range, counted in UTF-16 units', async () => {
  const text = 'module m(input a);\n /* 🕰️ */ wire w = a;\nendmodule\n';
  const range = { start: { line: 1, character: 0 }, end: { line: 1, character: 100 } };
  expect(await tokens(text, range)).toEqual(['2 w variable declaration', '2 a variable']);
});

it('leave out directives and macros that nobody defines', async () => {
  expect(
    await tokens('`timescale 1ns/1ps\n`ifdef X\n`else\n`endif\nmodule m; wire w; assign w = `Y; endmodule\n'),
  ).toEqual(['5 m class declaration', '5 w variable declaration', '5 w variable']);
});
