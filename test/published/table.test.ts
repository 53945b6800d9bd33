// Which rows of the table of published values are covered, printed at each run; and that the tests name real rows.

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const folder = dirname(fileURLToPath(import.meta.url));

interface Row {
  readonly id: string;
  readonly claim: string;
  readonly expected: string;
  readonly source: string;
}

const rows = readFileSync(join(folder, 'table.md'), 'utf8')
  .split('\n')
  .filter((line) => /^\| [A-Z]+-\w+ \|/.test(line))
  .map(readRow);

it('every row has a claim, an expected value and a source, and stands once', () => {
  for (const row of rows) expect([row.id, row.claim, row.expected, row.source]).not.toContain('');
  expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
});

it('every id that a test names is a row of the table', () => {
  const known = new Set(rows.map((row) => row.id));
  expect(coveredIds().filter((id) => !known.has(id))).toEqual([]);
});

it('prints which rows are covered and which are not yet', () => {
  const covered = new Set(coveredIds());
  const open = rows.filter((row) => !covered.has(row.id)).map((row) => row.id);
  console.log(
    `published values: ${rows.length - open.length} of ${rows.length} rows covered; not yet: ${open.join(' ') || 'none'}`,
  );
  expect(covered.size).toBeGreaterThan(0);
});

function readRow(line: string): Row {
  const [, id, claim, expected, source] = line.split(/(?<!\\)\|/).map((cell) => cell.trim());
  return { id, claim, expected, source };
}

/** Ids inside the first argument of `published(` in the tests of this folder. */
function coveredIds(): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.test.ts') && name !== 'table.test.ts')
    .flatMap((name) => [...readFileSync(join(folder, name), 'utf8').matchAll(/published\(\s*(\[[^\]]*\]|'[^']*')/g)])
    .flatMap((match) => [...match[1].matchAll(/'([^']+)'/g)].map((id) => id[1]));
}
