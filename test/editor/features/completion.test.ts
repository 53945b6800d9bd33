import { describe, expect, it } from 'vitest';
import { completion, filesForCompletion } from '../../../server/src/editor/features/completion';
import { covered, document, open, run } from './caret';
import { viewOf } from './workspace-of';

const child = 'module child #(parameter W = 1, D = 2)(input clk, input [W-1:0] a, output [W-1:0] y);\nendmodule\n';
const childFile = 'file:///project/child.v';

/** What is proposed at the caret: labels in their order. */
async function proposed(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  return (await items(marked, more)).map(({ label }) => label);
}

async function items(
  marked: string,
  more: Readonly<Record<string, string>> = {},
  fillsIn = false,
  trigger: string | null = null,
) {
  // The document alone is read, as when somebody types; other files come from the workspace.
  const { caret, study, text } = await open(marked);
  const further = run(filesForCompletion(study, document, caret));
  const view = await viewOf({ ...more, [document]: text }, further ?? { kind: 'units', names: [] });
  return run(completion(study, document, caret, view, { fillsIn, trigger })).map((item) => ({
    ...item,
    replaces: covered(text, (item.textEdit as { range: Parameters<typeof covered>[1] }).range),
    text: item.textEdit?.newText,
  }));
}

describe('in an instance', () => {
  const top = (line: string) => `module m(input clk, input x);\n ${line}\nendmodule\n`;
  const files = { [childFile]: child };

  it('the ports that are not connected yet are proposed behind a dot', async () => {
    expect(await proposed(top('child u(./*here*/'), files)).toEqual(['clk', 'a', 'y']);
    expect(await proposed(top('child u(.clk(clk), ./*here*/'), files)).toEqual(['a', 'y']);
    expect(await proposed(top('child u(.clk(clk), ./*here*/);'), files)).toEqual(['a', 'y']);
    expect(await proposed(top('child #(.W(2)) u[1:0](.a(x), .y/*here*/'), files)).toEqual(['clk', 'y']);
    expect(await proposed(top('child #(2, 3) u(\n .clk(clk),\n ./*here*/\n );\n wire z;'), files)).toEqual(['a', 'y']);
  });

  it('the parameters are proposed behind `#(`', async () => {
    expect(await proposed(top('child #(./*here*/'), files)).toEqual(['W', 'D']);
    expect(await proposed(top('child #(.W(1), ./*here*/) u();'), files)).toEqual(['D']);
  });

  it('a port is connected to the signal of its name, where there is one', async () => {
    const found = await items(top('child u(./*here*/'), files, true);
    const place = (word: string) => `$\{1:${word}}`;
    expect(found.map(({ text }) => text)).toEqual([`clk(${place('clk')})`, `a(${place('')})`, `y(${place('')})`]);
    expect((await items(top('child u(./*here*/'), files)).map(({ text }) => text)).toEqual(['clk(clk)', 'a()', 'y()']);
    expect(found.map(({ detail }) => detail)).toEqual(['input clk', 'input [W-1:0] a', 'output [W-1:0] y']);
  });

  it('of an old header too', async () => {
    const old = { [childFile]: 'module child(b, q);\n input [3:0] b;\n output q;\nendmodule\n' };
    const found = await items(top('child u(./*here*/'), old);
    expect(found.map(({ detail }) => detail)).toEqual(['input [3:0] b', 'output q']);
  });

  it('inside a connection the names here are proposed', async () => {
    const found = await proposed(top('child u(.clk(/*here*/'), files);
    expect(found.slice(0, 2)).toEqual(['clk', 'x']);
    expect(found).not.toContain('always');
  });

  it('of an unknown module nothing is', async () => {
    expect(await proposed(top('other u(./*here*/'), files)).toEqual([]);
  });
});

describe('elsewhere', () => {
  it('names of the scopes around are proposed, the nearest first', async () => {
    const text =
      'module m(input a);\n wire w;\n if (1) begin : g\n  wire inner;\n  assign inner = /*here*/\n end\n function f(input z); f = z; endfunction\nendmodule\n';
    const found = await proposed(text);
    expect(found[0]).toBe('inner');
    expect(found).toEqual(expect.arrayContaining(['a', 'w', 'g', 'f']));
    expect(found).not.toContain('z');
  });

  it('modules and keywords are proposed where an item begins', async () => {
    const found = await proposed('module m(input a);\n /*here*/\nendmodule\n', { [childFile]: child });
    expect(found).toEqual(expect.arrayContaining(['a', 'child', 'always', 'assign']));
    expect(found).not.toContain('m');
    expect(
      await proposed('module m(input a);\n wire w = /*here*/;\nendmodule\n', { [childFile]: child }),
    ).not.toContain('child');
  });

  it('a keyword brings its form, where the client fills in', async () => {
    const text = 'module m(input a);\n /*here*/\nendmodule\n';
    const always = async (fillsIn: boolean) => (await items(text, {}, fillsIn)).find(({ label }) => label === 'always');
    expect(await always(true)).toMatchObject({
      insertTextFormat: 2,
      text: `always @(posedge $\{1:clk}) begin\n\t$0\nend`,
    });
    expect(await always(false)).toMatchObject({ text: 'always' });
  });

  it('macros of every file and directives are proposed behind a back tick', async () => {
    const text = '`define HERE 1\nmodule m;\n wire [`/*here*/\nendmodule\n';
    const found = await items(text, { 'file:///project/w.vh': '`define THERE 2\n' });
    expect(found.map(({ label }) => label)).toEqual(expect.arrayContaining(['`HERE', '`THERE', '`ifdef']));
    expect(new Set(found.map(({ replaces }) => replaces))).toEqual(new Set(['3 `']));
  });

  it('the word so far is replaced', async () => {
    const [first] = await items('module m(input alpha);\n wire w = al/*here*/;\nendmodule\n');
    expect([first.label, first.replaces]).toEqual(['alpha', '2 al']);
  });

  it('members of what a path leads to', async () => {
    const text = (path: string) =>
      `module m(input a);\n child u[1:0]();\n if (1) begin : g wire w; end\n wire b = ${path}\nendmodule\n${child}`;
    expect(await proposed(text('u[0]./*here*/'))).toEqual(['W', 'D', 'clk', 'a', 'y']);
    expect(await proposed(text('m.g./*here*/'))).toEqual(['w']);
    expect(await proposed(text('a./*here*/'))).toEqual([]);
  });

  it('members of a package in another file', async () => {
    const files = { 'file:///project/p.sv': 'package p;\n parameter N = 1;\n parameter M = 2;\nendpackage\n' };
    expect(await proposed('module m;\n wire [p::/*here*/\nendmodule\n', files)).toEqual(['N', 'M']);
  });

  it('nothing behind a colon that ends a label', async () => {
    const text = 'module m(input a);\n always @* case (a)\n 1:/*here*/\n endcase\nendmodule\n';
    expect(await items(text, {}, false, ':')).toEqual([]);
    expect((await items(text)).length).toBeGreaterThan(0);
  });

  it('nothing in comments, strings and numbers', async () => {
    const text = (line: string) => `module m(input a);\n ${line}\nendmodule\n`;
    expect(await proposed(text('// a/*here*/'))).toEqual([]);
    expect(await proposed(text('initial $display("a/*here*/");'))).toEqual([]);
    expect(await proposed(text("wire [7:0] w = 8'h1/*here*/"))).toEqual([]);
  });
});
