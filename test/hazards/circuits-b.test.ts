// Findings of reading, storage and text stand on at least three circuits each where they must appear and three that look
// guilty and are not. What the circuits say is held in `findings.test.ts`, which runs every one of them.

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = dirname(fileURLToPath(import.meta.url));
const ids = [
  'syntax',
  'unsupported',
  'unresolved-name',
  'unresolved-module',
  'limit-reached',
  'unintended-latch',
  'combinational-loop',
  'unknown-start',
  'mixed-assignment',
  'shared-driver',
];

it.each(ids)('%s stands on three circuits of each kind', (id) => {
  const texts = readdirSync(join(root, id))
    .filter((name) => name.endsWith('.v'))
    .map((name) => readFileSync(join(root, id, name), 'utf8'));
  const guilty = texts.filter((text) => new RegExp(`//>[^>].*finding ${id}\\b`).test(text));
  expect(guilty.length).toBeGreaterThanOrEqual(3);
  expect(texts.length - guilty.length).toBeGreaterThanOrEqual(3);
});
