// Memories that are kept as one content, from the text to what a person reads: told as memories, read back by a model kept
// beside the run, and in no place by the number that stands for what they hold. And held to the same design with a memory
// small enough to be kept word by word.

import { describe, expect, it } from 'vitest';
import { accountWords } from '../../server/src/explain/account-words';
import { tellSignal } from '../../server/src/report/signal-story';
import { accountsOf, reportOf, studyOf, toEnd, wavesOf } from '../tools/report-of';

const text = `module scratch(input clk, output reg [7:0] count, output reg [7:0] seen, output [7:0] now, third);
  reg [7:0] words [0:2047];
  wire [10:0] place = count % 6;
  initial count = 0;
  always @(posedge clk) begin
    count <= count + 1;
    if (count[0]) words[place] <= count * 3;
    seen <= words[11'd5 - place];
  end
  assign now = words[place];
  assign third = words[3];
endmodule`;
const files = [{ path: 'scratch.v', text }];

describe('a memory of 2048 words', () => {
  it('is told with its ports, and is neither a register nor a signal', async () => {
    const { memories, registers, signals, counts, assumptions } = await reportOf(files);
    const port = { clock: 'clk', edge: 'rising', domain: 'clk', synchronous: true };
    const free = { kind: 'read', clock: null, edge: null, domain: null, synchronous: false };
    expect(memories).toMatchObject([
      {
        name: 'words',
        words: 2048,
        width: 8,
        ports: [{ kind: 'write', ...port }, { kind: 'read', ...port }, free],
        span: { line: 2 },
      },
    ]);
    expect(registers.map(({ signal }) => signal)).toEqual(['count', 'seen']);
    expect(signals.map(({ name }) => name)).toEqual(['clk', 'count', 'seen', 'now', 'third', 'place']);
    expect(counts.flatMap((entry) => entry.registers).filter((name) => name.startsWith('words'))).toEqual([]);
    expect(assumptions).toContainEqual(expect.objectContaining({ about: 'start', value: '0' }));
  });

  it('gives back what was written', async () => {
    const wave = await wavesOf(files, 800_000);
    const words = Array.from({ length: 6 }, () => 0);
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

  it('is written, not risen or fallen, where an account comes through it', async () => {
    const wave = await wavesOf(files, 800_000);
    const [first] = wave('third').changes;
    const lines = (await accountsOf(files, 'third', first.at)).flatMap((account) => accountWords(account));
    expect(lines.join('\n')).toMatch(/because words was written at \d+ ns/);
    expect(lines.join('\n')).not.toMatch(/words (rose|fell|became|is|at [01x])/);
  });

  it('is told by what it is', async () => {
    const story = toEnd(tellSignal(await studyOf(files), ['words']));
    expect(story).toEqual({
      signal: 'words',
      facts: [
        'words is a memory of 2048 words of 8 bits, written on clk rising, read on clk rising and without a clock',
      ],
      account: [],
    });
  });

  it('has no bits in the report, the preview or the dump', async () => {
    const study = await studyOf(files);
    const told = JSON.stringify([toEnd(study.report()), toEnd(study.preview()), toEnd(study.dump())]);
    expect(told).not.toMatch(/words\[\d+(:0)?\]"/);
    expect(toEnd(study.preview()).traces.map(({ name }) => name)).not.toContain('words');
  });
});

describe('a small memory and a large one', () => {
  const head = `module m #(parameter A = 3)(input clk, other, we, input [A-1:0] at, input [7:0] in,
    output reg [7:0] out, output reg [7:0] more);
    reg [7:0] words [0:2**A-1]; reg [A-1:0] own; reg [7:0] held; reg [1:0] come; integer i;`;

  it.each([
    ['written and read by one clock', 'always @(posedge clk) begin if (we) words[at] <= in; out <= words[at]; end'],
    [
      'written under one clock, read by another without protection',
      'always @(posedge clk) if (we) words[at] <= in; always @(posedge other) out <= words[at];',
    ],
    [
      'read under an enable that came over',
      `always @(posedge clk) begin if (we) words[at] <= in; own[0] <= we; end
      always @(posedge other) begin come <= {come[0], own[0]}; if (come[1]) out <= words[0]; end`,
    ],
    [
      'given data of another clock',
      'always @(posedge clk) held <= in; always @(posedge other) begin if (we) words[at] <= held; out <= words[at]; end',
    ],
    [
      'given data and an enable of another clock',
      `always @(posedge clk) begin held <= in; own[0] <= we; end
      always @(posedge other) begin if (own[0]) words[at] <= held; out <= words[at]; end`,
    ],
    [
      'cleared by a reset',
      `always @(posedge clk or posedge we) if (we) for (i = 0; i < 2**A; i = i + 1) words[i] <= 0; else words[at] <= in;
      always @(posedge clk) out <= words[at];`,
    ],
    [
      'cleared at an edge',
      `always @(posedge clk) begin if (we) for (i = 0; i < 2**A; i = i + 1) words[i] <= 0; else words[at] <= in;
      out <= words[at]; end`,
    ],
    [
      'addressed by its own words',
      'always @(posedge clk) begin if (we) words[at] <= in; own <= words[own]; out <= words[own]; end',
    ],
    ['that nobody writes', 'initial words[1] = 5; always @(posedge clk) out <= words[at];'],
    ['counting in place', 'always @(posedge clk) begin words[at] <= words[at] + 1; out <= words[at]; end'],
  ])('%s: the same registers, crossings and findings', async (_, body) => {
    const of = async (bits: string) => {
      const found = await reportOf([{ path: 'm.v', text: `${head} ${body} endmodule` }], { parameters: { A: bits } });
      const told = found.findings.filter(({ id }) => id !== 'decoded-glitch');
      return {
        memories: found.memories.map(({ ports }) => ports),
        registers: found.registers.map(({ name, clock, stage, domain }) => [plain(name), clock, stage, domain]),
        crossings: found.crossings
          .filter(({ to }) => !to.startsWith('words'))
          .map(({ to, status, synchronizer, evidence }) => [plain(to), status, synchronizer, evidence.length]),
        into: new Set(
          found.crossings.flatMap((one) => (one.to.startsWith('words') ? [one.status, one.synchronizer] : [])),
        ),
        findings: told.map(({ id, severity, span }) => `${id} ${severity} ${span.line}:${span.column}`),
      };
    };
    expect(await of('11')).toEqual(await of('3'));
  });
});

/** Without a range, which hangs on the size. */
function plain(name: string): string {
  return name.replace(/\[.*$/, '');
}
