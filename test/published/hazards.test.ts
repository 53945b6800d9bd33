// Static hazards of two-level logic in the waves, with the delays written in the text. Circuit: Wakerly 4.5 (from memory);
// consensus term: Brown and Vranesic chapter 9; the ternary test: Eichelberger, IBM J. R&D 9(2), 1965; times derived.

import { expect } from 'vitest';
import { wavesOf } from '../tools/report-of';
import { published } from './published';

interface Circuit {
  readonly gates: string;
  readonly levels: Readonly<Record<string, string>>;
}

/** What F does around a change of Z, ns after it. Z is a clock: it rises at 50 ns and falls at 100 ns. */
async function around(change: 'rises' | 'falls', { gates, levels }: Circuit): Promise<readonly [number, string][]> {
  const text = `\`timescale 1ns / 1ps
    module m(input z, x, y, output f, output reg q);
      wire n, a, b, c;
      not #3 (n, z);
      ${gates}
      always @(posedge z) q <= ~q;
    endmodule`;
  const project = JSON.stringify({ inputs: levels, clocks: { z: { periodPs: 100_000, phasePs: 50_000 } } });
  const waves = await wavesOf([{ path: 'm.v', text }], 250_000, { project });
  const at = change === 'rises' ? 150_000 : 100_000;
  const changes = waves('f').changes.filter((one) => one.at >= at && one.at < at + 50_000);
  return changes.map((one) => [(one.at - at) / 1000, one.value]);
}

const sums = (or: number, more = '') => ({
  gates: `and #1 (a, x, n); and #1 (b, y, z); ${more === '' ? '' : `and #1 (c, ${more});`}
    or #${or} (f, a, b${more === '' ? '' : ', c'});`,
  levels: { x: '1', y: '1' },
});

published('HZ-1', 'static 1: Z falls, F is low from 2 to 5', async () => {
  expect(await around('falls', sums(1))).toEqual([
    [2, '0'],
    [5, '1'],
  ]);
});

published('HZ-2', 'Z rises, F stays', async () => expect(await around('rises', sums(1))).toEqual([]));

published('HZ-3', 'with the consensus term F stays', async () => {
  expect(await around('falls', sums(1, 'x, y'))).toEqual([]);
});

published('HZ-4', 'Z not known: F is not known, and with the consensus term it is', async () => {
  const last = async ({ gates }: Circuit) => {
    const text = `module m(input z, x, y, output f); wire n, a, b, c; not #3 (n, z); ${gates} endmodule`;
    const project = JSON.stringify({ inputs: { x: '1', y: '1', z: "1'bx" } });
    return (await wavesOf([{ path: 'm.v', text }], 50_000, { project }))('f').at(40_000);
  };
  expect([await last(sums(1)), await last(sums(1, 'x, y'))]).toEqual(['x', '1']);
});

published('HZ-5', 'static 0: Z rises, F is high from 2 to 5; Z falls, F stays', async () => {
  const products = {
    gates: 'or #1 (a, x, n); or #1 (b, y, z); and #1 (f, a, b);',
    levels: { x: '0', y: '0' },
  };
  expect(await around('rises', products)).toEqual([
    [2, '1'],
    [5, '0'],
  ]);
  expect(await around('falls', products)).toEqual([]);
});

published('HZ-6', 'a last gate of 2 lets the pulse through, one of 4 swallows it', async () => {
  expect(await around('falls', sums(2))).toEqual([
    [3, '0'],
    [6, '1'],
  ]);
  expect(await around('falls', sums(4))).toEqual([]);
});
