import type { DocumentSymbol } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { documentSymbols } from '../../../server/src/editor/features/document-symbols';
import { folding } from '../../../server/src/editor/features/folding';
import { covered, document, open, run } from './caret';

/** One line per symbol, indented: name, detail, lines of the whole. */
function drawn(symbols: readonly DocumentSymbol[], text: string, indent = ''): readonly string[] {
  return symbols.flatMap(({ children = [], detail, name, range, selectionRange }) => {
    expect(covered(text, selectionRange).split(' ').slice(1).join(' ')).toContain(name);
    const line = `${indent}${name}${detail === '' ? '' : ` (${detail})`} ${range.start.line + 1}-${range.end.line + 1}`;
    return [line, ...drawn(children, text, `${indent}  `)];
  });
}

async function symbols(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  const { study, text } = await open(marked, more);
  return drawn(run(documentSymbols(study, document)), text);
}

describe('the outline', () => {
  it('has modules, what they declare, and blocks with what they declare', async () => {
    const text = [
      'module m #(parameter N = 2)(input clk, output reg q);',
      '  localparam M = N;',
      '  wire a, b;',
      '  child u(.x(a));',
      '  and g1 (a, b, clk);',
      '  generate if (N) begin : wide',
      '    reg r;',
      '  end endgenerate',
      '  always @(posedge clk) begin : step',
      '    integer i;',
      '    q <= a;',
      '  end',
      'endmodule',
    ].join('\n');
    expect(await symbols(text)).toEqual([
      'm 1-13',
      '  N (parameter) 1-1',
      '  clk 1-1',
      '  q 1-1',
      '  M (localparam) 2-2',
      '  a (wire) 3-3',
      '  b (wire) 3-3',
      '  u (child) 4-4',
      '  g1 (and) 5-5',
      '  wide 6-8',
      '    r (reg) 7-7',
      '  step 9-12',
      '    i (integer) 10-10',
    ]);
  });

  it('has functions and tasks with what they declare', async () => {
    const text = [
      'module m(input [3:0] a);',
      '  function [3:0] twice(input [3:0] x);',
      '    reg [3:0] y;',
      '    twice = x + x;',
      '  endfunction',
      '  task t;',
      '    input b;',
      '    begin end',
      '  endtask',
      'endmodule',
    ].join('\n');
    expect(await symbols(text)).toEqual([
      'm 1-10',
      '  a 1-1',
      '  twice (function) 2-5',
      '    x 2-2',
      '    y (reg) 3-3',
      '  t (task) 6-9',
      '    b 7-7',
    ]);
  });

  it('is only of its own document, also where an include brings declarations in', async () => {
    const more = { 'file:///project/w.vh': 'wire inside;\n', 'file:///project/n.v': 'module n; endmodule' };
    expect(await symbols('module m;\n`include "w.vh"\n wire own;\nendmodule', more)).toEqual([
      'm 1-4',
      '  own (wire) 3-3',
    ]);
  });

  it('keeps what it can of text that is half typed', async () => {
    expect(await symbols('module m(input clk);\n reg q;\n assign ')).toEqual(['m 1-3', '  clk 1-1', '  q (reg) 2-2']);
    expect(await symbols('')).toEqual([]);
    expect(await symbols('module')).toEqual([]);
  });
});

async function folds(text: string): Promise<readonly string[]> {
  const { study } = await open(text);
  return run(folding(study, document)).map(
    ({ endLine, kind, startLine }) => `${startLine + 1}-${endLine + 1}${kind === undefined ? '' : ` ${kind}`}`,
  );
}

describe('folding', () => {
  it('leaves the closing word in sight', async () => {
    const text = 'module m;\n always begin\n  case (a)\n   1: ;\n  endcase\n end\nendmodule';
    expect(await folds(text)).toEqual(['1-6', '2-5', '3-4']);
  });

  it('pairs a closing word with the nearest that it fits', async () => {
    expect(await folds('module m;\n always begin\n  x\nendmodule\nmodule n;\nendmodule')).toEqual(['1-3']);
    expect(await folds('module m;\n initial fork\n  a;\n join_none\nendmodule')).toEqual(['1-4', '2-3']);
  });

  it('pairs directives apart from words', async () => {
    const text = '`ifdef A\nmodule m(input a);\n`else\nmodule m(input b);\n`endif\n wire c;\nendmodule';
    expect(await folds(text)).toEqual(['1-2', '3-4', '4-6']);
    expect(await folds('`else\n\n`endif\n')).toEqual([]);
  });

  it('takes comments of several lines, and neighboring lines of comment', async () => {
    const text = '// one\n// two\n\n// three\nmodule m; // not\n // alone\n /* a\n b */\n\nendmodule\n// four\n// five';
    expect(await folds(text)).toEqual(['1-2 comment', '5-9', '7-8 comment', '11-12 comment']);
  });

  it('takes no words of comments, strings and attributes for its own', async () => {
    expect(await folds('/* begin */\n"begin"\n// begin\n(* a = "/*" *)\nend\n')).toEqual([]);
    expect(await folds('begin\r\n x\r\n y\r\nend')).toEqual(['1-3']);
  });

  it('folds as far as broken text goes', async () => {
    expect(await folds('module m;\n begin\n  x\n end\n')).toEqual(['2-3']);
    expect(await folds('/* open\n\n')).toEqual(['1-2 comment']);
  });
});
