// Holds every row of TABLE.md to what expanding its text leaves and says. The clauses are named there, from memory.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { limitDefaults } from '../../../server/src/budget';
import { initialSettings } from '../../../server/src/syntax/directives';
import { shelve } from '../../../server/src/syntax/includes';
import { expandFile } from '../../../server/src/syntax/preprocess';
import { indexLines } from '../../../server/src/text/line-index';
import { spanOf } from '../../../server/src/text/origin';

interface Row {
  readonly what: string;
  readonly clause: string;
  readonly text: string;
  readonly left: string;
  readonly said: readonly string[];
}

const page = readFileSync(join(dirname(fileURLToPath(import.meta.url)), 'TABLE.md'), 'utf8');

function rowOf(line: string): Row {
  const [what, clause, text, left, said] = line
    .slice(1)
    .split(/(?<!\\)\|/)
    .map((cell) => cell.trim());
  return { what, clause, text: codeOf(text), left: codeOf(left), said: said === '' ? [] : said.split(', ') };
}

/** The text of a code span; a line's end is written as an arrow. */
function codeOf(cell: string): string {
  const [, , code = ''] = /^(`+) ?(.*?) ?\1$/.exec(cell) ?? [];
  return code.replaceAll('\\|', '|').replaceAll('↵', '\n');
}

const rows = page
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (what|---) /.test(line))
  .map(rowOf);

const provided = page
  .split('\n')
  .filter((line) => line.startsWith('* `'))
  .flatMap((line) => [...line.matchAll(/`([\w/.]+)`: (`+ ?.*? ?`+)(?=,| and|$)/g)])
  .map(([, path, code]) => ({ path, text: codeOf(code) }));

function expand(text: string): { readonly left: string; readonly said: readonly string[] } {
  const shelf = shelve([{ path: 'm.v', text }], provided);
  const given = { name: 'GIVEN', parameters: null, body: { text: 'given', start: 0 }, file: null };
  const carried = { macros: new Map([['GIVEN', given]]), definitions: new Map(), settings: initialSettings };
  const expansion = expandFile(0, carried, { includeFolders: ['lib'], limits: limitDefaults, shelf });
  const files = shelf.files.map((file) => ({ ...file, lines: indexLines(file.text) }));
  const said = expansion.remarks.map(({ reason, at }) => {
    const span = spanOf(files, { map: expansion.map, base: 0 }, at);
    return `${reason} ${span.file === 'm.v' ? '' : `${span.file} `}${span.line}:${span.column}`;
  });
  return { left: expansion.text.replace(/\s+/g, ' ').trim(), said };
}

test('every row is there once, and every file at hand is read', () => {
  expect(rows.length).toBeGreaterThan(120);
  expect(new Set(rows.map(({ text }) => text)).size).toBe(rows.length);
  expect(provided.map(({ path }) => path)).toEqual([
    'w.vh',
    'open.vh',
    'line.vh',
    'guard.vh',
    'own.vh',
    'lib/part.vh',
    'lib/both.vh',
    'both.vh',
  ]);
});

test.each(rows)('$what ($clause)', ({ text, left, said }) => {
  expect(expand(text)).toEqual({ left, said });
});
