// Directives that reach across modules and files: units made by macros, bodies in included files, headers by themselves,
// reserved words by version, and macros that are defined too late.

import { describe, expect, test } from 'vitest';
import { includeCandidates } from '../../../server/src/syntax/includes';
import { spanOf } from '../../../server/src/text/origin';
import type { SourceFile } from '../../../server/src/text/source';
import { readSources } from '../../tools/reading';
import { spellItem } from '../spell';

async function read(files: readonly SourceFile[], provided: readonly SourceFile[] = []) {
  const reading = await readSources(files, { provided });
  const said = reading.complaints.map(({ reason, place }) => {
    const { file, line, column } = spanOf(reading.files, reading.units[place.unit].origin, place);
    return `${reason} ${file}:${line}:${column}`;
  });
  const modules = reading.units.flatMap(({ table }) =>
    table.kind === 'module' ? [[table.name.name, ...table.items.map(spellItem)].join(' ')] : [],
  );
  return { said, modules };
}

const file = (path: string, ...lines: readonly string[]): SourceFile => ({ path, text: `${lines.join('\n')}\n` });

describe('units', () => {
  test('made by a macro, one for each use', async () => {
    const text = [
      '`define MODULE(n) module n; wire w_``n; endmodule',
      '`MODULE(a)',
      '`MODULE(b)',
      'module c; endmodule',
    ];
    expect(await read([file('m.v', ...text)])).toEqual({ said: [], modules: ['a wire w_a;', 'b wire w_b;', 'c'] });
  });

  test('opened by one macro and closed by another', async () => {
    const text = ['`define OPEN(n) module n;', '`define CLOSE endmodule', '`OPEN(a)', 'wire w;', '`CLOSE'];
    expect(await read([file('m.v', ...text)])).toEqual({ said: [], modules: ['a wire w;'] });
  });

  test('whose body, or whose end, stands in another file', async () => {
    const files = [file('m.v', 'module a;', '`include "body.vh"', 'endmodule', 'module b;', '`include "end.vh"')];
    const provided = [file('body.vh', 'wire w; // no line end'), file('end.vh', 'wire v;', 'endmodule')];
    expect(await read(files, provided)).toEqual({ said: [], modules: ['a wire w;', 'b wire v;'] });
  });

  test('conditionals and settings that span modules', async () => {
    const text = [
      '`ifdef NONE',
      'module a; endmodule',
      'module b;',
      '`else',
      'module c; wire `ifdef NONE x `else y `endif ; endmodule',
      'module d;',
      '`endif',
      'wire w;',
      'endmodule',
    ];
    expect(await read([file('m.v', ...text)])).toEqual({ said: [], modules: ['c wire y;', 'd wire w;'] });
  });

  test('damage in the text of a macro is said at each use, with the place in the definition', async () => {
    const text = ['`define BAD assign = 1;', 'module a; `BAD', 'endmodule', 'module b; wire w; `BAD', 'endmodule'];
    expect((await read([file('m.v', ...text)])).said).toEqual(['unexpected m.v:2:11', 'unexpected m.v:4:19']);
  });
});

describe('a header by itself', () => {
  const inside = ['assign y = `WIDTH - 1;', 'always @(posedge clk) q <= d;', '`ifdef A', 'wire w;', '`endif'];

  test('needs neither the macros nor the module of who includes it', async () => {
    expect(await read([file('part.vh', ...inside)])).toEqual({ said: [], modules: [] });
    expect(await read([file('part.svh', '`PREFIX', 'wire w', '`include "w.vh"')], [file('w.vh')])).toEqual({
      said: [],
      modules: [],
    });
  });

  test('what is wrong wherever it is included is said', async () => {
    const text = ['`ifdef A', '`define', '`endif', '`ifdef B', 'wire w;'];
    expect((await read([file('part.vh', ...text)])).said).toEqual(['unclosed part.vh:4:1']);
    expect((await read([file('part.vh', 'wire w; /* open')])).said).toEqual(['unclosed part.vh:1:9']);
    expect((await read([file('part.vh', '`include "none.vh"')])).said).toEqual(['missing-include part.vh:1:1']);
  });

  test('in a module of its own a design is read, and what is unknown there is said', async () => {
    const { said } = await read([file('part.vh', 'module m;', 'wire [`WIDTH-1:0] a;', 'endmodule')]);
    expect(said).toEqual(['unknown-macro part.vh:2:7']);
  });

  test('the same text included where something is missing is said', async () => {
    const { said } = await read(
      [file('m.v', 'module m;', '`include "part.vh"', 'endmodule')],
      [file('part.vh', inside[0])],
    );
    expect(said).toEqual(['unknown-macro part.vh:1:12']);
  });
});

describe('macros defined too late', () => {
  test('further down, or in a file that is read later', async () => {
    const files = [file('a.v', 'module a; wire `N; endmodule', '', '`define N n'), file('b.v', '`define M m')];
    const reading = await readSources([file('first.v', 'module f; wire `M; endmodule'), ...files]);
    expect(reading.complaints).toMatchObject([
      { id: 'unresolved-name', reason: 'late-macro', args: { name: 'M', path: 'b.v', line: 1 } },
      { id: 'unresolved-name', reason: 'late-macro', args: { name: 'N', path: 'a.v', line: 3 } },
    ]);
  });

  test('a definition that is left out is none', async () => {
    expect(
      (await read([file('a.v', 'module a; wire `N; endmodule', '`ifdef X', '`define N n', '`endif')])).said,
    ).toEqual(['unknown-macro a.v:1:16']);
  });
});

// IEEE 1364-2005 19.11 and IEEE 1800-2017 22.14, the lists of words from memory.
describe('reserved words by version', () => {
  const within = (set: string, text: string) =>
    read([file('m.v', `\`begin_keywords "${set}"`, `module m; ${text}`, 'endmodule', '`end_keywords')]);

  test.each([
    ['1364-2005', 'wire logic, bit, do; assign do = bit;', 'm wire logic, bit, do; assign do = bit;'],
    ['1364-2005', 'reg program; reg package; wire w;', 'm reg program; reg package; wire w;'],
    ['1364-2001', 'wire uwire;', 'm wire uwire;'],
    ['1364-1995', 'wire signed, generate, cell;', 'm wire signed, generate, cell;'],
    ['1364-2001-noconfig', 'wire cell, use;', 'm wire cell, use;'],
    ['1800-2005', 'wire checker, global;', 'm wire checker, global;'],
    ['1800-2009', 'wire soft;', 'm wire soft;'],
    ['1800-2017', 'logic a;', 'm logic a;'],
  ])('%s: %s', async (set, text, module) => {
    expect(await within(set, text)).toEqual({ said: [], modules: [module] });
  });

  test('the innermost counts, and the one around it counts again behind its end', async () => {
    const text = [
      '`begin_keywords "1364-2005"',
      '`begin_keywords "1800-2017"',
      'module a; logic x; endmodule',
      '`end_keywords',
      'module b; wire logic; endmodule',
      '`end_keywords',
      'module c; logic y; endmodule',
    ];
    expect(await read([file('m.v', ...text)])).toEqual({
      said: [],
      modules: ['a logic x;', 'b wire logic;', 'c logic y;'],
    });
  });

  test('without a version, a name of Verilog that opens units elsewhere opens none', async () => {
    const { modules } = await read([file('m.v', 'module m; reg program; wire w;', 'endmodule', 'module n; endmodule')]);
    expect(modules).toEqual(['m reg program; wire w;', 'n']);
  });
});

test('a URI keeps its scheme and authority where includes are looked for', () => {
  expect(includeCandidates('file:///p/rtl/a.v', '../b.vh', ['file:///p/inc'])).toEqual(['file:///p/b.vh']);
  expect(includeCandidates('remote://host/p/a.v', './x/../b.vh', ['remote://host/inc/'])).toEqual([
    'remote://host/p/b.vh',
    'remote://host/inc/b.vh',
  ]);
  expect(includeCandidates('file:///p/a.v', '/opt/b.vh', [])).toEqual(['file:///opt/b.vh']);
  expect(includeCandidates('file:///p/a.v', 'C:\\lib\\b.vh', [])).toEqual(['file:///C:/lib/b.vh']);
  expect(includeCandidates('file:///a.v', '../../b.vh', [])).toEqual(['file:///../../b.vh']);
  expect(includeCandidates('a.v', '../b.vh', [])).toEqual(['../b.vh']);
});
