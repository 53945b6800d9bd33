// Holds every row of NAMES-TABLE.md and TYPES-TABLE.md to what reading and elaboration say of its example, and to what then drives `y`.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { Op } from '../../../server/src/netlist/operators';
import { bitsOf, toBinary } from '../../../server/src/netlist/four-state';
import type { Netlist } from '../../../server/src/netlist/netlist';
import { valuesOf } from '../../elaborate/evaluate-netlist';
import { driversOf, signalOf } from '../../elaborate/netlist-text';
import { netlistOf } from '../../tools/elaborated';

interface Row {
  readonly construct: string;
  readonly example: string;
  /** `read` or the finding. */
  readonly state: string;
  /** What drives `y`, or the reason. */
  readonly told: string;
}

function readTable(name: string): readonly Row[] {
  return readFileSync(join(dirname(fileURLToPath(import.meta.url)), name), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| ') && !/^\| (construct|---) /.test(line))
    .map(rowOf);
}

function rowOf(line: string): Row {
  const [construct, example, becomes] = line.slice(2, -2).split(/(?<!\\) \| /);
  const [state, told = ''] = becomes.split(/: (.*)/s);
  return { construct, example: example.replace(/^`|`$/g, '').replaceAll('\\|', '|'), state, told };
}

/** `a=10 → 0010`: the value of `y` for these values of the inputs. */
function evaluated(netlist: Netlist, told: string): string {
  const [given] = told.split('→');
  const pairs = given.split(' ').flatMap((pair) => (pair === '' ? [] : [pair.split('=')]));
  const inputs = Object.fromEntries(pairs.map(([name, digits]) => [name, bitsOf(digits)]));
  return `${given}→ ${toBinary(valuesOf(netlist, { inputs })(signalOf(netlist, 'y').node))}`;
}

/** What is marked in an example, in the file that holds it. */
function markedIn(files: readonly string[]): { readonly file: number; readonly text: string } | null {
  for (const [file, text] of files.entries()) {
    const found = /«(.*)»/s.exec(text);
    if (found !== null) return { file, text: found[1] };
  }
  return null;
}

describe.each([
  { table: 'NAMES-TABLE.md', least: 80 },
  { table: 'TYPES-TABLE.md', least: 80 },
])('$table', ({ table, least }) => {
  const rows = readTable(table);

  test('each row once', () => {
    expect(rows.length).toBeGreaterThan(least);
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
    expect(told.includes('→') ? evaluated(netlist, told) : driversOf(netlist, 'y').join(', ')).toBe(told);
  });
});
