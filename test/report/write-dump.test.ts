// A run as a value change dump: IEEE 1364-2005 clause 18, from memory; the shortest forms of its table 18-2.

import { expect, test } from 'vitest';
import { writeDump } from '../../server/src/report/write-dump';
import { published } from '../published/published';
import { studyOf, toEnd } from '../tools/report-of';

async function dumpOf(text: string, until: number, project: object = {}): Promise<readonly string[]> {
  const opened = await studyOf([{ path: 'a.v', text }], { project: JSON.stringify(project) });
  const design = toEnd(opened.design());
  const waves = toEnd(opened.waves(until));
  if (design === null || waves === null) throw new Error('there is no design');
  return toEnd(writeDump(design.netlist, waves, ['delays: unit'])).split('\n');
}

const counter = `module counter(input clk, output reg [3:0] q);
  initial q = 4'b0010;
  always @(posedge clk) q <= q + 4'd1;
endmodule`;

published(['VCD-5', 'VCD-6'], 'headers, scopes, first values, then times with changes', async () => {
  expect(await dumpOf(counter, 45_000)).toEqual([
    expect.stringMatching(/^\$version Foretick \S+ \$end$/),
    '$comment delays: unit $end',
    '$timescale 1 ps $end',
    '$scope module counter $end',
    '$var wire 1 ! clk $end',
    '$var reg 4 " q [3:0] $end',
    '$upscope $end',
    '$enddefinitions $end',
    '#0',
    '$dumpvars',
    '0!',
    'b10 "',
    '$end',
    '#10000',
    '1!',
    '#11000',
    'b11 "',
    '#20000',
    '0!',
    '#30000',
    '1!',
    '#31000',
    'b100 "',
    '#40000',
    '0!',
    '#45000',
    '',
  ]);
});

published(['VCD-2', 'VCD-3'], 'vectors in their shortest form', async () => {
  for (const [start, written] of [
    ['0010', 'b10'],
    ['xx10', 'bx10'],
    ['zzx0', 'bzx0'],
    ['0x10', 'b0x10'],
    ['xxxx', 'bx'],
    ['0000', 'b0'],
    ['1111', 'b1111'],
  ]) {
    const lines = await dumpOf(counter.replace('0010', start).replace("q + 4'd1", 'q'), 5_000, { start: 'x' });
    expect(lines).toContain(`${written} "`);
  }
});

test('instances and generate blocks are scopes; names with blanks behind stay one word', async () => {
  const lines = await dumpOf(
    `module leaf(input c, output reg \\q! ); initial \\q! = 0; always @(posedge c) \\q! <= ~\\q! ; endmodule
     module m(input clk, output [1:0] y); genvar i;
     for (i = 0; i < 2; i = i + 1) begin : g wire w; leaf u(clk, w); assign y[i] = w; end endmodule`,
    5_000,
  );
  const scopes = lines.filter((line) => /scope|var/.test(line)).slice(0, 9);
  expect(scopes).toContain('$scope begin g[0] $end');
  expect(lines).toContain('$scope module u $end');
  expect(lines.some((line) => /^\$var reg 1 \S+ \\q! \$end$/.test(line))).toBe(true);
  expect(lines.filter((line) => line === '$upscope $end')).toHaveLength(
    lines.filter((line) => line.startsWith('$scope')).length,
  );
});

test('more signals than one character can name get two', async () => {
  const wires = Array.from({ length: 100 }, (_, index) => `wire w${index} = a;`).join(' ');
  const lines = await dumpOf(`module m(input a, output y); ${wires} assign y = w99; endmodule`, 1_000);
  const codes = lines.flatMap((line) => /^\$var \S+ \d+ (\S+)/.exec(line)?.[1] ?? []);
  expect(new Set(codes).size).toBe(102);
  expect(codes.at(-1)).toHaveLength(2);
});
