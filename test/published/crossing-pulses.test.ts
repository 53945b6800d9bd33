// How long a signal must stand to be seen by another clock: Litterick's rule, as quoted in Cummings, SNUG 2008.

import { expect } from 'vitest';
import { reportOf } from '../tools/report-of';
import { published } from './published';

/** A pulse of one sending period, brought over by two flip-flops. */
const pulse = `module m(input fast, slow, go, output reg seen);
  reg before, pulse, meta;
  initial {before, pulse, meta, seen} = 0;
  always @(posedge fast) before <= go;
  always @(posedge fast) pulse <= go & ~before;
  always @(posedge slow) {seen, meta} <= {meta, pulse};
endmodule`;

async function found(sendingPs: number, receivingPs: number): Promise<string[]> {
  const clocks = { fast: { periodPs: sendingPs }, slow: { periodPs: receivingPs } };
  const { findings } = await reportOf([{ path: 'm.v', text: pulse }], { project: JSON.stringify({ clocks }) });
  return findings.filter(({ id }) => id === 'short-pulse-crossing').map(({ certainty }) => String(certainty));
}

published('TB-18', 'wider than one and a half receiving periods is silent, less than one is told', async () => {
  expect(await found(16_000, 10_000)).toEqual([]);
  expect(await found(9000, 10_000)).toEqual(['certain']);
});
