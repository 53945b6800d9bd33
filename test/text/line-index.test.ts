// Offsets and one-based positions. What counts as a line end is ours: LF, CRLF as one, and a lone CR.

import { describe, expect, test } from 'vitest';
import { firstOffset, indexLines, lastAtOrBefore, offsetOf, positionOf } from '../../server/src/text/line-index';
import type { FileOffset } from '../../server/src/text/place';

describe('lines', () => {
  test.each([
    ['', [0]],
    ['a', [0]],
    ['a\nb', [0, 2]],
    ['a\r\nb', [0, 3]],
    ['a\rb', [0, 2]],
    ['a\n\r\n\rb', [0, 2, 4, 5]],
    ['a\n', [0, 2]],
    ['\uFEFFa\nb', [1, 3]],
  ])('%j', (text, starts) => {
    expect([...indexLines(text).starts]).toEqual(starts);
  });

  test('a byte order mark belongs to no column', () => {
    expect(firstOffset('\uFEFFa')).toBe(1);
    expect(positionOf(indexLines('\uFEFFab'), 2 as FileOffset)).toEqual({ line: 1, column: 2 });
    expect(positionOf(indexLines('\uFEFFab'), 0 as FileOffset)).toEqual({ line: 1, column: 1 });
  });

  test('a tab is one column, a character outside the basic plane two', () => {
    const lines = indexLines('\té😀b');
    expect(positionOf(lines, 1 as FileOffset)).toEqual({ line: 1, column: 2 });
    expect(positionOf(lines, 4 as FileOffset)).toEqual({ line: 1, column: 5 });
  });

  test('offsets and positions lead back to each other at every place', () => {
    const text = 'ab\r\n\ncd\re\uD83D\uDE00f\n';
    const lines = indexLines(text);
    for (let offset = 0; offset <= text.length; offset += 1) {
      // Between CR and LF there is no place of its own.
      expect(offsetOf(lines, positionOf(lines, offset as FileOffset))).toBe(offset);
    }
  });

  test('positions outside the text are taken as its nearest end', () => {
    const lines = indexLines('ab\ncd');
    expect(offsetOf(lines, { line: 0, column: 5 })).toBe(0);
    expect(offsetOf(lines, { line: 1, column: 99 })).toBe(3);
    expect(offsetOf(lines, { line: 2, column: 0 })).toBe(3);
    expect(offsetOf(lines, { line: 9, column: 1 })).toBe(5);
    expect(positionOf(lines, 99 as FileOffset)).toEqual({ line: 2, column: 3 });
  });

  test('searching', () => {
    expect([-1, 0, 1, 3, 4, 9].map((value) => lastAtOrBefore([0, 2, 4], value))).toEqual([0, 0, 0, 1, 2, 2]);
  });
});
