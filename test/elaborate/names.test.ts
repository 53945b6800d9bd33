// Circuits of several units whose names lead from one into another, held to their margin notes.

import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { disagreements } from '../tools/check';

const folder = join(dirname(fileURLToPath(import.meta.url)), 'names');

describe('names across units', () => {
  test.each(readdirSync(folder))('%s', async (file) => {
    expect(await disagreements(join(folder, file))).toEqual([]);
  });
});
