// Timing checks of the text: IEEE 1364-2005 clause 15, windows and the worked flip-flop of 15.5.

import { describe, expect } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { published } from './published';

type Levels = readonly (readonly [ns: number, value: string])[];

/** The cell that the text of a check stands in; the clock rises at 50 ns, 150 ns, …. */
function cell(checks: string, paths = '(posedge c => (q +: d)) = 2;'): string {
  return `\`timescale 1ns/1ns
  module m(input d, c, r, output reg q);
    reg n;
    initial q = 0;
    always @(posedge c or posedge r) if (r) q <= 0; else q <= d;
    specify ${paths} ${checks} endspecify
  endmodule`;
}

function optionsOf(inputs: Readonly<Record<string, Levels>>, clock: object = { periodPs: 100_000, phasePs: 50_000 }) {
  const shapes = Object.entries(inputs).map(([name, levels]) => [
    name,
    { levels: levels.map(([ns, value]) => ({ atPs: ns * 1000, value })) },
  ]);
  const held = { d: '0', r: '0' };
  return { project: JSON.stringify({ clocks: { c: clock }, inputs: { ...held, ...Object.fromEntries(shapes) } }) };
}

/** `setup 9 10`: check, what there is and what is asked for, ns. */
async function found(checks: string, inputs: Readonly<Record<string, Levels>>, clock?: object): Promise<string[]> {
  const { findings } = await reportOf([{ path: 'm.v', text: cell(checks) }], optionsOf(inputs, clock));
  const ids = ['setup-hold', 'recovery-removal', 'narrow-pulse'];
  return findings
    .filter(({ id }) => ids.includes(id))
    .map(({ facts }) => `${facts.check} ${Number(facts.gapPs) / 1000} ${Number(facts.limitTypPs) / 1000}`);
}

/** Data that changes once, at that many ns. */
const moves = (ns: number): Levels => [
  [0, '0'],
  [ns, '1'],
];
const release = (ns: number): Levels => [
  [0, '1'],
  [ns, '0'],
];

describe('windows', () => {
  published('TCK-1', 'setup: inside the window, at either end', async () => {
    const at = (ns: number) => found('$setup(d, posedge c, 10);', { d: moves(ns) });
    expect(await at(141)).toEqual(['setup 9 10']);
    expect(await at(140)).toEqual([]);
    expect(await at(150)).toEqual([]);
  });

  published('TCK-2', 'hold: at the beginning, before and at the end', async () => {
    const at = (ns: number) => found('$hold(posedge c, d, 3);', { d: moves(ns) });
    expect(await at(150)).toEqual(['hold 0 3']);
    expect(await at(152)).toEqual(['hold 2 3']);
    expect(await at(153)).toEqual([]);
  });

  published('TCK-3', 'removal: inside, at either end', async () => {
    const at = (ns: number) => found('$removal(negedge r, posedge c, 3);', { r: release(ns) });
    expect(await at(152)).toEqual(['removal 2 3']);
    expect(await at(150)).toEqual([]);
    expect(await at(153)).toEqual([]);
  });

  published('TCK-4', 'recovery: at the release, before and at the end', async () => {
    const at = (ns: number) => found('$recovery(negedge r, posedge c, 5);', { r: release(ns) });
    expect(await at(150)).toEqual(['recovery 0 5']);
    expect(await at(146)).toEqual(['recovery 4 5']);
    expect(await at(145)).toEqual([]);
  });

  published('TCK-5', 'width: between threshold and limit', async () => {
    const pulse = (ns: number) =>
      found('$width(posedge r, 6, 2);', {
        r: [
          [0, '0'],
          [100, '1'],
          [100 + ns, '0'],
        ],
      });
    expect(await pulse(5)).toEqual(['width 5 6']);
    expect(await pulse(6)).toEqual([]);
    expect(await pulse(2)).toEqual([]);
  });

  published('TCK-6', 'period: two edges of one direction', async () => {
    const every = (ns: number) => found('$period(posedge c, 25);', {}, { periodPs: ns * 1000 });
    expect(await every(24)).toEqual(['period 24 25']);
    expect(await every(25)).toEqual([]);
  });

  published('TCK-7', 'two checks in one', async () => {
    for (const ns of [139, 140, 145, 149, 150, 152, 153, 160]) {
      const apart = await found('$setup(d, posedge c, 10); $hold(posedge c, d, 3);', { d: moves(ns) });
      expect(await found('$setuphold(posedge c, d, 10, 3);', { d: moves(ns) }), `data at ${ns}`).toEqual(apart);
      const checks = '$recovery(negedge r, posedge c, 10); $removal(negedge r, posedge c, 3);';
      const released = await found(checks, { r: release(ns) });
      expect(await found('$recrem(negedge r, posedge c, 10, 3);', { r: release(ns) }), `release at ${ns}`).toEqual(
        released,
      );
    }
  });

  published('TCK-9', 'no change: data at the very edge', async () => {
    const at = (ns: number) => found('$nochange(posedge c, d, 0, 0);', { d: moves(ns) });
    expect(await at(150)).toEqual([]);
    expect(await at(160)).toEqual(['nochange 10 0']);
    expect(await at(200)).toEqual([]);
  });
});

describe('the flip-flop of 15.5', () => {
  const checks = `$setup(d, posedge c, 10); $hold(posedge c, d, 1); $period(posedge c, 25);
    $width(posedge r, 10); $recovery(negedge r, posedge c, 5);`;
  const paths = `(posedge c => (q +: d)) = (4:6:9, 5:8:11); (posedge r => (q +: 1'b0)) = (3:5:6, 4:7:9);`;

  published('TCK-8', 'its limits', async () => {
    expect(await found(checks, { d: moves(141) })).toEqual(['setup 9 10']);
    expect(await found(checks, { d: moves(140) })).toEqual([]);
    expect(await found(checks, { d: moves(150) })).toEqual(['hold 0 1']);
    expect(await found(checks, { d: moves(151) })).toEqual([]);
    expect(await found(checks, {}, { periodPs: 25_000 })).toEqual([]);
    expect(await found(checks, {}, { periodPs: 24_000 })).toEqual(['period 24 25']);
  });

  published('TCK-8', 'the highest clock rate is named', async () => {
    const { findings } = await reportOf([{ path: 'm.v', text: cell(checks) }], optionsOf({}, { periodPs: 20_000 }));
    expect(findings.find(({ id }) => id === 'narrow-pulse')?.message).toContain('40 MHz at most');
  });

  published('TCK-8', 'the rate at which a ripple counter of them toggles', async () => {
    const ripple = `${cell(checks, paths).replace('module m', 'module flop')}
    module m(input c, r, output [1:0] q);
      flop a(.d(~q[0]), .c(c), .r(r), .q(q[0]));
      flop b(.d(~q[1]), .c(~q[0]), .r(r), .q(q[1]));
    endmodule`;
    const { chains } = await reportOf([{ path: 'm.v', text: ripple }], { top: 'm' });
    expect(chains[0].toggleClockHz).toBe(40e6);
    expect(chains[0].settle).toMatchObject({ typ: 8_000 + 8_000, max: 11_000 + 11_000 });
  });

  published('TCK-8', 'its delays', async () => {
    const options = optionsOf({
      d: [
        [0, '0'],
        [120, '1'],
        [220, '0'],
      ],
    });
    const of = await wavesOf([{ path: 'm.v', text: cell(checks, paths) }], 400_000, options);
    expect(of('q').changes).toEqual([
      { at: 156_000, value: '1' },
      { at: 258_000, value: '0' },
    ]);
  });

  published('TCK-10', 'negative limits delay the clock', async () => {
    const text = `\`timescale 1ns/1ns
    module m(input d, c, output reg q);
      wire dc, dd;
      initial q = 0;
      always @(posedge dc) q <= dd;
      specify
        (posedge c => (q +: d)) = 6;
        $setuphold(posedge c, d, -3, 8, , , , dc, dd);
        $setuphold(posedge c, d, -7, 13, , , , dc, dd);
      endspecify
    endmodule`;
    const options = optionsOf({
      d: [
        [0, '0'],
        [120, '1'],
      ],
    });
    const of = await wavesOf([{ path: 'm.v', text }], 400_000, options);
    expect(of('q').changes).toEqual([{ at: 157_000, value: '1' }]);
  });
});
