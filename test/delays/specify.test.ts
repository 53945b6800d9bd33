// Cells of a library in the text, with specify blocks: what registers, latches, logic and clocks take from them.
// Rules of IEEE 1364-2005 clauses 14 and 15; where no clause is named the numbers follow from the cell's own text.

import { describe, expect, test } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';

const flop = `module DFFX(Q, QN, D, CK, RN);
  output Q, QN; input D, CK, RN; reg notifier;
  wire late_d, late_ck;
  edge_flop u0(IQ, late_d, late_ck, RN, notifier);
  buf (Q, IQ);
  not (QN, IQ);
  specify
    specparam base = 0.2:0.3:0.5;
    if (RN) (posedge CK => (Q +: D)) = (base, base + 0.05);
    (posedge CK => (QN -: D)) = (0.3:0.4:0.6, 0.35:0.45:0.7);
    (negedge RN => (Q +: 1'b0)) = 0.2;
    (negedge RN => (QN -: 1'b0)) = 0.3;
    $setuphold(posedge CK &&& RN, D, 0.1, -0.02, notifier, , , late_ck, late_d);
    $recrem(posedge RN, posedge CK, 0.15, 0.05, notifier);
    $width(posedge CK, 0.2, 0, notifier);
  endspecify
endmodule
primitive edge_flop(q, d, c, rn, n);
  output q; input d, c, rn, n; reg q;
  table
    0 r 1 ? : ? : 0;
    1 r 1 ? : ? : 1;
    ? n 1 ? : ? : -;
    * ? 1 ? : ? : -;
    ? ? 0 ? : ? : 0;
    ? ? p ? : ? : -;
    ? ? ? * : ? : x;
  endtable
endprimitive`;

const files = (text: string) => [{ path: 'm.v', text: `\`timescale 1ns/1ps\n${text}` }];
const project = (settings: object) => ({ project: JSON.stringify(settings) });

async function changesOf(text: string, name: string, settings: object): Promise<string[]> {
  const waves = await wavesOf(files(text), 30_000, { top: 'top', ...project(settings) });
  return waves(name)
    .changes.slice(0, 3)
    .map(({ at, value }) => `${at} ${value}`);
}

describe('a flip-flop of a primitive, a buffer and an inverter', () => {
  const top = `${flop}
  module top(input clk, rst_n, output q, qn);
    DFFX u(.D(qn), .CK(clk), .RN(rst_n), .Q(q), .QN(qn));
  endmodule`;
  const slow = { clocks: { clk: { periodPs: 4000 } } };

  test('gives its register what both outputs have, and each output the rest', async () => {
    const { findings, registers } = await reportOf(files(top), project(slow));
    expect(findings.map(({ id }) => id)).toEqual(['reset-release']);
    expect(registers[0]).toMatchObject({
      name: 'u.u0.q',
      settles: { rise: { min: 200, typ: 300, max: 500 }, fall: { min: 250, typ: 350, max: 550 } },
    });
    expect(await changesOf(top, 'q', slow)).toEqual(['10300 1', '14350 0', '18300 1']);
    expect(await changesOf(top, 'qn', slow)).toEqual(['10450 0', '14400 1', '18450 0']);
  });

  test('in a ripple counter clocks the next stage by its path', async () => {
    const ripple = `${flop}
    module top(input clk, rst_n, output [2:0] q);
      wire [2:0] n;
      DFFX a(.D(n[0]), .CK(clk), .RN(rst_n), .Q(q[0]), .QN(n[0]));
      DFFX b(.D(n[1]), .CK(n[0]), .RN(rst_n), .Q(q[1]), .QN(n[1]));
      DFFX c(.D(n[2]), .CK(n[1]), .RN(rst_n), .Q(q[2]), .QN(n[2]));
    endmodule`;
    const { registers } = await reportOf(files(ripple), project(slow));
    expect(registers.map(({ arrival, stage }) => [stage, arrival?.typ])).toEqual([
      [1, 0],
      [2, 400],
      [3, 800],
    ]);
  });

  test('is checked by its own windows, one of which is negative', async () => {
    const fed = `${flop}
    module top(input clk, rst_n, d, output q);
      DFFX u(.D(d), .CK(clk), .RN(rst_n), .Q(q), .QN());
    endmodule`;
    const found = async (atPs: number) => {
      const d = {
        levels: [
          { atPs: 0, value: '0' },
          { atPs, value: '1' },
        ],
      };
      const { findings } = await reportOf(files(fed), project({ ...slow, inputs: { d } }));
      return findings.filter(({ id }) => id === 'setup-hold').map(({ facts }) => facts.gapPs);
    };
    // The clock rises at 18 ns; the window is open from 0.1 ns to 0.02 ns before.
    expect(await found(17_900)).toEqual([]);
    expect(await found(17_901)).toEqual([99]);
    expect(await found(17_979)).toEqual([21]);
    expect(await found(17_980)).toEqual([]);
    expect(await found(18_000)).toEqual([]);
  });
});

describe('logic', () => {
  const inputs = (a: readonly number[]) => ({
    inputs: { a: { levels: a.map((atPs, index) => ({ atPs, value: String(index % 2) })) } },
  });
  const cell = (body: string, specify: string) => `module cell_(output Y, input A, B);
    ${body}
    specify ${specify} endspecify
  endmodule
  module top(input a, b, output y); cell_ u(y, a, b); endmodule`;

  test('takes the path whose condition holds, else the one for none (14.2.4)', async () => {
    const conditions = 'if (B) (A => Y) = 0.1; if (B) (A => Y) = 0.15; ifnone (A => Y) = 0.2;';
    const text = cell('xor (Y, A, B);', conditions);
    const at = (b: string) => {
      const settings = inputs([0, 5000]);
      return changesOf(text, 'y', { inputs: { ...settings.inputs, b } });
    };
    expect(await at('1')).toEqual(['5100 0']);
    expect(await at('0')).toEqual(['5200 1']);
  });

  test('takes the larger of its path and the delays inside (14.4)', async () => {
    const at = (inside: string) => changesOf(cell(`buf #${inside} (Y, A);`, '(A => Y) = 0.3;'), 'y', inputs([0, 5000]));
    expect(await at('0.2')).toEqual(['5300 1']);
    expect(await at('0.5')).toEqual(['5500 1']);
  });

  test('takes nothing from the delay set between the ends of a path', async () => {
    const text = cell('wire w; nand (w, A, B); not (Y, w);', '(A, B *> Y) = 0.3;');
    const set = { clockToQ: { first: 1000 }, logic: { gate: 5000, inverter: 5000 } };
    const settings = { ...inputs([0, 5000]), delays: 's', delaySets: { s: set } };
    const b = { inputs: { ...settings.inputs, b: '1' } };
    expect(await changesOf(text, 'y', { ...settings, ...b })).toEqual(['5300 1']);
  });

  test('shows a pulse that is too narrow as soon as that is known, where the text asks so (14.6.3)', async () => {
    const limits = 'specparam PATHPULSE$ = (0.05, 0.3);';
    const at = (style: string) =>
      changesOf(cell('buf (Y, A);', `${limits} ${style} (A => Y) = 0.3;`), 'y', inputs([0, 5000, 5100]));
    expect(await at('pulsestyle_onevent Y;')).toEqual(['5300 x', '5400 0']);
    expect(await at('pulsestyle_ondetect Y;')).toEqual(['5100 x', '5400 0']);
  });

  test('tells bit by bit from every bit to every bit', async () => {
    const wide = (arrow: string) => `module cell_(output [1:0] Y, input [1:0] A);
      wire [1:0] Y = {A[0], A[0]};
      specify (A ${arrow} Y) = 0.3; endspecify
    endmodule
    module top(input a, output [1:0] y); cell_ u(y, {1'b0, a}); endmodule`;
    expect(await changesOf(wide('=>'), 'y[0]', inputs([0, 5000]))).toEqual(['5300 1']);
    expect(await changesOf(wide('=>'), 'y[1]', inputs([0, 5000]))).toEqual(['5000 1']);
    expect(await changesOf(wide('*>'), 'y[1]', inputs([0, 5000]))).toEqual(['5300 1']);
  });
});

test('a register whose output logic hears too leaves the time to the paths', async () => {
  const text = `module cell_(output reg Q, output Y, input D, C, E);
    initial Q = 0;
    assign Y = Q & E;
    always @(posedge C) Q <= D;
    specify (posedge C => (Q +: D)) = 0.5; (posedge C => (Y +: D)) = 0.3; (E => Y) = 0.1; endspecify
  endmodule
  module top(input clk, d, e, output q, y); cell_ u(q, y, d, clk, e); endmodule`;
  const settings = { clocks: { clk: { periodPs: 4000 } }, inputs: { d: '1', e: '1' } };
  expect(await changesOf(text, 'q', settings)).toEqual(['2500 1']);
  expect(await changesOf(text, 'y', settings)).toEqual(['2300 1']);
});

test('a latch passes data and gate by their own paths', async () => {
  const text = `module latch_(output reg Q, input D, G);
    always @* if (G) Q = D;
    specify (D => Q) = 0.2; (posedge G => (Q +: D)) = 0.3; endspecify
  endmodule
  module top(input d, g, output q); latch_ u(q, d, g); endmodule`;
  const levels = (...all: readonly [number, string][]) => ({ levels: all.map(([atPs, value]) => ({ atPs, value })) });
  const settings = {
    start: '0',
    inputs: { d: levels([0, '0'], [2000, '1'], [5000, '0']), g: levels([0, '0'], [3000, '1']) },
  };
  expect(await changesOf(text, 'q', settings)).toEqual(['3300 1', '5200 0']);
});

test('a negative delay is refused, a negative limit is not', async () => {
  const text = `module top(input c, d, output reg q);
    always @(posedge c) q <= d;
    specify (posedge c => (q +: d)) = -1; $setuphold(posedge c, d, 2, -1); endspecify
  endmodule`;
  const { findings } = await reportOf(files(text), {});
  expect(findings.map(({ facts }) => facts.reason)).toEqual(['negative-delay']);
});
