// Each operator takes the widths that `operators.ts` states, and no others.

import { describe, expect, it } from 'vitest';
import { checkWidths } from '../../server/src/netlist/width-rules';
import type { NodeColumns, NodeId } from '../../server/src/netlist/netlist';
import { isSource, Op, opNames } from '../../server/src/netlist/operators';

type Shape = readonly [width: number, operands: readonly number[], aux?: number];

/** Per operator: shapes that are right, then shapes that are wrong in one point each. */
const rules: Readonly<Record<string, readonly [right: readonly Shape[], wrong: readonly Shape[]]>> = {
  net: [
    [[4, [4]]],
    [
      [4, [3]],
      [4, []],
      [4, [4, 4]],
    ],
  ],
  delay: [[[4, [4]]], [[4, [3]]]],
  resolve: [
    [
      [4, [4]],
      [4, [4, 4, 4]],
    ],
    [
      [4, []],
      [4, [4, 3]],
    ],
  ],
  concat: [
    [
      [7, [3, 4]],
      [3, [3]],
    ],
    [
      [8, [3, 4]],
      [6, [3, 4]],
      [1, []],
    ],
  ],
  slice: [
    [
      [2, [4], 0],
      [2, [4], 2],
      [4, [4], 0],
    ],
    [
      [2, [4], 3],
      [2, [4], -1],
      [5, [4], 0],
      [2, [4, 4], 0],
    ],
  ],
  zeroExtend: [
    [
      [4, [4]],
      [5, [4]],
    ],
    [
      [3, [4]],
      [8, [4, 4]],
    ],
  ],
  signExtend: [
    [
      [4, [4]],
      [5, [4]],
    ],
    [
      [3, [4]],
      [8, [4, 4]],
    ],
  ],
  buf: [
    [[4, [4]]],
    [
      [4, [3]],
      [4, [4, 4]],
    ],
  ],
  not: [
    [[4, [4]]],
    [
      [4, [3]],
      [4, [4, 4]],
    ],
  ],
  negate: [
    [[4, [4]]],
    [
      [4, [3]],
      [4, [4, 4]],
    ],
  ],
  tristate: [
    [[4, [4, 1]]],
    [
      [4, [4, 4]],
      [4, [3, 1]],
      [4, [4]],
    ],
  ],
  mux: [
    [[4, [1, 4, 4]]],
    [
      [4, [4, 4, 4]],
      [4, [1, 4, 3]],
      [4, [1, 3, 4]],
      [4, [1, 4]],
    ],
  ],
  select: [
    [
      [4, [2, 4]],
      [4, [2, 2, 4, 4]],
      [4, [2, 2, 4, 2, 4, 4]],
    ],
    [
      [4, [2, 3, 4, 4]],
      [4, [2, 2, 3, 4]],
      [4, [2, 2, 4, 3]],
      [4, [2, 2, 4]],
      [4, [2]],
    ],
  ],
  readAt: [
    [
      [1, [8, 32]],
      [3, [8, 40]],
    ],
    [
      [1, [8, 31]],
      [1, [8]],
    ],
  ],
  writeAt: [
    [[8, [8, 32, 2]]],
    [
      [8, [8, 31, 2]],
      [8, [7, 32, 2]],
      [8, [8, 32]],
    ],
  ],
  memoryRead: [
    [
      [8, [24, 32]],
      [8, [24, 33, 40]],
    ],
    [
      [8, []],
      [8, [24]],
      [8, [23, 32]],
      [8, [24, 31]],
    ],
  ],
  memoryWrite: [
    [
      [24, [24, 8, 32, 32]],
      [24, [24, 1, 33, 32, 40]],
    ],
    [
      [24, [24, 8, 32]],
      [8, [24, 8, 32, 32]],
      [24, [24, 8, 31, 32]],
    ],
  ],
  memoryFill: [
    [[24, [24, 8, 32, 32]]],
    [
      [24, [24, 8, 32]],
      [8, [24, 8, 32, 32]],
      [24, [8, 8, 32, 32]],
    ],
  ],
  memoryPick: [
    [[24, [2, 24, 24]]],
    [
      [24, [1, 24, 24]],
      [8, [2, 24, 24]],
      [24, [2, 24, 8]],
    ],
  ],
};

const alike: readonly [readonly Shape[], readonly Shape[]] = [
  [[4, [4, 4]]],
  [
    [4, [4, 3]],
    [4, [3, 4]],
    [5, [4, 4]],
    [4, [4]],
  ],
];
const gate: readonly [readonly Shape[], readonly Shape[]] = [
  [
    [4, [4, 4]],
    [4, [4, 4, 4]],
  ],
  [
    [4, [4, 3]],
    [4, []],
  ],
];
const compare: readonly [readonly Shape[], readonly Shape[]] = [
  [[1, [4, 4]]],
  [
    [1, [4, 3]],
    [4, [4, 4]],
    [1, [4]],
  ],
];
const reduce: readonly [readonly Shape[], readonly Shape[]] = [
  [[1, [4]]],
  [
    [4, [4]],
    [1, [4, 4]],
  ],
];
const shift: readonly [readonly Shape[], readonly Shape[]] = [
  [
    [4, [4, 9]],
    [4, [4, 1]],
  ],
  [
    [4, [3, 9]],
    [4, [4]],
  ],
];

function rulesOf(name: string): readonly [readonly Shape[], readonly Shape[]] {
  if (Object.hasOwn(rules, name)) return rules[name];
  if (isSource(Op[name as keyof typeof Op]))
    return [
      [[4, []]],
      [
        [4, [4]],
        [0, []],
      ],
    ];
  if (/^(equal|notEqual|less)/.test(name)) return compare;
  if (name.startsWith('reduce')) return reduce;
  if (/^(shift|power)/.test(name)) return shift;
  return /^(n?and|n?or|xn?or)$/.test(name) ? gate : alike;
}

function check(name: string, [width, operands, aux = 0]: Shape): void {
  const nodes = { width: Uint32Array.from(operands) } as NodeColumns;
  checkWidths(
    nodes,
    Op[name as keyof typeof Op],
    width,
    operands.map((_, index) => index as NodeId),
    aux,
  );
}

describe.each(opNames)('%s', (name) => {
  const [right, wrong] = rulesOf(name);
  it.each(right.map((shape) => ({ shape })))('takes $shape', ({ shape }) =>
    expect(() => check(name, shape)).not.toThrow(),
  );
  it.each(wrong.map((shape) => ({ shape })))('refuses $shape', ({ shape }) =>
    expect(() => check(name, shape)).toThrow(name),
  );
});

it('no other operator exists', () => {
  expect(() => checkWidths({ width: new Uint32Array(0) } as NodeColumns, opNames.length, 1, [], 0)).toThrow();
});
