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
    expect(await disagreements(join(folder, name))).toEqual([]);
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
    expect(await disagreements(join(folder, name))).toEqual([]);
  });
});

function noted(text: string, id: string): boolean {
  return new RegExp(`//>[^>].*finding ${id}\\b`).test(text);
}
