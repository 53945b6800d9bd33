// The least period of a domain against values worked by hand in textbooks: Harris & Harris, Digital Design and Computer
// Architecture, 2nd ed., Examples 3.10 and 3.12 (three gates in a row; the same with skew), and Brown & Vranesic,
// Fundamentals of Digital Logic, section 5.15 (a toggle flip-flop, a counter with its carry). All numbers in ps.
import { describe, expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf, wavesOf } from '../tools/report-of';

interface Stated {
  readonly clockToQ: object;
  readonly logic?: object;
  readonly setup?: number;
  readonly hold?: number;
  readonly period?: number;
}

function project(set: Stated, more: object = {}): string {
  return JSON.stringify({ delays: 'book', delaySets: { book: set }, ...more });
}

async function leastOf(text: string, options: string) {
  const { domains } = await reportOf([{ path: 'book.v', text }], { project: options });
  return domains.map(({ leastPeriod }) => leastPeriod);
}

const threeGates = `module path(input clk, clk2, output reg a, b);
  initial {a, b} = 0;
  wire first, second, third, launch;
  buf(launch, clk);
  always @(posedge launch) a <= ~b;
  and(first, a, a), (second, first, first), (third, second, second);
  always @(posedge clk) b <= third;
endmodule
`;

const harris = { clockToQ: { first: [30, 80, 80] }, logic: { gate: [25, 40, 40] }, setup: 50, hold: 60 };

const toggle = `module toggle(input clk, output reg q);
  initial q = 0;
  always @(posedge clk) q <= ~q;
endmodule
`;

const carry = `module counter(input clk, en, output reg [3:0] q);
  initial q = 0;
  wire [3:0] c;
  assign c[0] = en;
  assign c[1] = c[0] & q[0];
  assign c[2] = c[1] & q[1];
  assign c[3] = c[2] & q[2];
  always @(posedge clk) q <= q ^ c;
endmodule
`;

const brown = { clockToQ: { first: [800, 1000, 1000] }, logic: { inverter: 1100, gate: 1200 }, setup: 600, hold: 400 };

describe('the least period by the delays of the text alone', () => {
  const between = (logic: string) => `\`timescale 1ns/1ns
  module path(input clk, output reg a, b);
    initial {a, b} = 0;
    ${logic}
    always @(posedge clk) a <= #2 b;
    always @(posedge clk) b <= #2 later;
  endmodule`;

  it('is their sum where they say all that lies between registers', async () => {
    expect(await leastOf(between('wire #7 later = ~a;'), '{}')).toEqual([{ ps: 9000, from: 'a', to: 'b' }]);
  });

  it('is not answerable where an operator is left, or nothing is stated', async () => {
    expect(await leastOf(between('wire late; assign #7 late = a; wire later = ~late;'), '{}')).toEqual([null]);
    expect(await leastOf(between('wire later = ~a;'), '{}')).toEqual([null]);
  });
});

describe('the least period', () => {
  it('of three gates in a row is 80 + 120 + 50 ps', async () => {
    expect(await leastOf(threeGates, project(harris))).toEqual([{ ps: 250, from: 'a', to: 'b' }]);
  });

  it('grows by the skew that eats into it, and shrinks by one that helps', async () => {
    const late = { overrides: { launch: { logic: { buffer: 50 } } } };
    expect(await leastOf(threeGates, project(harris, late))).toEqual([{ ps: 300, from: 'a', to: 'b' }]);
    const back = threeGates.replace('posedge clk)', 'posedge launch)').replace('posedge launch) a', 'posedge clk) a');
    expect(await leastOf(back, project(harris, late))).toEqual([{ ps: 200, from: 'a', to: 'b' }]);
  });

  it('of a toggle flip-flop is 1.0 + 1.1 + 0.6 ns', async () => {
    expect(await leastOf(toggle, project(brown))).toEqual([{ ps: 2700, from: 'q', to: 'q' }]);
  });

  it('of a counter is that of its carry: 1.0 + 3 × 1.2 + 1.2 + 0.6 ns', async () => {
    expect(await leastOf(carry, project(brown))).toEqual([{ ps: 6400, from: 'q[3:0]', to: 'q[3:0]' }]);
  });

  it('is where the waves begin to keep their setup', async () => {
    const at = async (periodPs: number) => {
      const options = { project: project(brown, { clocks: { clk: { periodPs } } }) };
      const wave = await wavesOf([{ path: 'book.v', text: toggle }], 20_000, options);
      return wave('q').at(19_000);
    };
    expect(await at(2700)).toMatch(/[01]/);
    expect(await at(2600)).toBe('x');
  });

  it('with half a period from edge to edge is twice as long', async () => {
    const half = toggle.replace('q);', 'q, r);').replace('endmodule', '  always @(negedge clk) r <= q;\nendmodule');
    // From q to r: 1.0 + 0.6 ns in the half that the clock is high, 2.7 ns in the whole.
    expect(await leastOf(half, project(brown))).toEqual([{ ps: 3200, from: 'q', to: 'r' }]);
    const uneven = { clocks: { clk: { periodPs: 10_000, highPs: 2_500 } } };
    expect(await leastOf(half, project(brown, uneven))).toEqual([{ ps: 6400, from: 'q', to: 'r' }]);
  });

  it('of a clock divided by four is a quarter of what its registers need', async () => {
    const divided = `module divided(input clk, output reg a, b, c);
  initial {a, b, c} = 0;
  always @(posedge clk) a <= ~a;
  always @(posedge a) b <= ~b;
  always @(posedge b) c <= ~c;
endmodule
`;
    const slow = { overrides: { c: { clockToQ: { first: 20_000 } } } };
    expect(await leastOf(divided, project(brown, slow))).toEqual([
      { ps: (20_000 + 1100 + 600) / 4, from: 'c', to: 'c' },
    ]);
  });

  it('is no shorter than what a sheet asks of the clock', async () => {
    expect(await leastOf(toggle, project({ ...brown, period: 5000 }))).toEqual([{ ps: 5000, from: 'q', to: 'q' }]);
  });

  it('says what it rests on, in the text too', async () => {
    const { domains } = await reportOf([{ path: 'book.v', text: toggle }], { project: project(brown) });
    expect(domains[0].why).toBe(
      'by the longest paths from register to register of the delay set: ports, wires and written memories are not in it',
    );
    expect(writeText(await reportOf([{ path: 'book.v', text: toggle }], { project: project(brown) }))).toContain(
      'least period of clk 2.7 ns (370.37 MHz), from q to q: by the longest paths',
    );
  });

  it('is not told where it cannot be', async () => {
    const reason = async (text: string, options: object = {}) => {
      const { domains } = await reportOf([{ path: 'book.v', text }], options);
      return domains.map(({ leastPeriod, why }) => `${leastPeriod?.ps ?? 'none'}: ${why}`);
    };
    expect(await reason(toggle)).toEqual([
      'none: not answerable from text: the delays of logic and wires are not in it',
    ]);
    const plain = 'module plain(input clk, d, output reg q);\n  always @(posedge clk) q <= d;\nendmodule\n';
    expect(await reason(plain, { project: project(brown) })).toEqual([
      'none: no register of it samples another, and no least clock period is stated',
    ]);
    const latched = `module latched(input clk, en, output reg q, l);
  always @* if (en) l = q;
  always @(posedge clk) q <= ~l;
endmodule
`;
    expect(await reason(latched, { project: project(brown) })).toContain(
      'none: a path leads through an open latch, which is not added up',
    );
  });
});
