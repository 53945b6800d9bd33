import { describe, expect, it } from 'vitest';
import { isBefore, locationOf, offsetAt, rangeOf, touches } from '../../../server/src/editor/features/positions';

const span = { file: 'file:///project/a.v', line: 3, column: 5, endLine: 3, endColumn: 8 };

describe('places of the protocol', () => {
  it('count from zero', () => {
    const range = { start: { line: 2, character: 4 }, end: { line: 2, character: 7 } };
    expect(rangeOf(span)).toEqual(range);
    expect(locationOf(span)).toEqual({ uri: 'file:///project/a.v', range });
  });

  // Language Server Protocol 3.17, "Position": in `a𐐀b` the characters stand at 0, 1 and 3.
  it('count UTF-16 units', () => {
    const text = 'a𐐀b';
    expect([0, 1, 3].map((character) => text.slice(offsetAt(text, { line: 0, character }))[0])).toEqual([
      'a',
      '\ud801',
      'b',
    ]);
  });

  // Same section: "If the character value is greater than the line length it defaults back to the line length."
  it('fall back to the end of their line', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const text = `ab${end}cd${end}`;
      expect(offsetAt(text, { line: 0, character: 99 })).toBe(2);
      expect(offsetAt(text, { line: 1, character: 1 })).toBe(3 + end.length);
      expect(offsetAt(text, { line: 7, character: 0 })).toBe(text.length);
    }
  });

  it('touch a span at both of its ends', () => {
    const touched = [3, 4, 7, 8].map((character) => touches(span, { line: 2, character }));
    expect(touched).toEqual([false, true, true, false]);
    expect(touches(span, { line: 1, character: 5 })).toBe(false);
    expect(isBefore({ line: 1, character: 9 }, { line: 2, character: 0 })).toBe(true);
  });
});
