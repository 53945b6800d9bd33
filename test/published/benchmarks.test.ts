// The smallest sequential benchmark circuit, s27 (Brglez, Bryan, Kozminski, Combinational Profiles of Sequential Benchmark
// Circuits, ISCAS 1989), written from its table of nets; trace and next states were computed from that table.

import { expect } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

const s27 = (start: string) => `module s27(input clk, G0, G1, G2, G3, output G17);
  wire G8, G9, G10, G11, G12, G13, G14, G15, G16;
  reg G5, G6, G7;
  ${start === '' ? '' : `initial {G5, G6, G7} = 3'b${start};`}
  always @(posedge clk) begin
    G5 <= G10;
    G6 <= G11;
    G7 <= G13;
  end
  and n8(G8, G14, G6);
  nand n9(G9, G16, G15);
  nor n10(G10, G14, G11);
  nor n11(G11, G5, G9);
  nor n12(G12, G1, G7);
  nor n13(G13, G2, G12);
  not n14(G14, G0);
  or n15(G15, G12, G8);
  or n16(G16, G3, G8);
  not n17(G17, G11);
endmodule`;

/** ps. Inputs change a quarter period after each rising edge; the first rises at half a period. */
const period = 20_000;
const changesAt = (step: number) => (step === 0 ? 0 : step * period - period / 4);

/** `state/output` before each edge, then the state behind the last. */
async function traceOf(start: string, inputs: readonly string[]): Promise<readonly string[]> {
  const levels = (index: number) => inputs.map((values, step) => ({ atPs: changesAt(step), value: values[index] }));
  const project = {
    clocks: { clk: { periodPs: period } },
    start: 'x',
    inputs: Object.fromEntries(['G0', 'G1', 'G2', 'G3'].map((name, index) => [name, { levels: levels(index) }])),
  };
  const until = (inputs.length + 1) * period;
  const wave = await wavesOf([{ path: 's27.v', text: s27(start) }], until, { project: JSON.stringify(project) });
  const stateAt = (ps: number) => ['G5', 'G6', 'G7'].map((name) => wave(name).at(ps)).join('');
  const before = (step: number) => step * period + period / 2 - 1;
  const steps = inputs.map((_, step) => `${stateAt(before(step))}/${wave('G17').at(before(step))}`);
  return [...steps, stateAt(before(inputs.length))];
}

const walk = '0000 1111 0101 1000 1010 0010 1100 0011 0111 1001 0000 1101'.split(' ');

published(['ISC-1', 'ISC-2'], 's27: one clock domain, three registers', async () => {
  const { domains, outputs, registers } = await reportOf([{ path: 's27.v', text: s27('') }]);
  expect(domains.map(({ name, registers: count }) => [name, count])).toEqual([['clk', 3]]);
  expect(registers.map(({ clock, name }) => [name, clock.signal, clock.edge])).toEqual([
    ['G5', 'clk', 'rising'],
    ['G6', 'clk', 'rising'],
    ['G7', 'clk', 'rising'],
  ]);
  expect(outputs.map(({ form, name }) => [name, form])).toEqual([['G17', 'mixed']]);
});

published('ISC-2', 's27: through the longest path a change takes six gates, each of 1 ns', async () => {
  const ofOneGate = { sheet: null, conditions: null, clockToQ: { first: 0 }, logic: { gate: 1_000, inverter: 1_000 } };
  const project = {
    delaySets: { gates: ofOneGate },
    delays: 'gates',
    clocks: { clk: { periodPs: 200_000 } },
    // From 010 the path G14, G8, G15 and G16, G9, G11, G17 is open.
    inputs: {
      G0: {
        levels: [
          { atPs: 0, value: '1' },
          { atPs: 50_000, value: '0' },
        ],
      },
      G1: '1',
      G2: '0',
      G3: '0',
    },
  };
  const files = [{ path: 's27.v', text: s27('010') }];
  const wave = await wavesOf(files, 90_000, { project: JSON.stringify(project) });
  expect(wave('G17').changes).toEqual([{ at: 56_000, value: '0' }]);
});

published('ISC-3', 'the trace from 000', async () => {
  expect(await traceOf('000', walk)).toEqual(
    '000/1 000/1 100/1 001/1 101/1 100/1 000/1 101/1 000/1 000/0 010/0 010/1 101'.split(' '),
  );
});

published('ISC-3', 'the trace from an unknown state', async () => {
  expect(await traceOf('', walk)).toEqual(
    'xxx/x 0xx/1 100/1 001/1 101/1 100/1 000/1 101/1 000/1 000/0 010/0 010/1 101'.split(' '),
  );
});

/** By state, then by input from 0000 to 1111: next state and output. */
const nextStates = [
  '0/1 2/0 0/1 2/0 1/1 1/1 0/1 0/1 4/1 2/0 4/1 2/0 5/1 5/1 4/1 4/1',
  '1/1 1/1 0/1 0/1 1/1 1/1 0/1 0/1 5/1 5/1 4/1 4/1 5/1 5/1 4/1 4/1',
  '2/0 2/0 2/0 2/0 3/0 3/0 2/0 2/0 4/1 2/0 4/1 2/0 5/1 5/1 4/1 4/1',
  '3/0 3/0 2/0 2/0 3/0 3/0 2/0 2/0 5/1 5/1 4/1 4/1 5/1 5/1 4/1 4/1',
  '0/1 0/1 0/1 0/1 1/1 1/1 0/1 0/1 4/1 4/1 4/1 4/1 5/1 5/1 4/1 4/1',
  '1/1 1/1 0/1 0/1 1/1 1/1 0/1 0/1 5/1 5/1 4/1 4/1 5/1 5/1 4/1 4/1',
  '0/1 0/1 0/1 0/1 1/1 1/1 0/1 0/1 4/1 4/1 4/1 4/1 5/1 5/1 4/1 4/1',
  '1/1 1/1 0/1 0/1 1/1 1/1 0/1 0/1 5/1 5/1 4/1 4/1 5/1 5/1 4/1 4/1',
];

published('ISC-4', 'all next states and outputs', async () => {
  for (const [state, row] of nextStates.entries()) {
    const start = state.toString(2).padStart(3, '0');
    const found: string[] = [];
    for (let input = 0; input < 16; input++) {
      const [before, after] = await traceOf(start, [input.toString(2).padStart(4, '0')]);
      found.push(`${Number.parseInt(after, 2)}/${before.slice(-1)}`);
    }
    expect(found.join(' ')).toBe(row);
  }
});
