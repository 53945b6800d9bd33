// IEEE 1364-2005 table 9-1 and clause 9.7.2. The netlist follows hardware: an edge from or to x or z is a perhaps edge,
// and the register becomes the merge of what it held and what it would sample. Each row has that second value here.

import { expect } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

/** What a register that starts 0 and samples 1 holds after its clock pin went from one level to another at 30 ns. */
async function sampled(edge: 'posedge' | 'negedge', from: string, to: string): Promise<string> {
  // The pin is `from` while the clock is low and `to` while it is high, so the first rise makes the change.
  const text = `module m(input clk, input [1:0] levels, output reg q);
    initial q = 0;
    wire pin = clk ? levels[1] : levels[0];
    always @(${edge} pin) q <= 1;
  endmodule`;
  const project = JSON.stringify({ inputs: { levels: `2'b${to}${from}` }, clockOperands: { pin: 'clk' } });
  const waves = await wavesOf([{ path: 'm.v', text }], 15_000, { project });
  return waves('q').at(14_000);
}

const levels = ['0', '1', 'x', 'z'];

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
  const text = `module m(input [1:0] c, input d, output reg q); always @(posedge c) q <= d; endmodule`;
  const { registers } = await reportOf([{ path: 'm.v', text }]);
  expect(registers[0].clock.signal).toBe('c[0]');
});

published('EDGE-3', 'in the netlist x to 0 is perhaps a falling, x to 1 perhaps a rising edge', async () => {
  expect([await sampled('negedge', 'x', '0'), await sampled('posedge', 'x', '0')]).toEqual(['x', '0']);
  expect([await sampled('posedge', 'x', '1'), await sampled('negedge', 'x', '1')]).toEqual(['x', '0']);
});
