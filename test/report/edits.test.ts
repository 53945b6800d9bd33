// A study that takes over what an earlier one has read and elaborated says what a fresh study says, byte for byte, however
// the files came about. The seed is printed; the same seed gives the same edits.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { type Study, type StudyInput, study } from '../../server/src/report/study';
import type { SourceFile } from '../../server/src/text/source';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';

const files: readonly SourceFile[] = [
  {
    path: 'shared.sv',
    text: `package sizes;
  localparam WIDTH = 4;
  function automatic [WIDTH-1:0] turned(input [WIDTH-1:0] d); turned = {d[0], d[WIDTH-1:1]}; endfunction
endpackage
interface link(input clk); logic valid; logic [3:0] data; modport from(input valid, data, clk); endinterface
parameter OUTSIDE = 3;
`,
  },
  {
    path: 'leaves.v',
    text: `\`define STEP 1
module counter #(parameter W = 4) (input clk, input rst, input up, output reg [W-1:0] q);
  always @(posedge clk or posedge rst)
    if (rst) q <= 0; else if (up) q <= q + \`STEP; else q <= q - 1;
endmodule
module turner import sizes::*; (input clk, input [WIDTH-1:0] d, output reg [WIDTH-1:0] q);
  always @(posedge clk) q <= turned(d);
endmodule
module store(input clk, input we, input [1:0] a, input [7:0] d, output [7:0] q);
  reg [7:0] words [0:OUTSIDE];
  initial $readmemh("words.hex", words);
  always @(posedge clk) if (we) words[a] <= d;
  assign q = words[a];
endmodule
module reader(link.from l, output reg [3:0] q);
  always @(posedge l.clk) if (l.valid) q <= l.data;
endmodule
`,
  },
  {
    path: 'top.sv',
    text: `module pair #(parameter N = 2) (input clk, input rst, output [N-1:0] q);
  genvar i;
  generate for (i = 0; i < N; i = i + 1) begin : each
    wire [3:0] own;
    counter #(.W(4)) c(.clk(clk), .rst(rst), .up(i[0]), .q(own));
    assign q[i] = own[3];
  end endgenerate
endmodule
module top(input clk, input rst, input [3:0] d, output [1:0] q, output [3:0] t, r, output [7:0] s, output w);
  link l(clk);
  assign l.valid = d[0];
  assign l.data = t;
  pair p(clk, rst, q);
  turner u(.clk(clk), .d(d), .q(t));
  store m(.clk(clk), .we(d[3]), .a(d[1:0]), .d({d, t}), .q(s));
  reader x(l, r);
  missing z(.a(q), .b(w));
  wire deep = p.each[1].own[0];
  defparam p.N = 2;
endmodule
`,
  },
];

const words = [
  '',
  ' ',
  '\n',
  '1',
  '2',
  'q',
  ';',
  'begin',
  'end',
  'endmodule\n',
  '// note\n',
  '`define STEP 2\n',
  '`STEP',
];
const swaps: readonly (readonly [string, string])[] = [
  ['posedge clk', 'negedge clk'],
  ['W = 4', 'W = 5'],
  ['N = 2', 'N = 3'],
  ['WIDTH = 4', 'WIDTH = 3'],
  ['OUTSIDE = 3', 'OUTSIDE = 1'],
  ['#(.W(4))', '#(.W(6))'],
  ['words.hex', 'none.hex'],
  ['q + `STEP', 'q ^ d'],
  ['module counter', 'module missing'],
  ['import sizes::*;', ''],
];

const edit = fc.oneof(
  fc.record({ kind: fc.constant('swap' as const), file: fc.nat(2), swap: fc.nat(swaps.length - 1) }),
  fc.record({
    kind: fc.constant('type' as const),
    file: fc.nat(2),
    from: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(200)),
    insert: fc.constantFrom(...words),
  }),
  fc.record({ kind: fc.constant('undo' as const), file: fc.nat(2) }),
);
type Edit = typeof edit extends fc.Arbitrary<infer Value> ? Value : never;

function edited(text: string, original: string, each: Edit): string {
  if (each.kind === 'undo') return original;
  if (each.kind === 'swap') {
    const [one, other] = swaps[each.swap];
    return text.includes(one) ? text.replace(one, other) : text.replace(other, one);
  }
  const from = Math.floor(each.from * (text.length + 1));
  return text.slice(0, from) + each.insert + text.slice(from + each.length);
}

it('says what a fresh study says', async () => {
  const seed = Number(process.env.FORETICK_SEED ?? 20261125);
  process.stdout.write(`random edits of studies from seed ${seed} (FORETICK_SEED sets another)\n`);
  const parser = await readyParser();
  const options = optionsFrom(noProject, noSettings);
  const provided = [{ path: 'words.hex', text: '01 02 03 04\n' }];
  const open = (now: readonly SourceFile[], over: Pick<StudyInput, 'previous' | 'kept' | 'searches'> = {}) =>
    study({ files: now, provided, includeFolders: [], options, ...over }, parser);
  let kept = 0;
  fc.assert(
    fc.property(fc.array(edit, { minLength: 2, maxLength: 8 }), (edits) => {
      let now = files;
      let last = open(now);
      toEnd(last.report());
      for (const each of edits) {
        now = now.map((file, index) =>
          index === each.file ? { ...file, text: edited(file.text, files[index].text, each) } : file,
        );
        const before = toEnd(last.elaboration()).kept;
        const next = open(now, { previous: toEnd(last.reading()), kept: before, searches: last.searches });
        expect(told(next)).toBe(told(open(now)));
        kept += [...toEnd(next.elaboration()).kept.byKey.values()].filter((one) =>
          [...before.byKey.values()].includes(one),
        ).length;
        last = next;
      }
    }),
    { seed, numRuns: Number(process.env.FORETICK_RUNS ?? 12) },
  );
  // Without this the comparison would hold for a study that takes over nothing.
  expect(kept).toBeGreaterThan(50);
});

function told(opened: Study): string {
  return JSON.stringify([toEnd(opened.report()), toEnd(opened.preview()), toEnd(opened.wanted())]);
}
