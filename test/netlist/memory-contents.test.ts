// Contents of memories, held to plain lists of words: writes at known and unknown indices, fills, merges, several dimensions,
// what lies outside; equal contents have equal numbers whatever their history; branches do not see each other.
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { allX, type Bits, bitsOf, fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { merge } from '../../server/src/netlist/four-state-parts';
import { contentBits, createMemoryContents, type MemoryContents } from '../../server/src/netlist/memory-contents';

const width = 3;

type Step =
  | {
      readonly kind: 'write';
      readonly row: string;
      readonly column: string;
      readonly low: number;
      readonly piece: string;
    }
  | { readonly kind: 'fill'; readonly from: number; readonly until: number; readonly value: string }
  | { readonly kind: 'merge'; readonly with: number };

const digits = (length: number) => fc.array(fc.constantFrom('0', '1', 'x'), { minLength: length, maxLength: length });
const index = fc
  .array(fc.constantFrom('0', '0', '1', '1', 'x'), { minLength: 3, maxLength: 3 })
  .map((list) => list.join(''));
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    kind: fc.constant('write' as const),
    row: index,
    column: index,
    low: fc.nat(2),
    piece: digits(1).map((list) => list.join('')),
  }),
  fc.record({
    kind: fc.constant('fill' as const),
    from: fc.nat(5),
    until: fc.nat(6),
    value: digits(width).map((list) => list.join('')),
  }),
  fc.record({ kind: fc.constant('merge' as const), with: fc.nat(20) }),
);

/** Rows and columns; the index bits could say more. */
const sizes = [5, 6] as const;

function indexBits(text: string): Bits {
  return bitsOf(text.padStart(32, '0'));
}

/** All numbers that an index could mean. */
function meanings(text: string): number[] {
  return [...text].reduce<number[]>(
    (found, digit) =>
      found.flatMap((number) => (digit === 'x' ? [2 * number, 2 * number + 1] : [2 * number + Number(digit)])),
    [0],
  );
}

type Words = readonly (readonly string[])[];

function mergedText(left: string, right: string): string {
  return toBinary(merge(bitsOf(left), bitsOf(right)));
}

function stepOnWords(words: Words, step: Step, earlier: readonly Words[]): Words {
  switch (step.kind) {
    case 'write': {
      const [rows, columns] = [meanings(step.row), meanings(step.column)];
      const isSure = rows.length * columns.length === 1;
      return words.map((row, at) =>
        row.map((word, column) => {
          if (!rows.includes(at) || !columns.includes(column)) return word;
          const place = width - 1 - step.low;
          const next = word.slice(0, place) + step.piece + word.slice(place + 1);
          return isSure ? next : mergedText(word, next);
        }),
      );
    }
    case 'fill':
      return words.map((row, at) => (at >= step.from && at < step.until ? row.map(() => step.value) : row));
    case 'merge': {
      const other = earlier[step.with % earlier.length];
      return words.map((row, at) => row.map((word, column) => mergedText(word, other[at][column])));
    }
  }
}

function stepOnContent(contents: MemoryContents, content: Bits, step: Step, earlier: readonly Bits[]): Bits {
  switch (step.kind) {
    case 'write':
      return contents.write(
        content,
        [indexBits(step.row), indexBits(step.column)],
        fromNumber(32, step.low),
        bitsOf(step.piece),
      );
    case 'fill':
      return contents.fill(content, bitsOf(step.value), [
        { from: step.from, until: Math.max(step.from, step.until) },
        { from: 0, until: sizes[1] },
      ]);
    case 'merge':
      return contents.merge([content, earlier[step.with % earlier.length]]);
  }
}

function wordsOf(contents: MemoryContents, content: Bits): Words {
  return Array.from({ length: sizes[0] }, (_, row) =>
    Array.from({ length: sizes[1] }, (_word, column) =>
      toBinary(contents.read(content, [fromNumber(32, row), fromNumber(32, column)])),
    ),
  );
}

describe('random steps', () => {
  it('leave the words that a list has, and one number for one list', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const contents = createMemoryContents({ width, sizes });
        const start = contents.filledWith(contents.blank, 'x');
        const lists: Words[] = [wordsOf(contents, start)];
        const numbers: Bits[] = [start];
        for (const one of steps) {
          lists.push(stepOnWords(lists[lists.length - 1], one, lists));
          numbers.push(stepOnContent(contents, numbers[numbers.length - 1], one, numbers));
        }
        expect(numbers.map((number) => wordsOf(contents, number))).toEqual(lists);
        const named = new Map(lists.map((list, at) => [JSON.stringify(list), toBinary(numbers[at])]));
        expect(lists.map((list) => named.get(JSON.stringify(list)))).toEqual(numbers.map(toBinary));
      }),
      { numRuns: 300 },
    );
  });
});

test('an index that may lie outside reads x, and one that does writes nothing', () => {
  const contents = createMemoryContents({ width, sizes: [5] });
  const full = contents.fill(contents.blank, bitsOf('101'), [{ from: 0, until: 5 }]);
  expect(toBinary(contents.read(full, [indexBits('101')]))).toBe('xxx');
  expect(toBinary(contents.read(full, [indexBits('1x0')]))).toBe('xxx');
  expect(toBinary(contents.read(full, [indexBits('0xx')]))).toBe('101');
  expect(contents.write(full, [indexBits('101')], fromNumber(32, 0), bitsOf('111'))).toEqual(full);
  expect(contents.write(full, [bitsOf('1'.repeat(32))], fromNumber(32, 0), bitsOf('111'))).toEqual(full);
});

test('a content that is not known reads x, and knows the word that is written next', () => {
  const contents = createMemoryContents({ width, sizes: [1024] });
  const written = contents.write(allX(contentBits), [indexBits('11')], fromNumber(32, 0), bitsOf('110'));
  expect(toBinary(contents.read(allX(contentBits), [indexBits('11')]))).toBe('xxx');
  expect(toBinary(contents.read(written, [indexBits('11')]))).toBe('110');
  expect(toBinary(contents.read(written, [indexBits('10')]))).toBe('xxx');
});

test('words that were not given are filled, those that were given as x are not', () => {
  const contents = createMemoryContents({ width, sizes: [6] });
  const given = contents.write(contents.blank, [indexBits('10')], fromNumber(32, 0), allX(width));
  const filled = contents.filledWith(given, '0');
  expect(['1', '10', '11'].map((at) => toBinary(contents.read(filled, [indexBits(at)])))).toEqual([
    '000',
    'xxx',
    '000',
  ]);
  expect([given, filled, contents.fill(filled, bitsOf('001'), [{ from: 0, until: 6 }])].map(contents.isOpen)).toEqual([
    true,
    true,
    false,
  ]);
  expect(contents.differences(given, filled, 10)).toEqual([0, 1, 3, 4, 5]);
});

test('branches know what was there, and not what the other makes', () => {
  const base = createMemoryContents({ width, sizes: [1024] });
  const known = base.write(base.blank, [indexBits('1')], fromNumber(32, 0), bitsOf('010'));
  const [one, other] = [base.branch(), base.branch()];
  const mine = one.write(known, [indexBits('10')], fromNumber(32, 0), bitsOf('111'));
  const later = base.write(known, [indexBits('11')], fromNumber(32, 0), bitsOf('011'));
  const theirs = other.write(known, [indexBits('100')], fromNumber(32, 0), bitsOf('100'));
  expect(toBinary(one.read(mine, [indexBits('10')]))).toBe('111');
  expect(toBinary(one.read(known, [indexBits('1')]))).toBe('010');
  expect(toBinary(other.read(theirs, [indexBits('100')]))).toBe('100');
  expect(toBinary(base.read(later, [indexBits('11')]))).toBe('011');
  const again = one.branch();
  expect(toBinary(again.read(mine, [indexBits('10')]))).toBe('111');
  expect(again.write(known, [indexBits('10')], fromNumber(32, 0), bitsOf('111'))).toEqual(mine);
});

test('a memory of a million words costs what is written', () => {
  const contents = createMemoryContents({ width: 32, sizes: [2 ** 20] });
  let content = contents.filledWith(contents.blank, '0');
  for (let turn = 0; turn < 1000; turn++) {
    content = contents.write(
      content,
      [fromNumber(32, (turn * 7919) % 2 ** 20)],
      fromNumber(32, 0),
      fromNumber(32, turn),
    );
  }
  expect(toBinary(contents.read(content, [fromNumber(32, 7919 * 99)]))).toBe((99).toString(2).padStart(32, '0'));
  expect(contents.differences(content, contents.filledWith(contents.blank, '0'), 2000)).toHaveLength(999);
  const cleared = contents.fill(content, fromNumber(32, 0), [{ from: 0, until: 2 ** 20 }]);
  expect(cleared).toEqual(contents.filledWith(contents.blank, '0'));
});
