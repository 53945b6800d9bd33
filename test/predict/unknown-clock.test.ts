// A register clocked by a bit that is unknown. An edge from or to x is a perhaps edge (definition 16); a bit that is x and
// samples x again has none, as IEEE 1364-2005 9.7.1 has no event there, and both engines say so. What hardware does is
// more: an output of unknown level that toggles does have edges. That such a clock is unknown is told by `unknown-start`.
import { describe, expect, it } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';

const files = (source: string, next: string, width = '') => [
  {
    path: 'unknown.v',
    text: `module unknown(input clk, input set, output reg q, output reg ${width} r);
  initial r = 0;
  ${source}
  always @(posedge q) r <= ${next};
endmodule
`,
  },
];

const toggling = files('always @(posedge clk) q <= ~q;', '~r');
const becoming = files('reg d; initial q = 0; always @(posedge clk) q <= d;', 'r + 1', '[1:0]');

describe('a clock that is unknown', () => {
  it('and stays so has no edge, in both engines, and is told', async () => {
    const wave = await wavesOf(toggling, 200_000, { start: 'x' });
    expect([wave('q').changes, wave('r').changes]).toEqual([[], []]);
    const { counts, findings } = await reportOf(toggling, { start: 'x' });
    expect(counts[0]).toMatchObject({ start: '0x', values: ['0x'], period: 1 });
    expect(findings.find(({ id }) => id === 'unknown-start')?.signals).toContain('q');
  });

  it('from a known level on has a perhaps edge, in both engines', async () => {
    const wave = await wavesOf(becoming, 200_000, { start: 'x' });
    // q goes from 0 to x 1 ns after the first edge; r is then the merge of 0 and 1, a ns later, and never counts on: q has no further edge.
    expect([wave('q').changes, wave('r').changes]).toEqual([
      [{ at: 11_000, value: 'x' }],
      [{ at: 12_000, value: '0x' }],
    ]);
    const { counts } = await reportOf(becoming, { start: 'x' });
    expect(counts).toMatchObject([{ registers: ['r[1:0]'], start: '0', values: ['0', '0x'] }]);
  });
});
