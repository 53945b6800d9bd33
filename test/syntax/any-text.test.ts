// Whatever the text, reading ends with a value: nothing throws, every place lies in its unit, and a name that
// the text declares whole is not lost by damage elsewhere.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Reading } from '../../server/src/syntax/read';
import { spanOf } from '../../server/src/text/origin';
import { readText } from '../tools/reading';

/** A divider and a small bus of our own, with a bit of everything. */
const realistic = `\`timescale 1ns / 1ps
\`define WIDTH 4
\`define NEXT(q) (q + 1'b1)
module divider #(parameter W = \`WIDTH) (
  input  wire         clk, rst_n,
  input  wire [W-1:0] limit,
  output reg          tick
);
  reg [W-1:0] count; // counts up
  always @(posedge clk or negedge rst_n)
    if (!rst_n) begin
      count <= {W{1'b0}};
      tick  <= 0;
    end else if (count == limit - 1) begin
      count <= 0;
      tick  <= ~tick;
    end else
      count <= \`NEXT(count);
endmodule

\`ifdef TEST
  this is left out
\`endif
module bus (a, sel, y);
  input  [7:0] a;
  input  [1:0] sel;
  output y;
  wire [3:0] n, m;
  assign #2 {n, m} = a ^ 8'h3_c;
  and g1 (y, n[0], m[sel]);
  genvar i;
  generate for (i = 0; i < 2; i = i + 1) begin : lane
    divider #(.W(4)) u (.clk(n[i]), .rst_n(1'b1), .limit(m), .tick());
  end endgenerate
  always @* casez (sel)
    2'b1?: $display("high %b", a);
    default: ;
  endcase
  initial begin : start
    integer k;
    for (k = 0; k < 8; k = k + 1) #10 force n = k;
  end
endmodule
`;

function checkReading(reading: Reading): void {
  for (const { place } of reading.complaints) {
    const unit = reading.units[place.unit];
    expect(unit).toBeDefined();
    if (unit === undefined) continue;
    expect(place.start).toBeGreaterThanOrEqual(0);
    expect(place.end).toBeGreaterThanOrEqual(place.start);
    expect(place.end).toBeLessThanOrEqual(unit.text.length);
    const span = spanOf(reading.files, unit.origin, place);
    expect(span.line).toBeGreaterThan(0);
    expect(span.endLine * 1e6 + span.endColumn).toBeGreaterThanOrEqual(span.line * 1e6 + span.column);
  }
  for (const unit of reading.units) checkPlaces(unit.table, unit.text.length);
}

function checkPlaces(part: unknown, length: number): void {
  if (typeof part !== 'object' || part === null) return;
  const { start, end } = part as { start?: unknown; end?: unknown };
  if (typeof start === 'number' && typeof end === 'number') {
    if (!(start >= 0 && start <= end && end <= length))
      throw new Error(`a place outside its unit: ${JSON.stringify(part).slice(0, 200)}`);
  }
  for (const child of Object.values(part)) checkPlaces(child, length);
}

test('the realistic text itself is whole', async () => {
  const { complaints, units } = await readText(realistic);
  expect(complaints.map(({ args }) => args)).toEqual([{ what: 'procedural continuous assignment' }]);
  expect(units.map(({ table }) => table.name?.name)).toEqual(['divider', 'bus']);
});

test('every prefix of it', async () => {
  for (let end = 0; end <= realistic.length; end += 1) checkReading(await readText(realistic.slice(0, end)));
}, 60_000);

test('it without any one of its words', async () => {
  const words = [...realistic.matchAll(/\w+|[^\s\w]+/g)];
  for (const word of words) {
    const at = word.index;
    checkReading(await readText(realistic.slice(0, at) + realistic.slice(at + word[0].length)));
  }
}, 60_000);

test('characters at random', async () => {
  await fc.assert(
    fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 200 }), async (text) => {
      checkReading(await readText(text));
      checkReading(await readText(`module m; ${text} endmodule`));
    }),
    { seed: 1, numRuns: 150 },
  );
});

const words = fc.constantFrom(
  ...'module endmodule begin end if else case endcase ( ) [ ] { } ; , . # @ = <= + ? : always initial assign wire reg input output generate endgenerate for fork join function endfunction posedge or a b c 1 4\'b1x "s" "open /* */ // \n ` `define `ifdef `endif `A `A(x) (* *) \\esc'.split(
    ' ',
  ),
);

test('words at random', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(words, { maxLength: 60 }), async (list) => {
      checkReading(await readText(list.join(' ')));
      checkReading(await readText(`\`define A(x) x\nmodule m; ${list.join(' ')}\nendmodule`));
    }),
    { seed: 2, numRuns: 250 },
  );
}, 60_000);

test('damage in one module never reaches another', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(words, { maxLength: 30 }), async (list) => {
      // Words that open a comment, a string, a conditional or a unit reach as far as the language lets them.
      const inner = list.filter((word) => !/^(\/|"|`|module|endmodule|\(\*|\\)/.test(word)).join(' ');
      const reading = await readText(
        `module first; wire x; endmodule\nmodule broken; ${inner}\nendmodule\nmodule last; wire z; endmodule\n`,
      );
      const modules = reading.units.flatMap(({ table }) => (table.kind === 'module' ? [table] : []));
      expect(modules[0]).toMatchObject({ name: { name: 'first' }, items: [{ kind: 'net' }] });
      expect(modules[modules.length - 1]).toMatchObject({ name: { name: 'last' }, items: [{ kind: 'net' }] });
    }),
    { seed: 3, numRuns: 250 },
  );
}, 60_000);

test('damage in one item leaves the items around it', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(words, { minLength: 1, maxLength: 12 }), async (list) => {
      const inner = list
        .filter((word) => /^([a-c]|[0-9]\S*|[-+?:.,=#@]|<=|assign|wire|posedge|or)$/.test(word))
        .join(' ');
      const reading = await readText(`module m; wire before;\n${inner} ;\nassign after = before;\nendmodule\n`);
      const [table] = reading.units.map((unit) => unit.table);
      const items = table?.kind === 'module' ? table.items : [];
      expect(items[0]).toMatchObject({ kind: 'net' });
      expect(items[items.length - 1]).toMatchObject({ kind: 'assign', target: { name: 'after' } });
    }),
    { seed: 4, numRuns: 250 },
  );
}, 60_000);

test('a file that is no text is told as one, not byte by byte', async () => {
  const pictured = Array.from({ length: 2_000 }, (_each, index) => String.fromCharCode((index * 37) % 32)).join('');
  expect((await readText(pictured)).complaints).toMatchObject([{ id: 'syntax', reason: 'no-text' }]);
  const coded = [...'module m(input a); endmodule\n'].join('\0');
  expect((await readText(coded)).complaints).toMatchObject([{ id: 'syntax', reason: 'no-text' }]);
  expect((await readText(`module m; // ${'\uFFFD'.repeat(3)}\nendmodule\n`)).complaints).toEqual([]);
});
