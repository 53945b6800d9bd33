// Vectors followed in one run against the same vectors each in a run of its own, on random registers that hear each other;
// and what only one run can pay for.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Limits, limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import type { Netlist } from '../../server/src/netlist/netlist';
import { countOf } from '../../server/src/predict/counts';
import { countEntriesOf } from '../../server/src/predict/counts-entry';
import { followTogether } from '../../server/src/predict/counts-together';
import { driveOf } from '../../server/src/predict/drive-of';
import { countContextOf } from '../../server/src/predict/predict';
import type { Count } from '../../server/src/predict/prediction';
import { planSettled } from '../../server/src/predict/settled-plan';
import { netlistOf } from '../tools/elaborated';
import { finished, flipFlops } from './predicted';

interface Both {
  /** From runs of their own, and from what one run told of them; in the same order. */
  readonly alone: readonly Count[];
  readonly together: readonly Count[];
  /** How many one run told of. */
  readonly told: number;
}

function bothWays(netlist: Netlist, limits: Limits = limitDefaults): Both {
  const network = finished(findClocks(netlist, { clockOperands: {}, related: [], cells: {}, static: [] }));
  const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start: '0' });
  const rise = { min: 1_000, typ: 2_000, max: 3_000 };
  const delaySet = flipFlops({ rise, fall: { min: 2_000, typ: 3_000, max: 4_000 } });
  const context = () => finished(countContextOf({ netlist, network, drive, delaySet, start: '0', limits }));
  const entries = countEntriesOf(netlist, network);
  const shared = finished(followTogether(context(), entries, planSettled(netlist, 'all')));
  const counts = (from: typeof shared) => {
    const own = context();
    return entries.map((entry) => finished(countOf(own, entry, from)).count);
  };
  return { alone: counts(new Map()), together: counts(shared), told: shared.size };
}

const nextValues = [
  (own: string) => `${own} + 1`,
  (_own: string, other: string) => other,
  (own: string, other: string) => `${own} ^ ${other}`,
  (own: string, other: string) => `${other}[0] ? ${own} : ${other} + 3`,
  (own: string, other: string) => `{${own}, ${other}[1]}`,
  (own: string, other: string) => `${own} == 5 ? ${other} : ${own} + 1`,
  (_own: string, other: string) => `${other} & d`,
];

const register = fc.record({
  width: fc.integer({ min: 2, max: 5 }),
  next: fc.nat(nextValues.length - 1),
  hears: fc.nat(),
  edge: fc.constantFrom('posedge', 'posedge', 'negedge'),
  reset: fc.constantFrom(null, 'ra', 'rb'),
});

function textOf(registers: readonly (typeof register extends fc.Arbitrary<infer One> ? One : never)[]): string {
  const lines = registers.map(({ edge, hears, next, reset, width }, index) => {
    const value = nextValues[next](`r${index}`, `r${hears % registers.length}`);
    const list = reset === null ? '' : ` or posedge ${reset}`;
    const cleared = reset === null ? '' : `if (${reset}) r${index} <= ${index % 4}; else `;
    return `  reg [${width - 1}:0] r${index}; always @(${edge} clk${list}) ${cleared}r${index} <= ${value};`;
  });
  const names = registers.map((_, index) => `r${index}`).join(', ');
  return `module m(input clk, ra, rb, input [4:0] d, output [63:0] q);\n${lines.join('\n')}\n  assign q = {${names}};\nendmodule\n`;
}

/** As many readings as tell the sequences apart. */
function readingsOf({ leadIn, values }: Count): readonly string[] {
  return Array.from({ length: 120 }, (_, index) => leadIn[index] ?? values[(index - leadIn.length) % values.length]);
}

describe('vectors followed together', () => {
  it('read as each does in a run of its own', async () => {
    let told = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(register, { minLength: 8, maxLength: 12 }), async (registers) => {
        const { netlist } = await netlistOf(textOf(registers));
        const both = bothWays(netlist);
        both.together.forEach((count, index) => {
          const alone = both.alone[index];
          expect(readingsOf(count)).toEqual(readingsOf(alone));
          const { kind, modulus, trapped, explored, while: held, why, start } = count;
          expect({ kind, modulus, trapped, explored, held, why, start }).toEqual({
            ...{ kind: alone.kind, modulus: alone.modulus, trapped: alone.trapped, explored: alone.explored },
            ...{ held: alone.while, why: alone.why, start: alone.start },
          });
          expect((alone.period ?? 0) % (count.period ?? 1)).toBe(0);
          expect(count.steps.slice(0, 20)).toEqual(alone.steps.slice(0, Math.min(20, count.steps.length)));
        });
        told += both.told;
      }),
      { seed: 20261125, numRuns: 20 },
    );
    expect(told).toBeGreaterThan(15);
  });

  it('keep to the limit on root periods', async () => {
    const row = Array.from({ length: 9 }, (_, index) => `always @(posedge clk) r${index + 1} <= r${index};`);
    const names = row.map((_, index) => `r${index + 1}`).join(', ');
    const text = `module m(input clk, output [63:0] q);
      reg [3:0] r0, ${names};
      always @(posedge clk) r0 <= r0 + 1;
      ${row.join('\n')}
      assign q = {r0, ${names}};
    endmodule`;
    const { netlist } = await netlistOf(text);
    const limited = bothWays(netlist, { ...limitDefaults, period: 8 });
    expect(limited.told).toBe(0);
    expect(limited.together.map(({ period }) => period)).toEqual(limited.alone.map(({ period }) => period));
  });

  it('prove a long row of stages, of which each hears all before it', async () => {
    const stages = Array.from(
      { length: 120 },
      (_, index) => `  reg [7:0] s${index + 1}; always @(posedge clk) s${index + 1} <= s${index} ^ ${index % 251};`,
    );
    const text = `module m(input clk, input [7:0] s0, output [7:0] q);\n${stages.join('\n')}\n  assign q = s120;\nendmodule`;
    const { netlist } = await netlistOf(text);
    const { together, told } = bothWays(netlist);
    expect(told).toBe(120);
    expect(together.every(({ period }) => period === 1)).toBe(true);
    const last = together[together.length - 1];
    expect(last.leadInTotal).toBeLessThanOrEqual(120);
  });
});
