// Memories from the text to the report and the waves: ports with their clocks, words that are no registers of their own,
// and what is read held to a model kept beside the run.

import { describe, expect, it } from 'vitest';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { study } from '../../server/src/report/study';
import type { SourceFile } from '../../server/src/text/source';
import { readyParser } from '../tools/parser';
import { reportOf, toEnd, wavesOf } from '../tools/report-of';

const text = `module scratch(input clk, output reg [7:0] count, output reg [7:0] seen, output [7:0] now);
  reg [7:0] words [0:5];
  wire [2:0] place = count % 6;
  initial count = 0;
  always @(posedge clk) begin
    count <= count + 1;
    if (count[0]) words[place] <= count * 3;
    seen <= words[5 - place];
  end
  assign now = words[place];
endmodule`;
const files = [{ path: 'scratch.v', text }];

describe('a memory of six words', () => {
  it('is told with its ports, and its words are no registers', async () => {
    const { memories, registers, counts } = await reportOf(files);
    const port = { clock: 'clk', edge: 'rising', domain: 'clk', synchronous: true };
    expect(memories).toMatchObject([
      {
        name: 'words',
        words: 6,
        width: 8,
        ports: [
          { kind: 'write', ...port },
          { kind: 'read', ...port },
          { kind: 'read', clock: null, edge: null, domain: null, synchronous: false },
        ],
        span: { line: 2 },
      },
    ]);
    expect(registers.map(({ signal }) => signal)).toEqual(['count', 'seen']);
    expect(counts.flatMap((entry) => entry.registers).filter((name) => name.startsWith('words'))).toEqual([]);
  });

  it('gives back what was written', async () => {
    const wave = await wavesOf(files, 800_000);
    const words = [0, 0, 0, 0, 0, 0];
    let seen = 0;
    for (let count = 0; count < 38; count++) {
      // The clock rises at 10 ns and every 20 ns; 9 ns before the next rise everything has settled.
      const settled = 10_000 + count * 20_000 - 9_000;
      expect(parseInt(wave('count').at(settled), 2)).toBe(count);
      expect(parseInt(wave('seen').at(settled), 2)).toBe(seen);
      expect(parseInt(wave('now').at(settled), 2)).toBe(words[count % 6]);
      seen = words[5 - (count % 6)];
      if (count % 2 === 1) words[count % 6] = (count * 3) % 256;
    }
  });
});

describe('a file of words', () => {
  const table = `module table_of(input clk, output reg [7:0] out);
    reg [7:0] rom [0:1];
    reg which = 0;
    initial $readmemh("words/rom.hex", rom);
    always @(posedge clk) begin which <= ~which; out <= rom[which]; end
  endmodule`;

  async function opened(provided: readonly SourceFile[]) {
    const options = optionsFrom(noProject, noSettings);
    const named = [{ path: 'source/table.v', text: table }];
    return study({ files: named, provided, includeFolders: ['shared'], options }, await readyParser());
  }

  it('is asked for where an include would be', async () => {
    const wanted = toEnd((await opened([])).wanted());
    expect(wanted).toMatchObject({ includes: [], data: ['source/words/rom.hex', 'shared/words/rom.hex'], modules: [] });
  });

  it('loads the words once it is there', async () => {
    const one = await opened([{ path: 'shared/words/rom.hex', text: 'a5 3c' }]);
    expect(toEnd(one.wanted()).data).toEqual([]);
    const { counts, findings } = toEnd(one.report());
    expect(findings).toEqual([]);
    expect(counts.find(({ registers }) => registers[0] === 'out[7:0]')?.values).toEqual(['165', '60']);
  });
});
