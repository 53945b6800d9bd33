// The circuits of each finding: where it must appear, and where something looks guilty and is not. Folders are named by
// the finding; a note that nothing meets fails, and so does a finding that no note expects. `designs` holds what people
// build in earnest: blocks in which nothing but the truth may be found.

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { rules } from '../../server/src/hazards/all';
import { disagreements } from '../tools/check';

const root = dirname(fileURLToPath(import.meta.url));
const reading = ['syntax', 'unsupported', 'unresolved-name', 'unresolved-module', 'limit-reached'];
const ids: readonly string[] = [...rules.map(({ id }) => id), ...reading];
/** Folders that are named by no finding. */
const others = ['designs', 'glitches'];

it('every folder is a finding that a rule or the reading gives, and each of those has a folder', () => {
  const folders = readdirSync(root, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  expect(folders.map(({ name }) => name).sort()).toEqual([...ids, ...others].sort());
});

describe('designs', () => {
  const folder = join(root, 'designs');
  const circuits = readdirSync(folder).filter((name) => name.endsWith('.v'));
  it.each(circuits)('%s', async (name) => {
    expect(await judged(folder, name)).toEqual([]);
  });
});

describe.each(ids)('%s', (id) => {
  const folder = join(root, id);
  const circuits = readdirSync(folder).filter((name) => name.endsWith('.v'));

  it('has circuits where it must appear, and circuits that look guilty and are not', () => {
    const guilty = circuits.filter((name) => noted(readFileSync(join(folder, name), 'utf8'), id));
    expect(guilty.length).toBeGreaterThanOrEqual(3);
    expect(circuits.length - guilty.length).toBeGreaterThanOrEqual(3);
  });

  it.each(circuits)('%s', async (name) => {
    expect(await judged(folder, name)).toEqual([]);
  });
});

/** One circuit's disagreements, and its part of the table. */
async function judged(folder: string, name: string): Promise<readonly string[]> {
  const path = join(folder, name);
  const found = await disagreements(path);
  circuitsJudged.push({ text: readFileSync(path, 'utf8'), disagreements: found });
  return found;
}

const circuitsJudged: { readonly text: string; readonly disagreements: readonly string[] }[] = [];

/** Runs last: tests of one file run in their order. Where only some circuits were asked for there is no table. */
it('the table of what is found is kept in PRECISION.md, which `npm run bless` rewrites', async ({ skip }) => {
  const total = [...ids, 'designs'].reduce((sum, folder) => sum + circuitsIn(join(root, folder)).length, 0);
  if (circuitsJudged.length < total) skip();
  await expect(precisionTable()).toMatchFileSnapshot('PRECISION.md');
});

function circuitsIn(folder: string): readonly string[] {
  return readdirSync(folder).filter((name) => name.endsWith('.v'));
}

function precisionTable(): string {
  const rows = [...ids].sort().map((id) => {
    const expected = circuitsJudged.filter(({ text }) => noted(text, id));
    const silent = circuitsJudged.filter(({ text }) => !noted(text, id));
    const missed = expected.filter(({ disagreements: all }) =>
      all.some((one) => one.includes(`expected 'finding ${id}`)),
    );
    const isFalse = (one: string) => one.includes('no note expects') && one.includes(` ${id}: `);
    const falseAlarms = circuitsJudged.filter(({ disagreements: all }) => all.some(isFalse));
    const cells = [expected.length, expected.length - missed.length, silent.length, falseAlarms.length];
    return `| \`${id}\` | ${cells.join(' | ')} |`;
  });
  return [
    '# What is found, and what is not',
    '',
    'Counted over all circuits with margin notes of this folder: in how many a finding must appear and does, and in how many',
    'it must not and yet appears. Written by `npm run bless`, held true by `findings.test.ts`. The circuits are our own; what',
    'they were made to show is said at their top.',
    '',
    '| finding | circuits that have it | found | circuits without it | false alarms |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}

function noted(text: string, id: string): boolean {
  return new RegExp(`//>[^>].*finding ${id}\\b`).test(text);
}
