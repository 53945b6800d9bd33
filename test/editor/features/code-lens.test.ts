import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { codeLens, plainLens } from '../../../server/src/editor/features/code-lens';
import type { PanelSubject } from '../../../server/src/editor/panel-messages';
import type { ReportOptions } from '../../tools/report-of';
import { covered, document, open, run } from './caret';

/** Line and name that it stands over, its words, and the top that it opens. */
async function lenses(marked: string, options: ReportOptions = {}): Promise<readonly string[]> {
  const { study, text } = await open(marked, {}, options);
  return run(codeLens(study, document)).map(({ command, range }) => {
    expect(command?.command).toBe('foretick.openPreview');
    const subject: PanelSubject = command?.arguments?.[0];
    expect(subject.document).toBe(document);
    return `${covered(text, range)}: ${command?.title} → ${subject.choices.top ?? 'whole design'}`;
  });
}

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}.v`, import.meta.url), 'utf8');
const toggle = 'module toggle(input clk, output reg q = 0);\n always @(negedge clk) q <= ~q;\nendmodule\n';

describe('the line over a module', () => {
  it('says what the examples hold', async () => {
    const titles = async (name: string) => (await lenses(example(name))).map((line) => line.replace(/^\d+ /, ''));
    expect(await titles('ripple-counter')).toEqual([
      'belt_counter: 4 registers · 1 clock · ripple chain of 4 · counts up, modulo 16 → belt_counter',
    ]);
    expect(await titles('synchronous-counter')).toEqual([
      'belt_counter: 2 registers · 1 clock · counts up, modulo 16 → belt_counter',
    ]);
    expect(await titles('divided-clock')).toEqual([
      'soil_sampler: 3 registers · 1 clock · counts up, modulo 8 → soil_sampler',
    ]);
    expect(await titles('wash-controller')).toEqual([
      'wash_controller: 3 registers · 1 clock · counts up, modulo 5, with stops: 16 edges to come round while start is 1 → wash_controller',
    ]);
    expect(await titles('gray-counter')).toEqual([
      'cabin_position: 2 registers · 1 clock · counts in Gray code, every 16 edges · 1 more sequence → cabin_position',
    ]);
  });

  it('counts what stands below a module, and opens the whole design from an instantiated one', async () => {
    const text = `${toggle}module chain(input clk, output [1:0] q);\n toggle a(clk, q[0]);\n toggle b(q[0], q[1]);\nendmodule\n`;
    expect(await lenses(text)).toEqual([
      '1 toggle: 2 instances · 1 register · 1 clock → whole design',
      '4 chain: 2 registers · 1 clock · ripple chain of 2 · counts up, modulo 4 → chain',
    ]);
  });

  it('says only what instances have in common', async () => {
    const text = [
      'module some #(parameter N = 1)(input clk, output reg a = 0, b = 0);',
      ' always @(posedge clk) a <= ~a;',
      ' if (N > 1) always @(posedge clk) b <= a;',
      'endmodule',
      'module m(input clk, output [3:0] y);',
      ' some #(1) u(clk, y[0], y[1]);',
      ' some #(2) v(clk, y[2], y[3]);',
      'endmodule',
    ].join('\n');
    expect((await lenses(text))[0]).toBe(
      '1 some: 2 instances · registers: differs by instance · 1 clock → whole design',
    );
  });

  it('offers each module that could be the top', async () => {
    const text =
      'module a(input x, output y);\n assign y = x;\nendmodule\nmodule b(input x, output y);\n assign y = x;\nendmodule\n';
    expect(await lenses(text, { top: 'b' })).toEqual([
      '1 a: not in the design shown: open its Timing preview → a',
      '4 b: no registers → b',
    ]);
  });

  it('names latches, and clocks where there are several', async () => {
    const text = [
      'module m(input c, d, g, x, output reg p, q, l);',
      ' always @(posedge c) p <= x;',
      ' always @(posedge d) q <= x;',
      ' always @* if (g) l = x;',
      'endmodule',
    ].join('\n');
    expect(await lenses(text)).toEqual(['1 m: 2 registers and 1 latch · 3 clocks → m']);
  });

  it('stands over a half-typed module too', async () => {
    expect(await lenses('module m(input clk, output reg q);\n always @(posedge clk) q <=')).toHaveLength(1);
    expect(await lenses('')).toEqual([]);
  });
});

it('before the design is known, each module of the document opens the preview', async () => {
  const { study, text } = await open(`${toggle}module other(input a); endmodule\n`);
  const found = run(plainLens(study, document)).map(
    ({ command, range }) => `${covered(text, range)}: ${command?.title}`,
  );
  expect(found).toEqual(['1 toggle: Timing preview', '4 other: Timing preview']);
});
