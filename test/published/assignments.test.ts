// IEEE 1364-2005 clauses 9.2 and 11.4: blocking and nonblocking assignment.

import { expect } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

published('NBA-1', 'two nonblocking assignments exchange', async () => {
  const text = `module m(input clk, output reg a, b);
    initial begin a = 0; b = 1; end
    always @(posedge clk) begin a <= b; b <= a; end
  endmodule`;
  const waves = await wavesOf([{ path: 'm.v', text }], 20_000);
  expect([waves('a').at(5_000), waves('b').at(5_000)]).toEqual(['0', '1']);
  expect([waves('a').at(15_000), waves('b').at(15_000)]).toEqual(['1', '0']);
});

published('NBA-6', 'of two nonblocking assignments of one block the later holds', async () => {
  const text = `module m(input clk, output reg a); initial begin a <= 0; a <= 1; end always @(posedge clk) a <= a; endmodule`;
  expect((await reportOf([{ path: 'm.v', text }])).registers[0].start).toBe('1');
});

published('NBA-7', 'two stages by nonblocking, one by blocking in the order of the data', async () => {
  const shift = (assign: string) => `module m(input clk, output reg a, b);
    reg d; initial begin {d, a, b} = 3'b000; end
    always @(posedge clk) d <= 1;
    always @(posedge clk) begin a ${assign} d; b ${assign} a; end
  endmodule`;
  const rises = async (assign: string) => {
    const waves = await wavesOf([{ path: 'm.v', text: shift(assign) }], 100_000);
    return ['d', 'a', 'b'].map((name) => waves(name).changes.map(({ at }) => (at - 11_000) / 20_000));
  };
  expect(await rises('<=')).toEqual([[0], [1], [2]]);
  expect(await rises('=')).toEqual([[0], [1], [1]]);
});

published('NBA-5', 'two blocks, one variable, one instant: told, and no value is taken for sure', async () => {
  const text = `module m(input clk, a, b, output reg q);
    always @(posedge clk) q <= a;
    always @(posedge clk) q <= b;
  endmodule`;
  const { findings } = await reportOf([{ path: 'm.v', text }]);
  expect(findings.map(({ id, severity }) => [id, severity])).toContainEqual(['shared-driver', 'error']);
});

published('NBA-10', 'a net read right after the variable behind it: told', async () => {
  const text = `module m(input clk, d, output reg q, r); wire p = q;
    always @(posedge clk) begin q = d; r <= p; end
  endmodule`;
  const { findings } = await reportOf([{ path: 'm.v', text }]);
  expect(findings.map(({ id, signals }) => [id, ...signals])).toContainEqual(['text-race', 'p', 'q']);
});
