// The circuits of the definitions, held to their margin notes; and which rules have no circuit yet.

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { disagreements } from '../tools/check';

const folder = dirname(fileURLToPath(import.meta.url));
const circuits = readdirSync(folder).filter((name) => name.endsWith('.v'));

for (const name of circuits) {
  it(name, async () => {
    expect(await disagreements(join(folder, name))).toEqual([]);
  });
}

it('every circuit shows a rule of the page; prints which rules have no circuit here', () => {
  const rules = readFileSync(join(folder, 'DEFINITIONS.md'), 'utf8')
    .split('\n')
    .flatMap((line) => /^(\d+)\. /.exec(line)?.[1] ?? []);
  const shown = new Set(circuits.map((name) => String(Number.parseInt(name, 10))));
  expect([...shown].filter((rule) => !rules.includes(rule))).toEqual([]);
  console.log(`definitions without a circuit here: ${rules.filter((rule) => !shown.has(rule)).join(' ') || 'none'}`);
});
