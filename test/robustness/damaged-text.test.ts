// Any text in, a report out: every beginning of two examples as if typed so far, nothing at all, and bytes that are no
// text. The place of every message lies inside the file.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Report } from '../../server/src/report/report';
import { reportOf } from '../tools/report-of';

const examples = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'examples');

describe.each(['ripple-counter.v', 'wash-controller.v'])('every beginning of %s', (name) => {
  const whole = readFileSync(join(examples, name), 'utf8');

  it('gives a report whose messages stand inside the text', async () => {
    for (let length = 0; length <= whole.length; length += 1) {
      const text = whole.slice(0, length);
      expectInside(text, await reportOf([{ path: 'm.v', text }]));
    }
  }, 300_000);

  it('without its last word says what is missing, at the end', async () => {
    const text = whole.slice(0, whole.lastIndexOf('endmodule'));
    const { findings } = await reportOf([{ path: 'm.v', text }]);
    const syntax = findings.filter(({ id }) => id === 'syntax');
    expect(syntax).toHaveLength(1);
    expect(syntax[0].message).toContain('endmodule');
  });
});

it('an empty file is no design and no mistake', async () => {
  const report = await reportOf([{ path: 'm.v', text: '' }]);
  expect(report.top).toBeNull();
  expect(report.findings).toEqual([]);
});

it('bytes that are no text are told as such, in a bounded number of messages', async () => {
  const bytes = Array.from({ length: 20_000 }, (_, index) => (index * 7919 + (index >> 3) * 104_729) % 256);
  const text = Buffer.from(bytes).toString('latin1');
  const report = await reportOf([{ path: 'm.v', text }]);
  expect(report.top).toBeNull();
  expect(report.findings.length).toBeGreaterThan(0);
  expect(report.findings.length).toBeLessThanOrEqual(1_000);
  expectInside(text, report);
});

// Before the `begin` stands no label, but behind a semicolon it is no line to be passed either: the walk once stood still there.
it('a block without a label ends a half-typed case', async () => {
  const text = 'module m(input [1:0] s, output reg y);\n always @* case (s)\n  0: y = 1;\n  begin\n\nendmodule\n';
  const { findings } = await reportOf([{ path: 'm.v', text }]);
  expect(findings.map(({ id }) => id)).toContain('syntax');
});

function expectInside(text: string, { findings }: Report): void {
  const lines = text.split(/\r\n|\n|\r/);
  for (const { span } of findings) {
    const { line, column, endLine, endColumn } = span;
    expect(line).toBeGreaterThanOrEqual(1);
    expect(endLine).toBeLessThanOrEqual(lines.length);
    expect(column - 1).toBeLessThanOrEqual(lines[line - 1].length);
    expect(endColumn - 1).toBeLessThanOrEqual(lines[endLine - 1].length);
    expect(endLine * 1e6 + endColumn).toBeGreaterThanOrEqual(line * 1e6 + column);
  }
}
