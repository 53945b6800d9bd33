// Every table part stands where it was typed: through line ends of all kinds, wide characters, macros, includes.

import { describe, expect, test } from 'vitest';
import { spanOf, spanOfRange, unitOffsetOf, writtenTextOf } from '../../server/src/text/origin';
import type { FileOffset } from '../../server/src/text/place';
import type { At } from '../../server/src/syntax/tables';
import { readSources } from '../tools/reading';

/** The stretches of the file, as typed, of every part of the tables that has the given name. */
async function places(text: string, name: string): Promise<readonly string[]> {
  const reading = await readSources([{ path: 'a.v', text }]);
  return reading.units.flatMap((unit) =>
    partsNamed(unit.table, name).map((at) => {
      const { line, column, endLine, endColumn } = spanOf(reading.files, unit.origin, at);
      return `${line}:${column}-${endLine}:${endColumn}`;
    }),
  );
}

function partsNamed(part: unknown, name: string): readonly At[] {
  if (typeof part !== 'object' || part === null) return [];
  const found = Object.values(part).flatMap((child) => partsNamed(child, name));
  const { name: own, at, start, end } = part as { name?: unknown; at?: At; start?: number; end?: number };
  if (own !== name) return found;
  return [...found, at ?? ({ start, end } as At)];
}

describe('places', () => {
  test('LF, CRLF, lone CR and a byte order mark', async () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const text = ['module m;', '  wire x;', '  assign y = x;', 'endmodule'].join(end);
      expect(await places(text, 'x')).toEqual(['2:8-2:9', '3:14-3:15']);
      expect(await places(`\uFEFF${text}`, 'm')).toEqual(['1:8-1:9']);
    }
  });

  test('wide characters before it, and tabs', async () => {
    expect(await places('module m; // é 😀\n\t/* 日本 😀 */ wire x; endmodule', 'x')).toEqual(['2:19-2:20']);
  });

  test('text made by a macro is at the use; an argument is as typed', async () => {
    const text = '`define PAIR(n) wire made, n;\nmodule m;\n  `PAIR(x)\n  assign x = made;\nendmodule\n';
    expect(await places(text, 'made')).toEqual(['3:3-3:11', '4:14-4:18']);
    expect(await places(text, 'x')).toEqual(['3:9-3:10', '4:10-4:11']);
  });

  test('an argument handed on through macros is still as typed', async () => {
    const text = '`define IN(n) wire n;\n`define OUT(n) `IN(n)\nmodule m;\n  `OUT(\n    x )\nendmodule\n';
    expect(await places(text, 'x')).toEqual(['5:5-5:6']);
  });

  test('text made by a macro is also where its definition has it, through lines carried on and comments', async () => {
    const text =
      '`define W(a = low /* b */) /* c */ wire a; \\\r\n  wire made; // d\r\n`define V `W()\nmodule m; `V `W(x) endmodule\n';
    const { files, units } = await readSources([{ path: 'a.v', text }]);
    const [unit] = units;
    const written = (name: string) =>
      partsNamed(unit?.table, name).map((at) => {
        const found = unit === undefined ? null : writtenTextOf(unit.origin, at);
        if (found === null) return null;
        const { line, column, endColumn } = spanOfRange(files, found.range);
        return `${found.macro} ${line}:${column}-${endColumn}`;
      });
    expect(written('made')).toEqual(['W 2:8-12', 'W 2:8-12']);
    expect(written('low')).toEqual(['W 1:15-18']);
    expect(written('x')).toEqual([null]);
    expect(written('m')).toEqual([null]);
  });

  test('a macro inside an argument is at its own use', async () => {
    const text = '`define X x\n`define ID(n) n\nmodule m; wire `ID( `X ); endmodule\n';
    expect(await places(text, 'x')).toEqual(['3:21-3:23']);
  });

  test('behind macros and conditionals nothing has moved', async () => {
    const text = '`define A 1\nmodule m;\n`ifdef B\n  wire gone;\n`endif\n  wire [`A:0] y; wire x; // `A\nendmodule\n';
    expect(await places(text, 'x')).toEqual(['6:23-6:24']);
  });

  test('where mending has put something in or taken something out', async () => {
    const text = 'module m(input a, input b\n  ;\n  assign = 1;\n  assign y = !!x\n  wire do;\n  wire z;\nendmodule\n';
    expect(await places(text, 'x')).toEqual(['4:16-4:17']);
    expect(await places(text, 'do')).toEqual(['5:8-5:10']);
    expect(await places(text, 'z')).toEqual(['6:8-6:9']);
  });

  test('from a place in the file to the unit, and back', async () => {
    const text = '`define W 4\nmodule a; endmodule\nmodule m;\n  wire [`W:0] x;\nendmodule\n';
    const reading = await readSources([{ path: 'a.v', text }]);
    const unit = reading.units[1];
    if (unit === undefined) throw new Error('no second unit');
    const typed = text.indexOf('x;');
    const offset = unitOffsetOf(unit.origin, unit.text.length, 0, typed as FileOffset);
    expect(offset).not.toBeNull();
    expect(unit.text[offset ?? 0]).toBe('x');
    const use = unitOffsetOf(unit.origin, unit.text.length, 0, text.indexOf('W:0') as FileOffset);
    expect(unit.text[use ?? 0]).toBe('4');
    expect(unitOffsetOf(unit.origin, unit.text.length, 0, text.indexOf('module a') as FileOffset)).toBeNull();
  });
});
