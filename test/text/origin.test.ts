// The way from expanded text to the file as typed, and back.

import { describe, expect, test } from 'vitest';
import { indexLines } from '../../server/src/text/line-index';
import {
  mapOrigins,
  type Origin,
  rangeOf,
  type Site,
  sitesOf,
  spanOf,
  unitOffsetOf,
} from '../../server/src/text/origin';
import type { FileOffset, FileRange, UnitOffset } from '../../server/src/text/place';

const range = (file: number, start: number, end: number): FileRange => ({
  file,
  start: start as FileOffset,
  end: end as FileOffset,
});
const place = (start: number, end: number) => ({ start: start as UnitOffset, end: end as UnitOffset });

// File 0: `ab M(x) cd` with M making `<x>`; file 1 included at `I`.
//   expanded:  a b ␠ < x > ␠ i n c ␠ c d
//   offset:    0 1 2 3 4 5 6 7 8 9 10 11 12
const use: Site = { kind: 'macro', name: 'M', range: range(0, 3, 7), outer: null };
const include: Site = { kind: 'include', name: 'f', range: range(0, 8, 9), outer: null };
const map = mapOrigins([
  { offset: 0, kind: 'copied', range: range(0, 0, 3), site: null, written: null },
  { offset: 3, kind: 'made', range: range(0, 3, 7), site: use, written: null },
  { offset: 4, kind: 'copied', range: range(0, 5, 6), site: null, written: null },
  { offset: 5, kind: 'made', range: range(0, 3, 7), site: use, written: null },
  { offset: 6, kind: 'copied', range: range(0, 7, 8), site: null, written: null },
  { offset: 7, kind: 'copied', range: range(1, 0, 3), site: include, written: null },
  { offset: 10, kind: 'copied', range: range(0, 9, 12), site: null, written: null },
]);
const whole: Origin = { map, base: 0 };

describe('from a unit to its files', () => {
  test.each([
    ['copied text', 0, 2, range(0, 0, 2)],
    ['part of what a macro made: the whole use', 3, 4, range(0, 3, 7)],
    ['an argument: as typed', 4, 5, range(0, 5, 6)],
    ['from a macro into an argument: the use', 3, 5, range(0, 3, 7)],
    ['across a macro use', 0, 8 - 1, range(0, 0, 8)],
    ['inside an include', 8, 10, range(1, 1, 3)],
    ['across an include: where the files meet', 7, 13, range(0, 8, 12)],
    ['into an include', 0, 8, range(0, 0, 9)],
    ['an empty stretch: behind what comes before it', 5, 5, range(0, 6, 6)],
    ['an empty stretch behind the text of a macro', 4, 4, range(0, 7, 7)],
    ['an empty stretch before all', 0, 0, range(0, 0, 0)],
    ['an empty stretch behind all', 13, 13, range(0, 12, 12)],
  ])('%s', (_what, start, end, expected) => {
    expect(rangeOf(whole, place(start, end))).toEqual(expected);
  });

  test('a unit that begins further in', () => {
    expect(rangeOf({ map, base: 4 }, place(0, 1))).toEqual(range(0, 5, 6));
  });

  test('lines and columns', () => {
    const files = [
      { path: 'a.v', lines: indexLines('ab\n(x) cdefg') },
      { path: 'f.vh', lines: indexLines('inc') },
    ];
    expect(spanOf(files, whole, place(0, 5))).toEqual({ file: 'a.v', line: 1, column: 1, endLine: 2, endColumn: 4 });
    expect(spanOf(files, whole, place(8, 10))).toEqual({ file: 'f.vh', line: 1, column: 2, endLine: 1, endColumn: 4 });
  });

  test('the chain of macros and includes', () => {
    expect(sitesOf(whole, 3 as UnitOffset)).toEqual([use]);
    expect(sitesOf(whole, 8 as UnitOffset)).toEqual([include]);
    expect(sitesOf(whole, 0 as UnitOffset)).toEqual([]);
  });
});

describe('from a file to a unit', () => {
  const find = (file: number, offset: number, origin = whole, length = 13) =>
    unitOffsetOf(origin, length, file, offset as FileOffset);

  test.each([
    ['copied text', 0, 1, 1],
    ['an argument as typed, not the use around it', 0, 5, 4],
    ['the name of a macro: what it made', 0, 3, 3],
    ['an included file', 1, 2, 9],
    ['behind an include', 0, 10, 11],
    ['a file that is not here', 2, 0, null],
    ['outside the file', 0, 50, null],
  ])('%s', (_what, file, offset, expected) => {
    expect(find(file, offset)).toBe(expected);
  });

  test('only inside the unit', () => {
    const second: Origin = { map, base: 6 };
    expect(find(0, 1, second, 7)).toBeNull();
    expect(find(0, 10, second, 7)).toBe(5);
    expect(find(0, 10, whole, 6)).toBeNull();
  });
});
