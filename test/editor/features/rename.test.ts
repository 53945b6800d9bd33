import type { TextEdit } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { offsetAt } from '../../../server/src/editor/features/positions';
import { filesWithUses } from '../../../server/src/editor/features/references';
import { prepareRename, rename } from '../../../server/src/editor/features/rename';
import { type WorkspaceView, noWorkspace } from '../../../server/src/editor/features/workspace-view';
import { Refusal } from '../../../server/src/report/refusal';
import { covered, document, open, run } from './caret';
import { viewOf } from './workspace-of';

/** The text that a rename leaves; of other files `name: text`. Or why there is none. */
async function renamed(marked: string, to: string, more: Readonly<Record<string, string>> = {}): Promise<string[]> {
  const { caret, study, text } = await open(marked, more);
  const files: Readonly<Record<string, string>> = { ...more, [document]: text };
  const further = run(filesWithUses(study, document, caret));
  const view: WorkspaceView = further === null ? noWorkspace : await viewOf(files, further);
  try {
    run(prepareRename(study, document, caret));
    const { changes = {} } = run(rename(study, document, caret, to, view)) ?? {};
    return Object.entries(changes).map(([uri, edits]) => {
      const after = applied(files[uri] ?? '', edits);
      return uri === document ? after : `${uri.split('/').at(-1)}: ${after}`;
    });
  } catch (error) {
    if (error instanceof Refusal) return [`refused: ${error.message}`];
    throw error;
  }
}

function applied(text: string, edits: readonly TextEdit[]): string {
  const fromBehind = [...edits].sort(
    (left, right) => offsetAt(text, right.range.start) - offsetAt(text, left.range.start),
  );
  return fromBehind.reduce(
    (before, { newText, range }) =>
      before.slice(0, offsetAt(before, range.start)) + newText + before.slice(offsetAt(before, range.end)),
    text,
  );
}

const child = 'module child #(parameter W = 1)(input clk, output [W-1:0] y);\nendmodule\n';
const childFile = 'file:///project/child.v';

describe('a rename of a signal', () => {
  it('changes it in its module and nowhere else', async () => {
    expect(
      await renamed(
        'module m(input a, output y);\n wire /*here*/w = a; // w\n assign y = w;\nendmodule\nmodule n; wire w; endmodule',
        'v',
      ),
    ).toEqual([
      'module m(input a, output y);\n wire v = a; // w\n assign y = v;\nendmodule\nmodule n; wire w; endmodule',
    ]);
  });

  it('writes out what `.name` alone has connected', async () => {
    const text = 'module m(input /*here*/clk);\n child u(.clk, .y());\nendmodule\n';
    expect(await renamed(text, 'c', { [childFile]: child })).toEqual([
      'module m(input c);\n child u(.clk(c), .y());\nendmodule\n',
    ]);
  });

  it('follows hierarchical names from other files', async () => {
    const bench = 'module bench;\n m dut(1);\n initial $display(dut.g[0].w, w);\nendmodule\n';
    const text =
      'module m(input a);\n genvar i;\n for (i = 0; i < 2; i = i + 1) begin : g wire /*here*/w = a; end\nendmodule\n';
    expect(await renamed(text, 'v', { 'file:///project/bench.v': bench })).toEqual([
      text.replace('/*here*/w', 'v'),
      `bench.v: ${bench.replace('.w', '.v')}`,
    ]);
  });

  it('counts in UTF-16 units', async () => {
    expect(await renamed('module m(input a);\n /* 🕰️ */ wire /*here*/w = a; wire x = w;\nendmodule', 'v')).toEqual([
      'module m(input a);\n /* 🕰️ */ wire v = a; wire x = v;\nendmodule',
    ]);
  });
});

describe('a rename over files', () => {
  const top = 'module m(input clk);\n child #(.W(2)) u(.clk(clk), .y());\nendmodule\n';

  it('of a port changes the connections that name it', async () => {
    const text = child.replace('input clk', 'input /*here*/clk');
    expect(await renamed(text, 'clock', { 'file:///project/m.v': top })).toEqual([
      child.replace('clk', 'clock'),
      `m.v: ${top.replace('.clk', '.clock')}`,
    ]);
    expect(await renamed(top.replace('.clk', './*here*/clk'), 'clock', { [childFile]: child })).toEqual([
      top.replace('.clk', '.clock'),
      `child.v: ${child.replace('clk', 'clock')}`,
    ]);
  });

  it('of a parameter changes overrides', async () => {
    expect(
      await renamed(child.replace('parameter W', 'parameter /*here*/W'), 'N', { 'file:///project/m.v': top }),
    ).toEqual([child.replaceAll('W', 'N'), `m.v: ${top.replace('.W', '.N')}`]);
  });

  it('of a module changes its instances', async () => {
    expect(await renamed(top.replace('child', '/*here*/child'), 'kid', { [childFile]: child })).toEqual([
      top.replace('child', 'kid'),
      `child.v: ${child.replace('child', 'kid')}`,
    ]);
  });

  it('of a macro changes definitions, uses and questions', async () => {
    const header = '`ifndef W\n`define W 4\n`endif\n`define TWICE (2 * `W)\n';
    expect(
      await renamed('module m;\n wire [`/*here*/W:0] w;\nendmodule\n', 'WIDTH', { 'file:///project/w.vh': header }),
    ).toEqual([
      'module m;\n wire [`WIDTH:0] w;\nendmodule\n',
      `w.vh: ${header.replace('ifndef W', 'ifndef WIDTH').replace('define W ', 'define WIDTH ').replace('`W)', '`WIDTH)')}`,
    ]);
  });
});

describe('a rename is refused', () => {
  const first = async (...asked: Parameters<typeof renamed>) => (await renamed(...asked))[0];
  const m = 'module m(input a, b, output y);\n assign y = /*here*/a & b;\nendmodule\n';

  it('for a name that is none', async () => {
    expect(await first(m, '2a')).toMatch(/^refused: 2a is no name/);
    expect(await first(m, 'always')).toMatch(/^refused: always is no name/);
  });

  it('for a name that is taken', async () => {
    expect(await first(m, 'b')).toBe('refused: b has a meaning in m already: a.v, line 1');
    expect(await first('module /*here*/m; endmodule\nmodule n; endmodule', 'n')).toBe(
      'refused: n is a module of the workspace already',
    );
    const inner = 'module m(input /*here*/a);\n if (1) begin : g wire c = a; end\nendmodule\n';
    expect(await first(inner, 'c')).toBe('refused: c has a meaning in m already: a.v, line 2');
    expect(await first('`define A 1\n`define B 2\nmodule m; wire [`/*here*/A:0] w; endmodule', 'B')).toBe(
      'refused: B is a macro of the workspace already',
    );
  });

  it('but not for one that is only a port of what the module instantiates', async () => {
    const text = 'module m(input /*here*/a);\n child u(.clk(a), .y());\nendmodule\n';
    expect(await renamed(text, 'clk', { [childFile]: child })).toEqual([
      'module m(input clk);\n child u(.clk(clk), .y());\nendmodule\n',
    ]);
  });

  it('where a macro spells the name out', async () => {
    const text = '`define NOT_A (~a)\nmodule m(input /*here*/a, output y);\n assign y = `NOT_A;\nendmodule\n';
    expect(await first(text, 'c')).toBe('refused: a macro also spells a out: a.v, line 3');
  });

  it('where the name stands in a branch that is not taken', async () => {
    const text = 'module m(input /*here*/a, output y);\n`ifdef NEVER\n assign y = a;\n`endif\nendmodule\n';
    expect(await first(text, 'c')).toMatch(/^refused: a also stands in text that is not read.*: a\.v, line 3$/);
    const instance = '`ifdef NEVER\nmodule n; child u(); endmodule\n`endif\n';
    expect(await first(child.replace('child', '/*here*/child'), 'kid', { 'file:///project/n.v': instance })).toMatch(
      /^refused: child also stands in text that is not read.*: n\.v, line 2$/,
    );
  });

  it('where `.*` connects it', async () => {
    const text = 'module m(input /*here*/clk, output y);\n child u(.*);\nendmodule\n';
    expect(await first(text, 'c', { [childFile]: child })).toBe('refused: .* connects child by names: a.v, line 2');
    const inChild = child.replace('input clk', 'input /*here*/clk');
    expect(await first(inChild, 'c', { 'file:///project/m.v': text.replace('/*here*/', '') })).toBe(
      'refused: .* connects child by names: m.v, line 2',
    );
  });

  it('where nobody knows what a member belongs to', async () => {
    const bench = 'module bench;\n m u(); other v();\n initial $display(v.a);\nendmodule\n';
    expect(await first(m, 'c', { 'file:///project/bench.v': bench })).toBe(
      'refused: it cannot be told what a belongs to here: bench.v, line 3',
    );
  });

  it('where nothing declares the name', async () => {
    expect(await first('module m;\n /*here*/unknown u(.x(1));\nendmodule', 'c')).toBe(
      'refused: it is not known where unknown is declared',
    );
    expect(await first('module m;\n unknown u(./*here*/x(1));\nendmodule', 'c')).toBe(
      'refused: it is not known where x is declared',
    );
  });
});

it('nothing is renamed where no name stands', async () => {
  const { caret, study } = await open('module m(input a); // /*here*/ comment\nendmodule');
  expect(run(prepareRename(study, document, caret))).toBeNull();
});

it('what is renamed is the name alone', async () => {
  const { caret, study, text } = await open('module m(input [1:0] a);\n wire w = /*here*/a[1];\nendmodule');
  const prepared = run(prepareRename(study, document, caret));
  expect(prepared && covered(text, prepared.range)).toBe('2 a');
});
