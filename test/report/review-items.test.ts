// The review as one list: what an engineer signs, each with its place, and what was not analyzed.
import { describe, expect, it } from 'vitest';
import { reviewItems } from '../../server/src/report/review-items';
import { reportOf, studyOf, toEnd } from '../tools/report-of';

const belts = [
  {
    path: 'belts.v',
    text: `module belts(input left, right, rst_n, input go, output reg moved, output stop);
  reg half, seen, kept;
  always @(posedge left or negedge rst_n) if (!rst_n) half <= 0; else half <= ~half;
  always @(posedge half) moved <= go;
  always @(posedge right) begin seen <= half; kept <= seen; end
  assign stop = kept & go;
endmodule
`,
  },
];

const lines = async () => reviewItems(await reportOf(belts)).map(({ about, text }) => `${about}: ${text}`);

describe('the review', () => {
  it('names every domain, clock made inside, crossing, reset and output', async () => {
    const told = await lines();
    expect(told).toEqual(
      expect.arrayContaining([
        'left: clock domain of 2 registers',
        'right: clock domain of 2 registers',
        expect.stringMatching(/^half: derived clock from left of 1 register/),
        expect.stringMatching(/^seen: crossing of half from left into right: two-flop, 2 flip-flops deep, protected: /),
        expect.stringMatching(/^rst_n: asynchronous reset, active low, of left: let go at any time$/),
        'moved: output, registered: changes without glitches',
        'stop: output, mixed',
      ]),
    );
    expect(told.at(-1)).toMatch(/^not analyzed: crossings between clock domains: 1 judged/);
  });

  it('has a place for all that the text has, and goes along with the preview', async () => {
    const items = reviewItems(await reportOf(belts));
    expect(items.filter(({ about }) => about !== 'not analyzed').every(({ span }) => span !== null)).toBe(true);
    expect(toEnd((await studyOf(belts)).preview()).review).toEqual(items);
  });

  it('of no design is empty', async () => {
    expect(reviewItems(await reportOf([{ path: 'a.v', text: '// nothing' }]))).toEqual([]);
  });
});
