import { describe, expect, it } from 'vitest';
import { definition } from '../../../server/src/editor/features/definition';
import { covered, document, open, run } from './caret';

const child = 'module child #(parameter W = 1)(input clk, output [W-1:0] y);\nendmodule\n';

/** Where the caret leads to: file, line, text. */
async function leads(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  const { caret, study, text } = await open(marked, more);
  return run(definition(study, document, caret)).map(({ range, uri }) =>
    uri === document ? covered(text, range) : `${uri.split('/').pop()} ${covered(more[uri] ?? '', range)}`,
  );
}

describe('a name leads to its declaration', () => {
  it('of a signal, a port, a parameter', async () => {
    const lines = (body: string) =>
      `module m #(parameter N = 2)(input clk, output reg q);\n wire a;\n ${body}\nendmodule`;
    expect(await leads(lines('assign a = /*here*/q;'))).toEqual(['1 q']);
    expect(await leads(lines('assign a = q/*here*/;'))).toEqual(['1 q']);
    expect(await leads(lines('assign /*here*/a = q;'))).toEqual(['2 a']);
    expect(await leads(lines('assign a = q & /*here*/N;'))).toEqual(['1 N']);
    expect(await leads(lines('always @(posedge c/*here*/lk) q <= a;'))).toEqual(['1 clk']);
  });

  it('both of them where an old header declares twice', async () => {
    expect(await leads('module m(q);\n output q;\n reg q;\n initial /*here*/q = 0;\nendmodule')).toEqual([
      '2 q',
      '3 q',
    ]);
  });

  it('in the block that it is seen from', async () => {
    const text = (use: string) =>
      `module m(input a);\n wire w = a;\n generate if (1) begin : g\n  wire w;\n  ${use}\n end endgenerate\nendmodule`;
    expect(await leads(text('assign /*here*/w = a;'))).toEqual(['4 w']);
    expect(
      await leads('module m;\n wire w;\n assign /*here*/w = 1;\n if (1) begin : g wire w; end\nendmodule'),
    ).toEqual(['2 w']);
  });

  it('of a loop variable in its own head', async () => {
    const head = 'module m(input [3:0] a, output [3:0] y);\n';
    const own = `${head} for (genvar i = 0; i < 4; i = i + 1) assign y[/*here*/i] = a[i];\nendmodule`;
    expect(await leads(own)).toEqual(['2 i']);
    const outer = `${head} genvar i;\n for (i = 0; i < 4; i = i + 1) assign y[/*here*/i] = a[i];\nendmodule`;
    expect(await leads(outer)).toEqual(['2 i']);
  });

  it('of a function, its arguments and its result', async () => {
    const text = (body: string, use: string) =>
      `module m(input x, output y);\n function f(input x);\n  ${body}\n endfunction\n assign y = ${use};\nendmodule`;
    expect(await leads(text('f = x;', '/*here*/f(x)'))).toEqual(['2 f']);
    expect(await leads(text('/*here*/f = x;', 'f(x)'))).toEqual(['2 f']);
    expect(await leads(text('f = /*here*/x;', 'f(x)'))).toEqual(['2 x']);
    expect(await leads(text('f = x;', 'f(/*here*/x)'))).toEqual(['1 x']);
  });

  it('of the module and the ports of an instance, in another file too', async () => {
    const url = 'file:///project/child.v';
    const text = (line: string) => `module m(input clk, output y);\n ${line}\nendmodule`;
    const files = { [url]: child };
    expect(await leads(text('/*here*/child u(.clk(clk), .y(y));'), files)).toEqual(['child.v 1 child']);
    expect(await leads(text('child u(./*here*/clk(clk), .y(y));'), files)).toEqual(['child.v 1 clk']);
    expect(await leads(text('child u(.clk(/*here*/clk), .y(y));'), files)).toEqual(['1 clk']);
    expect(await leads(text('child #(.W/*here*/(1)) u(.clk(clk), .y(y));'), files)).toEqual(['child.v 1 W']);
    expect(await leads(text('child u(./*here*/clk, .y(y));'), files)).toEqual(['1 clk', 'child.v 1 clk']);
  });

  it('of an escaped name, however it is written', async () => {
    expect(await leads('module m;\n wire \\a+b ;\n assign /*here*/\\a+b = 1;\nendmodule')).toEqual(['2 \\a+b']);
    expect(await leads('module m;\n wire ab;\n assign /*here*/\\ab = 1;\nendmodule')).toEqual(['2 ab']);
  });

  it('of a member of an instance or a block, through the whole path', async () => {
    const inner = `module m(input a);\n child u[1:0](); wire b = `;
    expect(await leads(`${inner}u[0]./*here*/y;\nendmodule\n${child}`)).toEqual(['4 y']);
    expect(await leads(`${inner}m.u[1].y[/*here*/a];\nendmodule\n${child}`)).toEqual(['1 a']);
    expect(await leads(`${inner}m./*here*/u[1].y;\nendmodule\n${child}`)).toEqual(['2 u']);
    const block = 'module m(input a);\n if (1) begin : g wire w; end\n';
    expect(await leads(`${block} wire b = g./*here*/w;\nendmodule\n`)).toEqual(['2 w']);
    expect(await leads(`module t;\n m dut();\n wire b = dut.g./*here*/w;\nendmodule\n${block}endmodule`)).toEqual([
      '6 w',
    ]);
  });

  it('of a package and what it lends', async () => {
    const url = 'file:///project/pack.sv';
    const files = { [url]: 'package pack;\n parameter N = 4;\n parameter M = 5;\nendpackage : pack\n' };
    expect(await leads('module m;\n wire [/*here*/pack::N:0] w;\nendmodule', files)).toEqual(['pack.sv 1 pack']);
    expect(await leads('module m;\n wire [pack::/*here*/N:0] w;\nendmodule', files)).toEqual(['pack.sv 2 N']);
    const module = (line: string) => `module m import pack::*;();\n ${line}\nendmodule`;
    expect(await leads(module('wire [/*here*/M:0] w;'), files)).toEqual(['pack.sv 3 M']);
    expect(await leads(module('parameter M = 1; wire [/*here*/M:0] w;'), files)).toEqual(['2 M']);
    expect(await leads('module m;\n import pack::/*here*/N;\nendmodule', files)).toEqual(['pack.sv 2 N']);
    expect(await leads('module m;\n import pack::N; wire [/*here*/N:0] w;\nendmodule', files)).toEqual(['pack.sv 2 N']);
  });

  it('of a type and of the names that it lists', async () => {
    const url = 'file:///project/pack.sv';
    const files = { [url]: 'package pack;\n typedef enum logic [1:0] { IDLE, BUSY = 2 } state_t;\nendpackage\n' };
    const module = (line: string) => `module m import pack::*; #(type T = logic)(input T a);\n ${line}\nendmodule`;
    expect(await leads(module('/*here*/state_t s;'), files)).toEqual(['pack.sv 2 state_t']);
    expect(await leads(module('state_t s; assign s = /*here*/BUSY;'), files)).toEqual(['pack.sv 2 BUSY']);
    expect(await leads(module('state_t s; assign s = pack::/*here*/IDLE;'), files)).toEqual(['pack.sv 2 IDLE']);
    expect(await leads(module('/*here*/T w;'), files)).toEqual(['1 T']);
  });

  it('of an interface, its signals and modports', async () => {
    const url = 'file:///project/bus.sv';
    const bus = 'interface bus(input clk);\n logic ready;\n modport master(output ready);\nendinterface\n';
    const files = { [url]: bus };
    expect(await leads('module m(/*here*/bus.master b);\nendmodule', files)).toEqual(['bus.sv 1 bus']);
    expect(await leads('module m(bus./*here*/master b);\nendmodule', files)).toEqual(['bus.sv 3 master']);
    expect(await leads('module m(bus.master b);\n assign b./*here*/ready = 1;\nendmodule', files)).toEqual([
      'bus.sv 2 ready',
    ]);
    expect(await leads('module m(input c);\n bus b(c); wire w = b./*here*/ready;\nendmodule', files)).toEqual([
      'bus.sv 2 ready',
    ]);
  });

  it('of what stands outside every unit of the file', async () => {
    expect(await leads('parameter N = 4;\nmodule m;\n wire [/*here*/N:0] w;\nendmodule')).toEqual(['1 N']);
  });

  it('nowhere where no name stands, nothing declares it, or it is a member of what is no module', async () => {
    expect(await leads('module m;\n /*here*/\n wire a;\nendmodule')).toEqual([]);
    expect(await leads('module m(input a);\n assign /*here*/nobody = a;\nendmodule')).toEqual([]);
    expect(await leads(`module m(input a);\n wire y; wire b = a./*here*/y;\nendmodule\n${child}`)).toEqual([]);
    expect(await leads('module m(input a); // a comment with /*here*/a\nendmodule')).toEqual([]);
  });

  it('counts columns in UTF-16 units', async () => {
    expect(await leads('module m(input a);\n /* 🕰️ é */ wire w = /*here*/a; // 🕰️\nendmodule')).toEqual(['1 a']);
  });
});

describe('a directive', () => {
  it('leads from a macro to every definition of it', async () => {
    const text = '`define WIDTH 4\nmodule m;\n wire [`/*here*/WIDTH-1:0] a;\nendmodule';
    expect(await leads(text)).toEqual(['1 WIDTH']);
    expect(await leads('`ifdef A\n`define B 1\n`else\n`define B 2\n`endif\n`ifdef /*here*/B\n`endif')).toEqual([
      '2 B',
      '4 B',
    ]);
    expect(await leads('`undefined/*here*/_macro')).toEqual([]);
  });

  it('leads from an include to its file, where that is at hand', async () => {
    const files = { 'file:///project/parts/w.vh': '`define W 4\n' };
    expect(await leads('`include "parts//*here*/w.vh"\n', files)).toEqual(['w.vh 1 ']);
    expect(await leads('`/*here*/include <parts/w.vh>\n', files)).toEqual(['w.vh 1 ']);
    expect(await leads('`include "missing/*here*/.vh"\n', files)).toEqual([]);
  });
});
