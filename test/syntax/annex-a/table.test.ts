// Holds every row of TABLE.md to what reading and elaboration say of its example.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { Op } from '../../../server/src/netlist/operators';
import { netlistOf } from '../../tools/elaborated';
import { textOf } from './frames';

interface Row {
  readonly production: string;
  readonly place: string;
  readonly example: string;
  /** `read`, `passed over`, or the finding. */
  readonly state: string;
  readonly reason: string;
}

const table = readFileSync(join(dirname(fileURLToPath(import.meta.url)), 'TABLE.md'), 'utf8');

function rowOf(line: string): Row {
  const [production, place, example, told] = line.slice(2, -2).split(/(?<!\\) \| /);
  const [state, reason = ''] = told.split(': ');
  const text = example
    .replace(/^`+ ?| ?`+$/g, '')
    .replaceAll('\\|', '|')
    .replaceAll('↵', '\n');
  return { production: production.replaceAll('\\', ''), place, example: text, state, reason };
}

const rows = table
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (production|---) /.test(line))
  .map(rowOf);

describe('the productions of annex A', () => {
  test('are all there, each once', () => {
    expect(rows.length).toBeGreaterThan(120);
    expect(new Set(rows.map(({ production, example }) => `${production} ${example}`)).size).toBe(rows.length);
  });

  test.each(rows)('$production: $state', async ({ place, example, state, reason }) => {
    const { complaints, elaboration } = await netlistOf([{ path: 'm.v', text: textOf(place, example) }], { top: 'm' });
    const ids = [...new Set(complaints.map(({ id }) => id))];
    expect(ids).toEqual(state === 'read' || state === 'passed over' ? [] : [state]);
    const operators = Array.from(elaboration.netlist?.nodes.op ?? []);
    // Nothing that is read may leave a hole, nor be left out unsaid.
    if (ids.length === 0) expect(operators).not.toContain(Op.hole);
    if (state !== 'read') expect(reason).not.toBe('');
  });
});
