// Holds every row of NAMES-TABLE.md to what reading and elaboration say of its example, and to what then drives `y`.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { Op } from '../../../server/src/netlist/operators';
import { driversOf } from '../../elaborate/netlist-text';
import { netlistOf } from '../../tools/elaborated';

interface Row {
  readonly construct: string;
  readonly example: string;
  /** `read` or the finding. */
  readonly state: string;
  /** What drives `y`, or the reason. */
  readonly told: string;
}

const table = readFileSync(join(dirname(fileURLToPath(import.meta.url)), 'NAMES-TABLE.md'), 'utf8');

function rowOf(line: string): Row {
  const [construct, example, becomes] = line.slice(2, -2).split(/(?<!\\) \| /);
  const [state, told = ''] = becomes.split(/: (.*)/s);
  return { construct, example: example.replace(/^`|`$/g, '').replaceAll('\\|', '|'), state, told };
}

const rows = table
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (construct|---) /.test(line))
  .map(rowOf);

/** What is marked in an example, in the file that holds it. */
function markedIn(files: readonly string[]): { readonly file: number; readonly text: string } | null {
  for (const [file, text] of files.entries()) {
    const found = /«(.*)»/s.exec(text);
    if (found !== null) return { file, text: found[1] };
  }
  return null;
}

describe('names across units', () => {
  test('each row once', () => {
    expect(rows.length).toBeGreaterThan(80);
    expect(new Set(rows.map(({ construct, example }) => `${construct} ${example}`)).size).toBe(rows.length);
  });

  test.each(rows)('$construct: $state', async ({ example, state, told }) => {
    const files = example.split('‖');
    const sources = files.map((text, index) => ({ path: `${index}.sv`, text: text.replace(/[«»]/g, '') }));
    const { complaints, elaboration, netlist, reading } = await netlistOf(sources, { top: 'm' });
    const marked = markedIn(files);
    const said = complaints.map(({ id, place }) => {
      const { file, text } = reading.units[place.unit];
      return { id, file, text: text.slice(place.start, place.end) };
    });
    expect(said).toEqual(state === 'read' ? [] : [{ id: state, ...marked }]);
    if (state !== 'read') {
      expect(told).not.toBe('');
      return;
    }
    expect(Array.from(elaboration.netlist?.nodes.op ?? [])).not.toContain(Op.hole);
    expect(driversOf(netlist, 'y').join(', ')).toBe(told);
  });
});
