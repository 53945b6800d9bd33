// The circuits of the findings about glitches, held to their margin notes.

import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { disagreements } from '../../tools/check';

const hazards = dirname(dirname(fileURLToPath(import.meta.url)));

describe.each(['decoded-glitch', 'glitch-into-clock', 'glitch-into-reset', 'glitch-into-latch'])('%s', (finding) => {
  const folder = join(hazards, finding);
  it.each(readdirSync(folder).filter((name) => name.endsWith('.v')))('%s', async (name) => {
    expect(await disagreements(join(folder, name))).toEqual([]);
  });
});
