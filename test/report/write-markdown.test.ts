// The review in Markdown: all there is to sign, and nothing of a design that becomes markup.

import { expect, test } from 'vitest';
import { code, plain, table } from '../../server/src/report/markdown';
import { writeMarkdown } from '../../server/src/report/write-markdown';
import { reportOf } from '../tools/report-of';

const two = `module two(input there, here, input \\a|b\`<i>* , output reg q);
  reg s = 0, first = 0;
  initial q = 0;
  always @(posedge there) s <= \\a|b\`<i>* ;
  always @(posedge here) begin first <= s; q <= first; end
endmodule
`;

test('every crossing with its protection, every domain, reset and output, and what was not looked at', async () => {
  const review = writeMarkdown(await reportOf([{ path: 'two.v', text: two }]));
  expect(review).toContain('# Timing review of `two`');
  expect(review).toContain('| `s` (`there`) | `first` (`here`) | 1 | two-flop, 2 flip-flops deep | protected |');
  expect(review).toContain('| `q` | registered | changes without glitches |');
  for (const title of ['Clock domains', 'Resets', 'Findings', 'Accepted findings', 'Not analyzed', 'Not seen']) {
    expect(review).toContain(`\n## ${title}\n`);
  }
});

test('names stay names: no tag, no cell, no emphasis comes out of them', async () => {
  const review = writeMarkdown(await reportOf([{ path: 'two.v', text: two }]));
  const rows = review.split('\n').filter((line) => line.startsWith('|') && line.includes('<i>'));
  expect(rows.length).toBeGreaterThan(0);
  // In code, with the bar escaped and a fence longer than the back quote inside.
  for (const row of rows) expect(row).toMatch(/`` \\a\\\|b`<i>\*\s+``/);
});

test('code and words', () => {
  expect(code('q[3]')).toBe('`q[3]`');
  expect(code('a`b')).toBe('`` a`b ``');
  expect(plain('a_b *c* <d> [e](f)')).toBe('a\\_b \\*c\\* \\<d\\> \\[e\\](f)');
  expect(table(['a'], [])).toEqual([]);
  expect(table(['a', 'b'], [['`x|y`', 'z']])).toEqual(['| a | b |', '| --- | --- |', '| `x\\|y` | z |']);
});
