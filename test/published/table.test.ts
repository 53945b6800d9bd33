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
  const covered = new Set(quotedIds());
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

/** Texts of all tests: a row may be covered beside what it is about. */
function testTexts(): string[] {
  const root = join(folder, '..');
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.test.ts') && !name.endsWith('table.test.ts'))
    .map((name) => readFileSync(join(root, name), 'utf8'));
}

/** Ids inside the first argument of `published(`. */
function coveredIds(): string[] {
  return testTexts()
    .flatMap((text) => [...text.matchAll(/published\(\s*(\[[^\]]*\]|'[^']*')/g)])
    .flatMap((match) => [...match[1].matchAll(/'([^']+)'/g)].map((id) => id[1]));
}

/** All that looks like an id at the start of a text in quotes: tests and lists of cases are named by the rows they cover. */
function quotedIds(): string[] {
  return testTexts().flatMap((text) => [...text.matchAll(/['"`]([A-Z]+-\w+)\b/g)].map((id) => id[1]));
}
