// What two versions of a text share at their ends, and the lines of an edited text: against the plain way, for random texts.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { indexLines, indexLinesAgain } from '../../server/src/text/line-index';
import { overlapOf } from '../../server/src/text/overlap';

const text = fc
  .array(fc.constantFrom('a', 'b', '\n', '\r', '\r\n', '\uFEFF'), { maxLength: 12 })
  .map((parts) => parts.join(''));
const versions = fc.tuple(text, text, fc.nat(12), fc.nat(12)).map(([before, put, from, length]) => {
  const at = from % (before.length + 1);
  return { before, after: before.slice(0, at) + put.slice(0, 3) + before.slice(at + length) };
});

test('the longest start, and the longest end behind it', () => {
  fc.assert(
    fc.property(versions, ({ after, before }) => {
      const shorter = Math.min(before.length, after.length);
      let start = 0;
      while (start < shorter && before[start] === after[start]) start += 1;
      let end = 0;
      while (end < shorter - start && before.at(-1 - end) === after.at(-1 - end)) end += 1;
      expect(overlapOf(before, after)).toEqual({ start, end });
    }),
    { numRuns: 2_000 },
  );
});

test('lines of the edited text are those of the text', () => {
  fc.assert(
    fc.property(versions, ({ after, before }) => {
      expect(indexLinesAgain(indexLines(before), before, after)).toEqual(indexLines(after));
    }),
    { numRuns: 5_000 },
  );
});
