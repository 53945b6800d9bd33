// Variables that begin anew each time they are entered (IEEE 1800-2017 6.21), and those that do not.
import { describe, expect, it } from 'vitest';
import { reportOf, wavesOf } from '../../tools/report-of';

const files = (lifetime: string, inFunction = '') => [
  {
    path: 'm.sv',
    text: `module m(input logic clk, output logic [3:0] q, r);
  initial begin q = 0; r = 0; end
  always_ff @(posedge clk) begin
    ${lifetime} logic [3:0] s = 4'd1;
    s = s + 1;
    q <= s;
  end
  function automatic logic [3:0] f(input logic [3:0] v);
    ${inFunction} logic [3:0] c = 4'd3;
    c = c + v;
    return c;
  endfunction
  always_ff @(posedge clk) r <= f(4'd4);
endmodule
`,
  },
];

/** The clock rises at 10, 30 and 50 ns; flip-flops take 1 ns. */
const atThreeEdges = async (text: ReturnType<typeof files>, name: string) => {
  const wave = (await wavesOf(text, 60_000))(name);
  return [11_000, 31_000, 51_000].map((ps) => Number.parseInt(wave.at(ps), 2));
};

describe('a start value', () => {
  it('of an automatic variable is taken each time', async () => {
    expect(await atThreeEdges(files('automatic'), 'q')).toEqual([2, 2, 2]);
    expect((await reportOf(files('automatic'))).registers.map(({ name }) => name)).toEqual(['q[3:0]', 'r[3:0]']);
  });

  it('of a static one is what it holds at power-up', async () => {
    expect(await atThreeEdges(files('static'), 'q')).toEqual([2, 3, 4]);
  });

  it('in an automatic function is taken at each call', async () => {
    expect(await atThreeEdges(files('automatic'), 'r')).toEqual([7, 7, 7]);
  });

  it('of a static variable in a function is named as not read', async () => {
    const { findings } = await reportOf(files('automatic', 'static'));
    expect(findings.map(({ id }) => id)).toContain('unsupported');
  });
});
