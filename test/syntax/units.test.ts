// Cutting text into units, their keys, and reading again what changed.

import { describe, expect, test } from 'vitest';
import { rangeOf } from '../../server/src/text/origin';
import { readSources, readText } from '../tools/reading';

async function outline(text: string): Promise<readonly string[]> {
  const { units } = await readText(text);
  return units.map(({ table }) =>
    table.kind === 'module' ? `module ${table.name.name}` : `${table.what} ${table.name?.name ?? ''}`,
  );
}

async function said(text: string): Promise<readonly string[]> {
  const { complaints } = await readText(text);
  return complaints.map(({ id, reason, args }) => [id, reason, ...Object.values(args)].join(' '));
}

describe('units', () => {
  test('modules one behind the other, with what may stand between', async () => {
    expect(await outline('// x\n(* a *) module a; endmodule : a\n; /* module */ module b; endmodule // end\n')).toEqual(
      ['module a', 'module b'],
    );
    expect(await said('// x\n(* a *) module a; endmodule : a\n; /* module */ module b; endmodule // end\n')).toEqual(
      [],
    );
  });

  test('words in comments, strings, attributes and escaped names open nothing', async () => {
    const text =
      'module a; // module x\n/* endmodule */ initial $display("endmodule module b;"); (* x = "endmodule" *) wire \\endmodule ; endmodule';
    expect(await outline(text)).toEqual(['module a']);
    expect(await said(text)).toEqual([]);
  });

  test('other design units are known by name', async () => {
    const text =
      'primitive p (o, a); endprimitive\ninterface i; endinterface\npackage k; endpackage\nprogram g; endprogram\nclass c; endclass\nmodule m; endmodule';
    expect(await outline(text)).toEqual([
      'primitive p',
      'interface i',
      'package k',
      'program g',
      'class c',
      'module m',
    ]);
    expect(await said(text)).toEqual(['primitive', 'program', 'class'].map((what) => `unsupported construct ${what}`));
  });

  test('a module header inside an open module closes it, said at the open one', async () => {
    const text = 'module a; wire x;\nmodule b; wire y; endmodule\n';
    const reading = await readText(text);
    expect(await outline(text)).toEqual(['module a', 'module b']);
    expect(reading.complaints).toMatchObject([{ reason: 'unclosed', args: { what: 'module', expected: 'endmodule' } }]);
    expect(reading.complaints[0]?.place).toEqual({ unit: 0, start: 0, end: 'module a'.length });
    expect(reading.units[0]?.table).toMatchObject({ items: [{ kind: 'net' }] });
  });

  test('a module that the end of the text leaves open', async () => {
    expect(await said('module a; wire x;')).toEqual(['syntax unclosed module endmodule']);
    expect(await said('module a; wire x; /* open')).toEqual(['syntax unclosed comment */']);
  });

  test('text between units is said once a thing, or once where it is damaged', async () => {
    expect(await said('wire a;\nfunction f; input x; f = x; endfunction\nmodule m; endmodule')).toEqual([
      'unsupported construct net declaration outside a module',
    ]);
    expect(await said('module m; endmodule endmodule')).toEqual(['syntax unexpected endmodule']);
    expect(await said('module m; endmodule /* open')).toEqual(['syntax unclosed comment */']);
    expect(await said('extern module m(input a);\nmodule m(input a); endmodule')).toEqual([
      'unsupported construct module declaration outside a module',
    ]);
  });

  test('a module without a name has no table', async () => {
    expect(await outline('module (input a); endmodule module b; endmodule')).toEqual(['loose ', 'module b']);
  });

  test('nothing at all', async () => {
    expect(await outline('')).toEqual([]);
    expect(await outline('\n// only a comment\n')).toEqual([]);
  });
});

describe('keys', () => {
  const two = 'module a; wire x; endmodule\nmodule b; wire y; endmodule\n';

  test('do not depend on where a unit stands', async () => {
    const [first] = (await readText(two)).units;
    const moved = (await readText(`// moved\n\n${two}`)).units[0];
    expect(moved?.key).toBe(first?.key);
    expect(moved?.table).toEqual(first?.table);
  });

  test.each([
    ['the text', two.replace('wire x', 'wire z')],
    ['the time scale', `\`timescale 1ns/1ns\n${two}`],
    ['the net type', `\`default_nettype none\n${two}`],
    ['cells', `\`celldefine\n${two}`],
  ])('depend on %s', async (_what, changed) => {
    expect((await readText(changed)).units[0]?.key).not.toBe((await readText(two)).units[0]?.key);
  });

  test('an earlier reading is used where its key still holds, and gives the same as reading afresh', async () => {
    const previous = await readText(two);
    const changed = `\n${two.replace('wire y', 'wire = y')}`;
    const again = await readText(changed, { previous });
    expect(again.units[0]?.table).toBe(previous.units[0]?.table);
    const { previous: _unused, ...fresh } = { previous, ...(await readText(changed)) };
    expect({
      units: again.units.map(({ table, remarks }) => ({ table, remarks })),
      complaints: again.complaints,
    }).toEqual({
      units: fresh.units.map(({ table, remarks }) => ({ table, remarks })),
      complaints: fresh.complaints,
    });
  });
});

test('the same text gives the same bytes', async () => {
  const text = '`define A(x) x\nmodule m(input a, output b); assign b = `A(a) + ; foo u (.x(b)); endmodule\nwire z;';
  const [first, second] = [await readText(text), await readText(text)];
  expect(JSON.stringify(second)).toBe(JSON.stringify(first));
});

test('complaints stop at the limit of a file, and say so', async () => {
  const { complaints } = await readSources(
    [
      { path: 'a.v', text: `module m; ${'assign = 1; '.repeat(50)} endmodule` },
      { path: 'b.v', text: 'module n; assign = 1; endmodule' },
    ],
    { limits: { ...(await import('../../server/src/budget')).limitDefaults, complaints: 5 } },
  );
  expect(complaints.map(({ place }) => place.unit)).toEqual([0, 0, 0, 0, 0, 1]);
  expect(complaints[4]).toMatchObject({ id: 'limit-reached', args: { limit: 'complaints', value: 5 } });
});

test('a unit knows its own stretch of the file', async () => {
  const text = '// a\nmodule a; endmodule\nmodule b; endmodule';
  const { units } = await readText(text);
  const ranges = units.map(({ origin, text: unit }) =>
    rangeOf(origin, { start: 0 as never, end: unit.length as never }),
  );
  expect(ranges.map(({ start, end }) => text.slice(start, end))).toEqual([
    'module a; endmodule',
    'module b; endmodule',
  ]);
});
