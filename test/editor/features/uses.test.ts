import { describe, expect, it } from 'vitest';
import { highlight } from '../../../server/src/editor/features/highlight';
import { references } from '../../../server/src/editor/features/references';
import { covered, document, open, run } from './caret';

const words = ['', 'text', 'read', 'write'];

async function highlighted(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  const { caret, study, text } = await open(marked, more);
  return run(highlight(study, document, caret)).map(
    ({ kind = 0, range }) => `${covered(text, range)} ${words[kind]} ${range.start.character}`,
  );
}

/** Line, text and kind alone. */
async function kinds(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  return (await highlighted(marked, more)).map((line) => line.replace(/ \d+$/, ''));
}

describe('uses of a name', () => {
  it('are told apart by whether they write or read', async () => {
    const text =
      'module m(input clk, output reg q);\n initial q = 0;\n always @(posedge clk) /*here*/q <= ~q;\nendmodule';
    expect(await kinds(text)).toEqual(['1 q text', '2 q write', '3 q write', '3 q read']);
  });

  it('of an index are read where the vector is written', async () => {
    const text =
      'module m(input [1:0] /*here*/i, output reg [3:0] y, z);\n always @* {y[i], z[i +: 1]} = i;\nendmodule';
    expect(await kinds(text)).toEqual(['1 i text', '2 i read', '2 i read', '2 i read']);
    expect(await kinds(text.replace('/*here*/', '').replace('y[i]', '/*here*/y[i]'))).toEqual([
      '1 y text',
      '2 y write',
    ]);
  });

  it('are written by the gates and instances that drive them', async () => {
    const child = 'module child(input a, output y);\nendmodule\n';
    const text = (line: string) => `module m(input a, output /*here*/y);\n ${line}\nendmodule\n`;
    expect(await kinds(text('and (y, a, y);'))).toEqual(['1 y text', '2 y write', '2 y read']);
    expect(await kinds(text('buf (y, y, a);'))).toEqual(['1 y text', '2 y write', '2 y write']);
    expect(await kinds(text('child u(y, y);') + child)).toEqual(['1 y text', '2 y read', '2 y write']);
    // The port's own name belongs to the other module.
    expect(await kinds(text('child u(.a(y), .y(y));') + child)).toEqual(['1 y text', '2 y read', '2 y write']);
    expect(await kinds(text('child u(.a, .y);') + child)).toEqual(['1 y text', '2 y write']);
    expect(await kinds(text('unknown u(.a(a), .y(y));'))).toEqual(['1 y text', '2 y read']);
  });

  it('of a module are its header, its instances and its closing label', async () => {
    const text = 'module /*here*/c(input a);\nendmodule : c\nmodule m(input a);\n c u(a);\nendmodule';
    expect(await kinds(text)).toEqual(['1 c text', '2 c read', '4 c read']);
  });

  it('of one name in two modules are not mixed', async () => {
    const text =
      'module m(input /*here*/a, output y);\n assign y = a;\nendmodule\nmodule n(input a);\n wire b = a;\nendmodule';
    expect(await kinds(text)).toEqual(['1 a text', '2 a read']);
  });

  it('are found in a module that is half typed', async () => {
    const text = 'module m(input clk, output reg q);\n always @(posedge clk) begin\n  /*here*/q <= q +\n';
    expect((await highlighted(text)).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual([
      '1 q',
      '3 q',
      '3 q',
    ]);
  });

  it('in comments, strings and other files are none', async () => {
    const text = 'module m(input /*here*/a); // a\n initial $display("a"); /* a */\n n u(a);\nendmodule';
    const other = { 'file:///project/n.v': 'module n(input a);\nendmodule' };
    expect(await kinds(text, other)).toEqual(['1 a text', '3 a read']);
  });

  it('stand at the right columns behind signs of two UTF-16 units', async () => {
    expect(await highlighted('module m(input /*here*/a);\n /* 🕰️🕰️ */ wire w = a;\nendmodule')).toEqual([
      '1 a text 15',
      '2 a read 23',
    ]);
  });

  it('leave the declaration out where that is asked for', async () => {
    const { caret, study, text } = await open('module m(input /*here*/a, output y);\n assign y = a;\nendmodule');
    const found = (includeDeclaration: boolean) =>
      run(references(study, document, caret, { includeDeclaration })).map(({ range }) => covered(text, range));
    expect(found(true)).toEqual(['1 a', '2 a']);
    expect(found(false)).toEqual(['2 a']);
  });
});
