// Examples of IEEE 1364-2005 9.2 and 9.8 about assignments with delays inside, which stand in test benches: what they do
// is what the bench drives the tested module with.

import { expect } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import { netlistOf } from '../tools/elaborated';
import { published } from './published';

/** Waves of the ports a, b, c (4 bits each), as `value at 0, time:value …`; one unit is 1 ns. */
async function wavesOf(declarations: string, statements: string): Promise<readonly (string | null)[]> {
  const { elaboration } = await netlistOf(`\`timescale 1ns/1ns
    module tested(input [3:0] a, b, c, output y); assign y = ^{a, b, c}; endmodule
    module bench; ${declarations} wire y; tested u(a, b, c, y); ${statements} endmodule`);
  return (elaboration.bench?.ports ?? []).map(({ wave }) => {
    if (wave === null) return null;
    const number = (value: Parameters<typeof toBinary>[0]) =>
      toBinary(value).includes('x') ? 'x' : String(Number.parseInt(toBinary(value), 2));
    return [number(wave.start), ...wave.changes.map(({ at, value }) => `${at / 1_000}:${number(value)}`)].join(' ');
  });
}

published('NBA-2', 'blocking, delays 10, 2 and 4 inside: each waits for the one before', async () => {
  expect(await wavesOf('reg [3:0] a, b, c;', 'initial begin a = #10 1; b = #2 0; c = #4 1; end')).toEqual([
    'x 10:1',
    'x 12:0',
    'x 16:1',
  ]);
});

published('NBA-3', 'nonblocking, delays 10, 2 and 4 inside: all from the same instant', async () => {
  expect(await wavesOf('reg [3:0] a, b, c;', 'initial begin a <= #10 1; b <= #2 0; c <= #4 1; end')).toEqual([
    'x 10:1',
    'x 2:0',
    'x 4:1',
  ]);
});

published('NBA-4', 'two to the same variable for the same instant: in the order of the text', async () => {
  const [a] = await wavesOf('reg [3:0] a, b, c;', 'initial begin a <= #4 0; a <= #4 1; end');
  expect(a).toBe('x 4:1');
});

published('NBA-8', 'a loop that schedules a wave', async () => {
  const statements = 'initial for (i = 0; i <= 5; i = i + 1) a <= #(i * 10) i[0];';
  const [a] = await wavesOf('reg [3:0] a, b, c; reg [2:0] i;', statements);
  expect(a).toBe('0 10:1 20:0 30:1 40:0 50:1');
});

published('NBA-9', 'values change places over a delay inside two statements side by side', async () => {
  const statements = 'initial begin a = 3; b = 5; fork a = #5 b; b = #5 a; join end';
  expect((await wavesOf('reg [3:0] a, b, c;', statements)).slice(0, 2)).toEqual(['3 5:5', '5 5:3']);
});
