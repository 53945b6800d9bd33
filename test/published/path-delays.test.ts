// Delays of the text: gates and assignments (IEEE 1364-2005 6.1.3, 7.14), module paths (14.3) and pulse limits (14.6).

import { describe, expect } from 'vitest';
import { reportOf, type Trace, wavesOf } from '../tools/report-of';
import { published } from './published';

type Level = readonly [ns: number, value: string];

/** Waves of the last module of a text whose unit is 1 ns; inputs by their levels. */
async function waves(text: string, inputs: Readonly<Record<string, readonly Level[]>>, top = 'm') {
  const shapes = Object.entries(inputs).map(([name, levels]) => {
    const listed = levels.map(([ns, value]) => ({ atPs: ns * 1000, value: `1'b${value}` }));
    return [name, listed.length === 1 ? listed[0].value : { levels: listed }];
  });
  const project = JSON.stringify({ inputs: Object.fromEntries(shapes) });
  const files = [{ path: 'm.v', text: `\`timescale 1ns/1ps\n${text}` }];
  return wavesOf(files, 1_000_000, { top, project });
}

/** `110 1` per change, ns. */
function changes({ changes: all }: Trace): string[] {
  return all.map(({ at, value }) => `${at / 1000} ${value}`);
}

describe('gates and assignments', () => {
  const assignment = 'module m(input a, output y); assign #10 y = a; endmodule';

  published('DLY-1', 'a pulse of 6 does not pass a delay of 10', async () => {
    const of = await waves(assignment, {
      a: [
        [0, '0'],
        [100, '1'],
        [106, '0'],
      ],
    });
    expect(changes(of('y'))).toEqual([]);
  });

  published('DLY-2', 'a pulse of 14 comes out 10 later as wide as it was', async () => {
    const of = await waves(assignment, {
      a: [
        [0, '0'],
        [100, '1'],
        [114, '0'],
      ],
    });
    expect(changes(of('y'))).toEqual(['110 1', '124 0']);
  });

  const gate = (delay: string) => `module m(input a, e, output y); bufif1 #${delay} g(y, a, e); endmodule`;

  published('DLY-3', 'rise 10, fall 12: to 1, to 0, to x, to z', async () => {
    const a: readonly Level[] = [
      [0, '0'],
      [100, '1'],
      [200, '0'],
      [300, 'x'],
      [400, '1'],
    ];
    const of = await waves(gate('(10, 12)'), {
      a,
      e: [
        [0, '1'],
        [500, '0'],
      ],
    });
    expect(changes(of('y'))).toEqual(['110 1', '212 0', '310 x', '410 1', '510 z']);
  });

  published('DLY-4', 'rise 10, fall 12, turn-off 11: to x, to z', async () => {
    const of = await waves(gate('(10, 12, 11)'), {
      a: [
        [0, '0'],
        [300, 'x'],
        [400, '1'],
      ],
      e: [
        [0, '1'],
        [500, '0'],
      ],
    });
    expect(changes(of('y'))).toEqual(['310 x', '410 1', '511 z']);
  });

  published('DLY-13', 'one, two and three delays of a three-state buffer', async () => {
    const inputs = {
      a: [
        [0, '0'],
        [100, '1'],
        [200, '0'],
      ],
      e: [
        [0, '1'],
        [300, '0'],
      ],
    } as const;
    const of = async (delay: string) => changes((await waves(gate(delay), inputs))('y'));
    expect(await of('(2)')).toEqual(['102 1', '202 0', '302 z']);
    expect(await of('(1, 3)')).toEqual(['101 1', '203 0', '301 z']);
    expect(await of('(1, 2, 3)')).toEqual(['101 1', '202 0', '303 z']);
  });
});

describe('module paths', () => {
  published('DLY-5', 'six values, and the six that they stand for', async () => {
    const text = `module m(input a, e, output y);
      bufif1 g(y, a, e);
      specify (a, e *> y) = (12, 16, 13, 10, 14, 34); endspecify
    endmodule`;
    const of = async (a: readonly Level[], e: readonly Level[]) => changes((await waves(text, { a, e }))('y'));
    const on: readonly Level[] = [[0, '1']];
    const off: readonly Level[] = [
      [0, '1'],
      [300, '0'],
    ];
    expect(
      await of(
        [
          [0, '0'],
          [100, '1'],
          [200, '0'],
        ],
        off,
      ),
    ).toEqual(['112 1', '216 0', '313 z']);
    expect(
      await of(
        [[0, '1']],
        [
          [0, '0'],
          [100, '1'],
          [300, '0'],
        ],
      ),
    ).toEqual(['110 1', '314 z']);
    expect(
      await of(
        [[0, '0']],
        [
          [0, '0'],
          [100, '1'],
        ],
      ),
    ).toEqual(['134 0']);
    expect(
      await of(
        [
          [0, '0'],
          [100, 'x'],
          [200, '0'],
        ],
        on,
      ),
    ).toEqual(['112 x', '234 0']);
    expect(
      await of(
        [
          [0, '1'],
          [100, 'x'],
          [200, '1'],
        ],
        on,
      ),
    ).toEqual(['114 x', '212 1']);
    expect(
      await of(
        [[0, 'x']],
        [
          [0, '0'],
          [100, '1'],
          [200, '0'],
        ],
      ),
    ).toEqual(['110 x', '214 z']);
  });

  published('DLY-6', 'of two paths the one whose input changed last, of both together the shorter', async () => {
    const text = `module m(input a, b, output y);
      assign y = a & b;
      specify (a => y) = (6, 9); (b => y) = (5, 11); endspecify
    endmodule`;
    const of = async (a: readonly Level[], b: readonly Level[]) => changes((await waves(text, { a, b }))('y'));
    expect(
      await of(
        [
          [0, '0'],
          [100, '1'],
        ],
        [
          [0, '0'],
          [50, '1'],
        ],
      ),
    ).toEqual(['106 1']);
    expect(
      await of(
        [
          [0, '0'],
          [50, '1'],
        ],
        [
          [0, '0'],
          [100, '1'],
        ],
      ),
    ).toEqual(['105 1']);
    expect(
      await of(
        [
          [0, '0'],
          [100, '1'],
        ],
        [
          [0, '0'],
          [100, '1'],
        ],
      ),
    ).toEqual(['105 1']);
    expect(
      await of(
        [
          [0, '1'],
          [100, '0'],
        ],
        [
          [0, '1'],
          [100, '0'],
        ],
      ),
    ).toEqual(['109 0']);
  });

  const pulsed = (delay: number, limits: string) => `module m(input a, output y);
    assign y = a;
    specify ${limits} (a => y) = ${delay}; endspecify
  endmodule`;
  const widths = async (text: string, all: readonly number[]) => {
    const found = all.map(async (width) =>
      changes(
        (
          await waves(text, {
            a: [
              [0, '0'],
              [100, '1'],
              [100 + width, '0'],
            ],
          })
        )('y'),
      ),
    );
    return Promise.all(found);
  };

  published('DLY-7', 'reject 2 and error 9 of a path of 12', async () => {
    const text = pulsed(12, 'specparam PATHPULSE$a$y = (2, 9);');
    expect(await widths(text, [1, 2, 8, 9])).toEqual([[], ['112 x', '114 0'], ['112 x', '120 0'], ['112 1', '121 0']]);
  });

  published('DLY-8', 'without limits both are the delay', async () => {
    expect(await widths(pulsed(10, ''), [9, 10])).toEqual([[], ['110 1', '120 0']]);
  });

  published('DLY-9', 'the limits of the module', async () => {
    expect(await widths(pulsed(10, 'specparam PATHPULSE$ = 3;'), [2, 3])).toEqual([[], ['110 1', '113 0']]);
  });

  published('DLY-11', 'triples from clock to output', async () => {
    const text = `\`timescale 1ns/1ns
    module m(input c, output reg q);
      initial q = 0;
      always @(posedge c) q <= ~q;
      specify
        specparam rise = 45:150:270, fall = 60:200:350;
        (c => q) = (rise, fall);
      endspecify
    endmodule`;
    const { registers } = await reportOf([{ path: 'm.v', text }], {});
    expect(registers[0].settles).toMatchObject({
      rise: { min: 45_000, typ: 150_000, max: 270_000 },
      fall: { min: 60_000, typ: 200_000, max: 350_000 },
    });
  });

  published('DLY-12', 'one value for all, rise and fall, rise, fall and to z', async () => {
    const text = (delays: string) => `module m(input a, e, output y);
      bufif1 g(y, a, e);
      specify (a, e *> y) = ${delays}; endspecify
    endmodule`;
    const inputs = {
      a: [
        [0, '0'],
        [100, '1'],
        [200, '0'],
      ],
      e: [
        [0, '1'],
        [300, '0'],
      ],
    } as const;
    const of = async (delays: string) => changes((await waves(text(delays), inputs))('y'));
    expect(await of('(1:2:3)')).toEqual(['102 1', '202 0', '302 z']);
    expect(await of('(1:2:3, 4:5:6)')).toEqual(['102 1', '205 0', '302 z']);
    expect(await of('(1:2:3, 4:5:6, 7:8:9)')).toEqual(['102 1', '205 0', '308 z']);
  });
});
