import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type HintKinds, inlayHints } from '../../../server/src/editor/features/inlay-hints';
import { document, open, run } from './caret';

const all = { clock: true, ratio: true, stage: true };
const everything = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

async function hintsOf(text: string, kinds: HintKinds = all, range = everything) {
  const { study } = await open(text);
  return run(inlayHints(study, document, range, kinds));
}

/** Line with the hints where they stand: `reg q‹clk rising›;`. */
async function read(text: string, kinds: HintKinds = all): Promise<readonly string[]> {
  const lines = text.split('\n');
  const hints = await hintsOf(text, kinds);
  return hints.map(({ label, position: { character, line } }) =>
    `${lines[line].slice(0, character)}‹${label}›${lines[line].slice(character)}`.trim(),
  );
}

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}.v`, import.meta.url), 'utf8');

describe('hints behind declarations', () => {
  it('are one per declared register', async () => {
    const [count, ...more] = await read(example('ripple-counter'));
    expect(more).toEqual([]);
    expect(count).toBe('output reg  [3:0] count‹bottle…count[2] falling · ÷2…16 · stage 1…4›,');
    expect(await read(example('divided-clock'))).toEqual([
      'output reg  [3:0] history‹slow rising · stage 2›',
      'reg [2:0] divider‹clk rising · ÷8›;',
      'reg       fresh‹clk rising · ÷2›;',
    ]);
  });

  it('stand before a start value and between names', async () => {
    const text = 'module m(input c);\n reg a = 0, b = 1;\n always @(posedge c) begin a <= ~a; b <= a; end\nendmodule';
    expect(await read(text)).toEqual(['reg a‹c rising · ÷2› = 0, b = 1;', 'reg a = 0, b‹c rising · ÷2› = 1;']);
  });

  it('are none for what is no register', async () => {
    const text =
      'module m(input c, g, output reg y, l);\n wire w = c;\n always @* y = w;\n always @* if (g) l = c;\nendmodule';
    expect(await read(text)).toEqual([]);
  });

  it('say what is wanted alone', async () => {
    const text = example('ripple-counter');
    const only = async (kinds: Partial<HintKinds>) =>
      (await hintsOf(text, { clock: false, ratio: false, stage: false, ...kinds })).map(({ label }) => label);
    expect(await only({ clock: true })).toEqual(['bottle…count[2] falling']);
    expect(await only({ ratio: true })).toEqual(['÷2…16']);
    expect(await only({ stage: true })).toEqual(['stage 1…4']);
    expect(await only({})).toEqual([]);
  });

  it('are asked for within a range', async () => {
    const text =
      'module m(input c);\n reg a = 0;\n reg b = 1;\n always @(posedge c) begin a <= ~a; b <= a; end\nendmodule';
    const range = { start: { line: 2, character: 0 }, end: { line: 3, character: 0 } };
    expect((await hintsOf(text, all, range)).map(({ position }) => position.line)).toEqual([2]);
  });

  it('say a register that never changes', async () => {
    const text = 'module m(input c);\n reg a = 0;\n always @(posedge c) a <= 0;\nendmodule';
    expect(await read(text)).toEqual(['reg a‹c rising · never changes› = 0;']);
  });

  it('say of several instances what they share', async () => {
    const half = 'module half(input clk, output reg q = 0);\n always @(negedge clk) q <= ~q;\nendmodule\n';
    const apart = `${half}module m(input c, d, output p, q);\n half u(c, p);\n half v(d, q);\nendmodule`;
    expect(await read(apart)).toEqual(['module half(input clk, output reg q‹clk falling · ÷2› = 0);']);
    expect((await hintsOf(apart))[0].tooltip).toMatch(/the same in all 2 instances$/);
    const chained = `${half}module m(input c, output p, q);\n half u(c, p);\n half v(p, q);\nendmodule`;
    expect(await read(chained)).toEqual([
      'module half(input clk, output reg q‹clk falling · differs by instance› = 0);',
    ]);
    expect((await hintsOf(chained))[0].tooltip).toMatch(/^u\.q .*\nv\.q .*\(stage 2\)/);
  });

  it('tell the whole sentence to whoever points at them', async () => {
    const text = [
      'module m(input clk, en, output reg [1:0] n = 0, output reg t = 0);',
      ' always @(posedge clk) if (en) n <= n + 1;',
      ' always @(negedge n[1]) t <= ~t;',
      'endmodule',
    ].join('\n');
    expect((await hintsOf(text)).map(({ tooltip }) => tooltip)).toEqual([
      'n[1:0] samples at the rising edge of clk; as driven it repeats every 4 periods of clk; it loads only while en is high',
      't samples at the falling edge of n[1], 1 flip-flop behind the root clock clk (stage 2); as driven it repeats every 8 periods of clk',
    ]);
  });

  it('stay short and legible whatever a name holds', async () => {
    const name = `\\${'clk<b>&\u202e"'.repeat(20)} `;
    const [hint] = await hintsOf(
      `module m(input ${name});\n reg q = 0;\n always @(posedge ${name}) q <= ~q;\nendmodule`,
    );
    expect([...String(hint.label)].length).toBeLessThan(80);
    expect(hint.label).not.toContain('\u202e');
    expect(hint.tooltip).not.toContain('\u202e');
  });
});
