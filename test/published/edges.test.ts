// IEEE 1364-2005 table 9-1 and clause 9.7.2. The netlist follows hardware: an edge from or to x or z is a perhaps edge,
// and the register becomes the merge of what it held and what it would sample. What the standard's own evaluator makes
// of it stands in the account of that change. Each row has both values here.

import { expect } from 'vitest';
import { accountsOf, reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

type Edge = 'posedge' | 'negedge';

/** A register that starts 0 and samples 1, and whose clock pin goes from one level to another at 10 ns. */
function circuit(edge: Edge, from: string, to: string) {
  // The pin is `from` while the clock is low and `to` while it is high, so the first rise makes the change.
  const text = `module m(input clk, input [1:0] levels, output reg q);
    initial q = 0;
    wire pin = clk ? levels[1] : levels[0];
    always @(${edge} pin) q <= 1;
  endmodule`;
  const project = JSON.stringify({ inputs: { levels: `2'b${to}${from}` }, clockOperands: { pin: 'clk' } });
  return { files: [{ path: 'm.v', text }], options: { project } };
}

/** What it holds afterwards in the run. */
async function sampled(edge: Edge, from: string, to: string): Promise<string> {
  const { files, options } = circuit(edge, from, to);
  return (await wavesOf(files, 15_000, options))('q').at(14_000);
}

/** What it holds afterwards by the standard's evaluator, as its account says: where it says nothing, as in the run. */
async function sampledByStandard(edge: Edge, from: string, to: string): Promise<string> {
  const { files, options } = circuit(edge, from, to);
  const [account] = await accountsOf(files, 'q', 10_000, options);
  return account.outcome === 'answered' ? (account.steps[0].standard ?? account.to) : account.to;
}

const levels = ['0', '1', 'x', 'z'];

/** Table 9-1: by the level before, for 0 1 x z after it. */
const table: Readonly<Record<string, readonly (Edge | null)[]>> = {
  0: [null, 'posedge', 'posedge', 'posedge'],
  1: ['negedge', null, 'negedge', 'negedge'],
  x: ['negedge', 'posedge', null, null],
  z: ['negedge', 'posedge', null, null],
};

published('EDGE-1', 'by the standard: every one of the 16 changes', async () => {
  for (const from of levels) {
    for (const [index, to] of levels.entries()) {
      const held = { posedge: '0', negedge: '0' };
      const edge = table[from][index];
      const found = {
        posedge: await sampledByStandard('posedge', from, to),
        negedge: await sampledByStandard('negedge', from, to),
      };
      expect([from, to, found]).toEqual([from, to, edge === null ? held : { ...held, [edge]: '1' }]);
    }
  }
});

published('EDGE-1', 'in the netlist: certain between 0 and 1, perhaps where x or z takes part', async () => {
  for (const from of levels) {
    for (const to of levels) {
      const positive = expectedSample(from, to, '0', '1');
      const negative = expectedSample(from, to, '1', '0');
      expect([from, to, await sampled('posedge', from, to)]).toEqual([from, to, positive]);
      expect([from, to, await sampled('negedge', from, to)]).toEqual([from, to, negative]);
    }
  }
});

/** Certain from `low` to `high`; perhaps where the change could be that edge; none between x and z, nor without change. */
function expectedSample(from: string, to: string, low: string, high: string): string {
  if (from === low && to === high) return '1';
  const unknown = (level: string) => level === 'x' || level === 'z';
  const startsLow = from === low || unknown(from);
  const endsHigh = to === high || unknown(to);
  if (from === to || (unknown(from) && unknown(to))) return '0';
  return startsLow && endsHigh ? 'x' : '0';
}

published('EDGE-2', 'of a vector only the least significant bit counts', async () => {
  const files = (vector: string) => [
    {
      path: 'm.v',
      text: `module m(input clk, output reg q);
        initial q = 0;
        wire [1:0] c = ${vector};
        always @(posedge c) q <= 1;
      endmodule`,
    },
  ];
  const heldAfter = async (vector: string) => (await wavesOf(files(vector), 15_000))('q').at(14_000);
  expect((await reportOf(files("{1'b0, clk}"))).registers[0].clock.signal).toBe('clk');
  expect([await heldAfter("{1'b0, clk}"), await heldAfter("{clk, 1'b0}")]).toEqual(['1', '0']);
});

published(
  'EDGE-3',
  'a clock that starts x: to 0 is a falling edge, to 1 a rising one; in the netlist perhaps',
  async () => {
    const both = async (edge: Edge, to: string) => [
      await sampledByStandard(edge, 'x', to),
      await sampled(edge, 'x', to),
    ];
    expect([await both('negedge', '0'), await both('posedge', '0')]).toEqual([
      ['1', 'x'],
      ['0', '0'],
    ]);
    expect([await both('posedge', '1'), await both('negedge', '1')]).toEqual([
      ['1', 'x'],
      ['0', '0'],
    ]);
  },
);
