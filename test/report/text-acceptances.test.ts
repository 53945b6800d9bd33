// Findings accepted by a comment where they stand: kept listed with the reason; a comment that meets none is told.

import { expect, test } from 'vitest';
import { reportOf } from '../tools/report-of';

const ripple = (before: string, behind: string) => `module m(input clk, output reg [1:0] q);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  ${before}
  always @(negedge q[0]) q[1] <= ~q[1]; ${behind}
endmodule
`;

async function acceptedOf(text: string) {
  const { assumptions, findings } = await reportOf([{ path: 'a.v', text }]);
  return {
    accepted: findings.find(({ id }) => id === 'ripple-chain')?.accepted?.reason ?? null,
    unmet: assumptions.filter(({ value }) => value === 'accepted').map(({ about, span }) => `${about} ${span?.line}`),
  };
}

test.each([
  ['', '// foretick: accepted ripple-chain, a lamp read by eye'],
  ['// foretick: accepted ripple-chain, a lamp read by eye', ''],
  ['/* foretick: accepted ripple-chain: a lamp read by eye */ // and more', ''],
  ['// note\n  // foretick: accepted ripple-chain, a lamp read by eye  \n  // more', ''],
])('%j %j', async (before, behind) => {
  expect(await acceptedOf(ripple(before, behind))).toEqual({ accepted: 'a lamp read by eye', unmet: [] });
});

test.each([
  ['another finding', '', '// foretick: accepted bare-crossing, no', ['bare-crossing 5']],
  ['no reason', '', '// foretick: accepted ripple-chain', []],
  ['a line too early', '// foretick: accepted ripple-chain, no\n  wire w;', '', ['ripple-chain 4']],
  ['a string', 'initial $display("foretick: accepted ripple-chain, no");', '', []],
])('not by %s', async (_what, before, behind, unmet) => {
  expect(await acceptedOf(ripple(before, behind))).toEqual({ accepted: null, unmet });
});
