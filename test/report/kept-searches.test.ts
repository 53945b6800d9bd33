// Searches for glitches that are taken over from an earlier study, or from another instance, say what searching says:
// designs of a few blocks, of which one thing after the other is changed.

import { describe, expect, it } from 'vitest';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { type Study, type StudyInput, study } from '../../server/src/report/study';
import type { SliceParser } from '../../server/src/syntax/slice-parser';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';

const blocks = `module decoded(input clk, rst, input [1:0] d, output lamp);
  reg [1:0] state, other;
  always @(posedge clk or posedge rst) if (rst) state <= 0; else state <= state + 1 + d[0];
  always @(posedge clk) other <= state ^ d;
  assign lamp = (state == 2) & other[0];
endmodule
module ripple(input clk, output tick);
  reg [2:0] q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  always @(negedge q[1]) q[2] <= ~q[2];
  assign tick = q == 5;
endmodule
module multiplied(input clk, input [2:0] a, output pulse);
  reg [2:0] x = 1, y = 3;
  always @(posedge clk) begin x <= a; y <= x; end
  wire [5:0] p = x * y;
  assign pulse = p[3] & x[0];
endmodule
`;
const top = `module top(input clk, rst, input [3:0] d, output [4:0] q);
  decoded u0(clk, rst, d[1:0], q[0]);
  decoded u1(clk, rst, d[3:2], q[1]);
  decoded u2(clk, rst, d[1:0], q[2]);
  ripple u3(clk, q[3]);
  multiplied u4(clk, d[2:0], q[4]);
endmodule
`;
const changes: readonly (readonly [string, string])[] = [
  ['// nothing\n', ''],
  ['state == 2', 'state == 1'],
  ['state == 2', 'state < 2'],
  ['& other[0]', '| other[0]'],
  ['state ^ d', 'state'],
  ['state <= 0;', 'state <= 2;'],
  ['state + 1 + d[0]', 'state - 1'],
  ['x = 1', 'x = 2'],
  ['q == 5', 'q == 6'],
  ['& x[0]', '& y[1]'],
  ['d[3:2], q[1]', '{q[4], d[2]}, q[1]'],
  ['ripple u3(clk', 'ripple u3(d[0]'],
  ['posedge clk or posedge rst', 'negedge clk or posedge rst'],
  ['always @(posedge clk) other', 'always @(negedge clk) other'],
  ['assign lamp =', 'assign #2 lamp ='],
  ['module top(input clk,', 'module top(input one, input clk,'],
];

describe('searches taken over', () => {
  it('say what searching afresh says, whatever has changed', async () => {
    const parser = await readyParser();
    const plain = `// nothing\n${blocks}${top}`;
    let last = opened(parser, plain);
    const before = told(last);
    let taken = 0;
    for (const [from, to] of changes) {
      expect(plain).toContain(from);
      for (const text of [plain.replace(from, to), plain]) {
        const next = opened(parser, text, { searches: last.searches });
        expect(told(next)).toBe(text === plain ? before : told(opened(parser, text)));
        const known = new Set(last.searches.kept.values());
        taken += [...next.searches.kept.values()].filter((search) => known.has(search)).length;
        last = next;
      }
    }
    // Without this the comparison would hold for studies that take over nothing.
    expect(taken).toBeGreaterThan(30);
  });

  it('are of the delays and limits that they were made with', async () => {
    const parser = await readyParser();
    const first = opened(parser, blocks + top);
    toEnd(first.report());
    for (const settings of [{ delays: 'ideal' }, { delays: '74HC393' }, { limits: { states: 2 } }]) {
      const over = { options: optionsFrom(noProject, { ...noSettings, ...settings }) };
      const next = opened(parser, blocks + top, { ...over, searches: first.searches });
      expect(told(next)).toBe(told(opened(parser, blocks + top, over)));
    }
  });

  it('are made once for instances alike', async () => {
    const opened1 = opened(await readyParser(), blocks + top);
    toEnd(opened1.report());
    const signals = new Set(toEnd(opened1.report()).glitches.map(({ signal }) => signal));
    expect([...signals].filter((name) => /lamp|q\[[012]\]/.test(name)).length).toBe(3);
    expect(opened1.searches.kept.size).toBeLessThan(4);
  });
});

function opened(parser: SliceParser, text: string, over: Partial<StudyInput> = {}): Study {
  const options = optionsFrom(noProject, noSettings);
  return study({ files: [{ path: 'a.v', text }], provided: [], includeFolders: [], options, ...over }, parser);
}

function told(design: Study): string {
  return JSON.stringify(toEnd(design.report()));
}
