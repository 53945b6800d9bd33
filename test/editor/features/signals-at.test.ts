import { describe, expect, it } from 'vitest';
import { bitAt, signalsAt } from '../../../server/src/editor/features/signals-at';
import type { ReportOptions } from '../../tools/report-of';
import { document, open, run } from './caret';

async function signals(marked: string, options: ReportOptions = {}): Promise<readonly string[]> {
  const { caret, study } = await open(marked, {}, options);
  return run(signalsAt(study, document, caret));
}

async function bit(marked: string): Promise<string> {
  const { caret, study } = await open(marked);
  return run(bitAt(study, document, caret));
}

describe('the bit at a caret', () => {
  const around = (use: string) =>
    `module m(input clk, output reg [3:0] q = 0);\n always @(posedge clk) ${use} <= 1;\nendmodule`;

  it('is the one whose number is written', async () => {
    expect(await bit(around('/*here*/q[2]'))).toBe('[2]');
    expect(await bit(around('/*here*/q [ 03 ]'))).toBe('[3]');
  });

  it('is none for the whole, a stretch, or an index that is no number', async () => {
    expect(await bit(around('/*here*/q'))).toBe('');
    expect(await bit(around('/*here*/q[2:1]'))).toBe('');
    expect(await bit(around('/*here*/q[clk]'))).toBe('');
  });
});

describe('signals at a caret', () => {
  const body = 'input clk, output reg [1:0] q = 0);\n always @(posedge clk) /*here*/q[0] <= ~q;\nendmodule\n';

  it('are those of every instance', async () => {
    expect(await signals(`module m(${body}`)).toEqual(['q']);
    expect(await signals(`module m(${body}module t(input c);\n m u(c); m v(.clk(c));\nendmodule`)).toEqual([
      'u.q',
      'v.q',
    ]);
    expect(
      await signals(
        'module m(input c);\n for (genvar i = 0; i < 2; i = i + 1) begin : g\n wire /*here*/w = c;\n end\nendmodule',
      ),
    ).toEqual(['g[0].w', 'g[1].w']);
  });

  it('are found from declarations of either kind, implicit nets and connections', async () => {
    expect(
      await signals(
        'module m(clk, /*here*/q);\n input clk;\n output q;\n reg q;\n always @(posedge clk) q <= ~q;\nendmodule',
      ),
    ).toEqual(['q']);
    expect(await signals('module m(input a, output y);\n not (w, a);\n not (y, /*here*/w);\nendmodule')).toEqual(['w']);
    expect(
      await signals(
        'module c(input a, output y);\n assign y = a;\nendmodule\nmodule m(input b, output z);\n c u(./*here*/a(b), .y(z));\nendmodule',
      ),
    ).toEqual(['u.a']);
  });

  it('are none at names of other things and outside the design', async () => {
    expect(await signals('module m #(parameter /*here*/N = 1)(input a);\nendmodule')).toEqual([]);
    expect(await signals('module a(input /*here*/x);\nendmodule\nmodule b(input y);\nendmodule', { top: 'b' })).toEqual(
      [],
    );
    expect(await signals('/*here*/')).toEqual([]);
  });
});
