import { expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf } from '../tools/report-of';

const sectionOf = async (body: string, ports: string) => {
  const text = writeText(await reportOf([{ path: 'm.v', text: `module m(${ports});\n${body}\nendmodule` }]));
  const [, section = ''] = /^latches\n((?: {2}.*\n)*)/m.exec(text) ?? [];
  return section
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
};

it('latches are told with what opens, sets and clears them', async () => {
  const [line] = await sectionOf('always @* if (rst) q = 0; else if (en) q = d;', 'input en, d, rst, output reg q');
  expect(line).toMatch(/^q +open while .*is high.* line 1$/);
});

it('a pair of gates is told as storage', async () => {
  const lines = await sectionOf('nand (q, s, n); nand (n, r, q);', 'input s, r, output q, n');
  expect(lines.join('\n')).toContain('set and cleared by its gates');
});

it('a latch that nobody seems to mean says so', async () => {
  const [line] = await sectionOf("always @* case (d) 2'd0: q = 1; 2'd1: q = 0; endcase", 'input [1:0] d, output reg q');
  expect(line).toContain('perhaps not meant');
});

it('a design without latches says nothing of them', async () => {
  expect(await sectionOf('always @(posedge en) q <= d;', 'input en, d, output reg q')).toEqual([]);
});
