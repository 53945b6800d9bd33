// Every operator on random values of all widths, against the second evaluator of `reference.ts`.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '../../server/src/netlist/evaluate';
import { bitsOf, fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { isSource, Op, opNames } from '../../server/src/netlist/operators';
import { digits, digitsOfWidth, knownDigitsOfWidth, pairOfDigits, widthUpTo } from './arbitraries';
import { byDigit, completions, mergedDigits, referenceEvaluate, signed, tables } from './reference';

type Name = keyof typeof Op;

function resultOf(
  op: Name,
  width: number,
  operands: readonly string[],
  aux = 0,
  wildcards: readonly string[] = [],
): string {
  const tablesOfOperators = { resolutions: [], caseWildcards: [wildcards.map(bitsOf)], memories: [] };
  const value = evaluate(Op[op], width, operands.map(bitsOf), aux, tablesOfOperators);
  expect(value.width).toBe(width);
  return toBinary(value);
}

function expectReference(op: Name, width: number, operands: readonly string[], aux = 0): void {
  expect(resultOf(op, width, operands, aux)).toBe(referenceEvaluate(op, width, operands, aux));
}

describe.each(['buf', 'not', 'negate', 'net', 'delay'] as const)('%s', (op) => {
  it('agrees', () => {
    fc.assert(fc.property(digits(140), (value) => expectReference(op, value.length, [value])));
  });
});

describe.each(['and', 'nand', 'or', 'nor', 'xor', 'xnor'] as const)('%s', (op) => {
  it('agrees for any number of operands', () => {
    const operands = widthUpTo(100).chain((width) => fc.array(digitsOfWidth(width), { minLength: 1, maxLength: 5 }));
    fc.assert(fc.property(operands, (values) => expectReference(op, values[0].length, values)));
  });
});

describe.each(['reduceAnd', 'reduceOr', 'reduceXor'] as const)('%s', (op) => {
  it('agrees', () => {
    fc.assert(fc.property(digits(100), (value) => expectReference(op, 1, [value])));
  });
});

describe.each(['equal', 'notEqual', 'lessUnsigned', 'lessSigned', 'lessEqualUnsigned', 'lessEqualSigned'] as const)(
  '%s',
  (op) => {
    it('agrees', () => {
      fc.assert(
        fc.property(pairOfDigits(100), ([left, right]) => {
          expectReference(op, 1, [left, right]);
          expectReference(op, 1, [left, left]);
        }),
      );
    });
  },
);

describe.each([
  'add',
  'subtract',
  'multiply',
  'divideUnsigned',
  'divideSigned',
  'moduloUnsigned',
  'moduloSigned',
] as const)('%s', (op) => {
  it('agrees', () => {
    const known = widthUpTo(100).chain((width) => fc.tuple(knownDigitsOfWidth(width), knownDigitsOfWidth(width)));
    fc.assert(
      fc.property(fc.oneof(known, pairOfDigits(100)), ([left, right]) =>
        expectReference(op, left.length, [left, right]),
      ),
    );
  });
});

describe.each(['powerUnsigned', 'powerSigned'] as const)('%s', (op) => {
  it('agrees for exponents of a few bits', () => {
    fc.assert(
      fc.property(digits(70), digits(6), (base, exponent) => expectReference(op, base.length, [base, exponent])),
    );
  });
});

it('powers with enormous exponents end: an odd base to 2^(width) is 1, an even one 0 (Euler)', () => {
  const exponent = `1${'0'.repeat(64)}`;
  const odd = `${'0'.repeat(60)}1101`;
  const even = `${'0'.repeat(60)}1100`;
  expect(resultOf('powerUnsigned', 64, [odd, exponent])).toBe(`${'0'.repeat(63)}1`);
  expect(resultOf('powerUnsigned', 64, [even, exponent])).toBe('0'.repeat(64));
});

describe.each(['shiftLeft', 'shiftRight', 'shiftRightSigned'] as const)('%s', (op) => {
  it('agrees', () => {
    fc.assert(
      fc.property(digits(100), fc.oneof(digits(7), digits(40)), (value, amount) =>
        expectReference(op, value.length, [value, amount]),
      ),
    );
  });
});

describe('wiring', () => {
  it('slices', () => {
    const slices = widthUpTo(100).chain((width) =>
      fc
        .integer({ min: 0, max: width - 1 })
        .chain((low) => fc.tuple(digitsOfWidth(width), fc.constant(low), fc.integer({ min: 1, max: width - low }))),
    );
    fc.assert(fc.property(slices, ([value, low, width]) => expectReference('slice', width, [value], low)));
  });
  it('joins and extends', () => {
    fc.assert(
      fc.property(digits(70), digits(70), (left, right) => {
        const width = left.length + right.length;
        expectReference('concat', width, [left, right]);
        expectReference('zeroExtend', width, [left]);
        expectReference('signExtend', width, [left]);
      }),
    );
  });
});

describe('mux and tristate', () => {
  it('agree', () => {
    fc.assert(
      fc.property(digitsOfWidth(1), pairOfDigits(70), (control, [left, right]) => {
        expectReference('mux', left.length, [control, left, right]);
        expectReference('tristate', left.length, [left, control]);
      }),
    );
  });
});

describe('resolve', () => {
  it.each(['wire', 'wand', 'wor'] as const)('%s agrees with its table taken driver by driver', (kind) => {
    const drivers = widthUpTo(70).chain((width) => fc.array(digitsOfWidth(width), { minLength: 1, maxLength: 4 }));
    fc.assert(
      fc.property(drivers, (values) => {
        const tablesOfOperators = { resolutions: [{ kind, signal: 0 as never }], caseWildcards: [], memories: [] };
        const resolved = evaluate(Op.resolve, values[0].length, values.map(bitsOf), 0, tablesOfOperators);
        expect(toBinary(resolved)).toBe(values.reduce((sum, value) => byDigit(tables[kind], sum, value)));
      }),
    );
  });
});

describe('select', () => {
  const cases = fc.integer({ min: 1, max: 6 }).chain((width) =>
    fc.record({
      selector: digitsOfWidth(width),
      arms: fc.array(
        fc.record({ label: knownDigitsOfWidth(width), wild: knownDigitsOfWidth(width), value: digitsOfWidth(5) }),
        { maxLength: 6 },
      ),
      otherwise: digitsOfWidth(5),
    }),
  );

  /** The value for a known selector: the first arm whose label agrees outside its wildcards. */
  function taken(selector: string, arms: readonly { label: string; wild: string; value: string }[]): number {
    return arms.findIndex(({ label, wild }) =>
      [...label].every((digit, i) => wild[i] === '1' || digit === selector[i]),
    );
  }

  it('merges what every meaning of the selector would take', () => {
    fc.assert(
      fc.property(cases, ({ selector, arms, otherwise }) => {
        const operands = [selector, ...arms.flatMap(({ label, value }) => [label, value]), otherwise];
        const reached = new Set(completions(selector).map((known) => taken(known, arms)));
        const values = [...reached].map((index) => (index < 0 ? otherwise : arms[index].value));
        const wilds = arms.map(({ wild }) => wild);
        expect(resultOf('select', 5, operands, 0, wilds)).toBe(mergedDigits(values));
      }),
    );
  });

  it('compares labels whole without wildcards', () => {
    expect(resultOf('select', 2, ['10', '01', '00', '10', '01', '11'], -1)).toBe('01');
    expect(resultOf('select', 2, ['00', '01', '00', '10', '01', '11'], -1)).toBe('11');
    expect(resultOf('select', 2, ['x0', '00', '01', '10', '01', '11'], -1)).toBe('01');
  });

  it('gives up nothing that is certain when many selector bits are unknown', () => {
    const selector = 'x'.repeat(9);
    const label = (first: string) => first.padEnd(9, '0');
    expect(resultOf('select', 2, [selector, label('0'), '01', label('1'), '01', '11'], -1)).toBe('x1');
    expect(resultOf('select', 2, [`1${'x'.repeat(8)}`, label('0'), '10', label('1'), '01', '01'], -1)).toBe('01');
  });

  it('counts an unknown label as one that may match', () => {
    expect(resultOf('select', 2, ['1', 'x', '01', '11'], -1)).toBe('x1');
    expect(resultOf('select', 2, ['x', 'x', '01', '01'], -1)).toBe('01');
  });
});

describe('variable indices', () => {
  /** 32 bits of which a few may be unknown, near the vector. */
  const indices = fc.tuple(fc.integer({ min: -9, max: 20 }), fc.subarray([0, 1, 2, 3, 31])).map(([number, unknown]) => {
    const text = [...toBinary(fromNumber(32, number))];
    for (const bit of unknown) text[31 - bit] = bit % 2 === 0 ? 'x' : 'z';
    return text.join('');
  });

  function readAtKnown(vector: string, index: string, width: number): string {
    const low = Number(signed(index));
    return Array.from({ length: width }, (_, bit) => vector[vector.length - 1 - (low + bit)] ?? 'x')
      .reverse()
      .join('');
  }

  it('read what every meaning of the index would give', () => {
    fc.assert(
      fc.property(digits(12), indices, fc.integer({ min: 1, max: 5 }), (vector, index, width) => {
        const readings = completions(index).map((known) => readAtKnown(vector, known, width));
        expect(resultOf('readAt', width, [vector, index])).toBe(mergedDigits(readings));
      }),
    );
  });

  it('write every bit that some meaning of the index would write, old and new merged', () => {
    fc.assert(
      fc.property(digits(12), indices, digits(5), (vector, index, piece) => {
        const lows = completions(index).map((known) => Number(signed(known)));
        const expected = [...vector].reverse().map((old, bit) => {
          const candidates = lows.map((low) => piece[piece.length - 1 - (bit - low)]);
          if (candidates.every((candidate) => candidate === undefined)) return old;
          return mergedDigits(candidates.map((candidate) => candidate ?? old));
        });
        expect(resultOf('writeAt', vector.length, [vector, index, piece])).toBe(expected.reverse().join(''));
      }),
    );
  });

  it('may be wider than 32 bits', () => {
    const wide = (text: string) => text.padStart(40, text[0]);
    expect(resultOf('readAt', 1, ['0100', wide('010')])).toBe('1');
    expect(resultOf('readAt', 1, ['1000', wide('1')])).toBe('x');
    expect(resultOf('readAt', 1, ['1111', `0000000${'1'.padEnd(33, '0')}`])).toBe('x');
    expect(resultOf('writeAt', 4, ['0000', `00000x00${'0'.repeat(32)}`, '1'])).toBe('000x');
  });
});

it('sources have no value of their own', () => {
  const tables = { resolutions: [], caseWildcards: [], memories: [] };
  for (const op of opNames.keys()) {
    if (!isSource(op)) continue;
    expect(() => evaluate(op, 1, [], 0, tables)).toThrow('no value of its own');
  }
});

it('operators are numbered in the order they are declared in', () => {
  expect(opNames.map((name) => Op[name as Name])).toEqual(opNames.map((_, index) => index));
});
