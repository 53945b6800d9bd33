// Serial frames of eight bits without parity (common practice after TIA-232): start, bits from the least significant, stop.

import { expect } from 'vitest';
import { wavesOf } from '../tools/report-of';
import { published } from './published';

const clockHz = 50_000_000;
const periodPs = 1e12 / clockHz;

const sender = (byte: string, divisor: number) => `module m(input clk, output line);
    reg [9:0] frame; reg [12:0] tick; reg [3:0] left;
    assign line = frame[0];
    initial begin frame = {1'b1, 8'h${byte}, 1'b0}; tick = 0; left = 10; end
    always @(posedge clk)
      if (tick == ${divisor - 1}) begin
        tick <= 0;
        frame <= {1'b1, frame[9:1]};
      end else tick <= tick + 1;
  endmodule`;

async function lineOf(byte: string, divisor: number, bits: number) {
  const project = JSON.stringify({ clocks: { clk: { periodPs } } });
  return (await wavesOf([{ path: 'm.v', text: sender(byte, divisor) }], (bits + 1) * divisor * periodPs, { project }))(
    'line',
  );
}

published('FUN-23', 'the frames of 55, 41 and 00', async () => {
  const divisor = 4;
  for (const [byte, frame] of [
    ['55', '0101010101'],
    ['41', '0100000101'],
    ['00', '0000000001'],
  ]) {
    const line = await lineOf(byte, divisor, 10);
    const middle = (index: number) => (index + 0.5) * divisor * periodPs;
    expect(Array.from({ length: 10 }, (_, index) => line.at(middle(index))).join('')).toBe(frame);
  }
});

published('FUN-24', 'the time of a bit and of a frame at 9,600 and 115,200 baud', async () => {
  for (const { bitMicroseconds, divisor, within } of [
    { bitMicroseconds: 104.167, divisor: 5208, within: 0.001 },
    { bitMicroseconds: 8.6806, divisor: 434, within: 0.001 },
  ]) {
    const { changes } = await lineOf('55', divisor, 10);
    const bits = changes.slice(1).map(({ at }, index) => (at - changes[index].at) / 1e6);
    for (const bit of bits) expect(Math.abs(bit / bitMicroseconds - 1)).toBeLessThan(within);
    const frame = (changes[8].at - changes[0].at) / 8e6;
    expect(Math.abs((10 * frame) / (10 * bitMicroseconds) - 1)).toBeLessThan(within);
  }
});

published('FUN-25', 'the divisor from 50 MHz to 115,200 baud, and how far its rate is off', async () => {
  const divisor = Math.round(clockHz / 115_200);
  expect(divisor).toBe(434);
  const { changes } = await lineOf('55', divisor, 3);
  const rate = 1e12 / (changes[2].at - changes[1].at);
  expect((rate / 115_200 - 1) * 100).toBeCloseTo(0.0064, 4);
});
