// Wires that a design only pulls low or lets go read 1 when let go (two-wire buses: common practice, no source).

import { expect, test } from 'vitest';
import { reportOf } from '../tools/report-of';

async function seenAfter(driver: string, ports = 'inout line'): Promise<readonly string[]> {
  const text = `module m(input clk, rst, ${ports}, output reg [1:0] seen);
    reg low;
    ${driver}
    always @(posedge clk) if (rst) begin low <= 0; seen <= 0; end else begin low <= ~low; seen <= {seen[0], line}; end
  endmodule`;
  const { assumptions, counts } = await reportOf([{ path: 'a.v', text }]);
  const pulled = assumptions.some(({ reason }) => reason.includes('pulled up outside'));
  const seen = counts.find(({ registers }) => registers.includes('seen[1:0]'));
  return [pulled ? 'pulled' : 'not pulled', seen?.values.join(' ') ?? 'none'];
}

test.each([
  "assign line = low ? 1'b0 : 1'bz;",
  "bufif1 (line, 1'b0, low);",
  "assign line = low ? (rst ? 1'bz : 1'b0) : 1'bz;",
])('an open-drain wire: %s', async (driver) => {
  // low is 0, 1, 0, … from the release on: what is sampled is 1, 0, 1, …
  expect(await seenAfter(driver)).toEqual(['pulled', '1 2']);
});

test.each(["assign line = low ? 1'b1 : 1'bz;", "assign line = low ? seen[0] : 1'bz;"])(
  'a wire that the design also drives high has no pull-up: %s',
  async (driver) => {
    expect((await seenAfter(driver))[0]).toBe('not pulled');
  },
);
