// What one report has gained, lost or altered against another.

import { expect, test } from 'vitest';
import { compareReports } from '../../server/src/report/compare';
import type { Change } from '../../server/src/report/comparison';
import { writeComparisonText } from '../../server/src/report/write-comparison';
import { reportOf } from '../tools/report-of';

const counter = (body: string) => `module counter(input clk, rst, output reg [2:0] n);
  always @(posedge clk) if (rst) n <= 0; else ${body}
endmodule
`;

async function changesOf(before: string, after: string): Promise<readonly Change[]> {
  const [first, second] = [before, after].map((text) => reportOf([{ path: 'a.v', text }]));
  return compareReports(await first, await second).changes;
}

const short = ({ kind, name, what, fields }: Change) =>
  `${what} ${kind} ${name}: ${fields.map(({ field }) => field).join(' ')}`;

test('the same design differs in nothing, nor do lines and comments', async () => {
  const text = counter('n <= n + 1;');
  expect(await changesOf(text, text)).toEqual([]);
  expect(await changesOf(text, `// a line more\n\n${text}`)).toEqual([]);
});

test('a wrap at five alters the register’s ratio and the sequence', async () => {
  const changes = await changesOf(counter('n <= n + 1;'), counter('n <= n == 4 ? 0 : n + 1;'));
  expect(changes.map(short).slice(0, 2)).toEqual([
    'altered register n[2:0]: ratio',
    'altered sequence n[2:0]: modulus period values',
  ]);
  const sequence = changes.find(({ kind }) => kind === 'sequence');
  expect(sequence?.fields.find(({ field }) => field === 'modulus')).toEqual({ field: 'modulus', from: '8', to: '5' });
});

test('another edge, a register and a crossing more', async () => {
  const before = 'module m(input a, b, d, output reg q); always @(posedge a) q <= d; endmodule';
  const after =
    'module m(input a, b, d, output reg q); reg s; always @(posedge a) s <= d; always @(negedge b) q <= s; endmodule';
  expect((await changesOf(before, after)).map(short)).toEqual([
    'altered register q: clock root domain',
    'gained register s: ',
    'gained clock b: ',
    'gained domain b: ',
    'gained crossing s to q: ',
    'gained finding bare-crossing q s: ',
  ]);
  expect((await changesOf(after, before)).map(short)).toContain('lost crossing s to q: ');
});

test('the text tells the two and each field', async () => {
  const [first, second] = [counter('n <= n + 1;'), counter('n <= n - 1;')].map((text) =>
    reportOf([{ path: 'a.v', text }]),
  );
  expect(writeComparisonText(compareReports(await first, await second), 'a.v', 'b.v')).toMatch(
    /^\d+ differences?\n {2}from a\.v\n {2}to {3}b\.v\n\n(?:.*\n)*sequences\n {2}altered {2}n\[2:0\]\n {11}kind: up → down/,
  );
});

test('a finding that is accepted is told with its reason, in words', async () => {
  const text = (remark: string) => `
    module top(input a, b, x, output reg y);
      reg s;
      always @(posedge a) s <= x;
      ${remark}
      always @(posedge b) y <= s;
    endmodule`;
  const [before, after] = await Promise.all(
    [text(''), text('// foretick: accepted bare-crossing, s is set once')].map((text) =>
      reportOf([{ path: 'a.v', text }]),
    ),
  );
  expect(writeComparisonText(compareReports(before, after), 'a.v', 'b.v')).toContain(
    'accepted: none → s is set once\n',
  );
});
