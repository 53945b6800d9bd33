// Lines of a file as typed: where each starts, and the way between offsets and one-based positions.
// A line ends at LF, at CRLF (one end) or at a lone CR. A byte order mark before the first line belongs to
// no column. Knows nothing of Verilog.

import type { FileOffset } from './place';

export interface LineIndex {
  /** Offset of the first character of each line. */
  readonly starts: Int32Array;
  readonly length: number;
}

/** One-based line and UTF-16 column. A tab is one column. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export function indexLines(text: string): LineIndex {
  const starts: number[] = [firstOffset(text)];
  for (let offset = 0; offset < text.length; offset += 1) {
    const code = text.charCodeAt(offset);
    if (code === lineFeed || (code === carriageReturn && text.charCodeAt(offset + 1) !== lineFeed)) {
      starts.push(offset + 1);
    }
  }
  return { starts: Int32Array.from(starts), length: text.length };
}

/** Where the first line starts: behind a byte order mark, if there is one. */
export function firstOffset(text: string): FileOffset {
  return (text.charCodeAt(0) === byteOrderMark ? 1 : 0) as FileOffset;
}

/** An offset outside the file is taken as its nearest end. */
export function positionOf(lines: LineIndex, offset: FileOffset): Position {
  const inside = Math.max(lines.starts[0], Math.min(offset, lines.length));
  const line = lastAtOrBefore(lines.starts, inside);
  return { line: line + 1, column: inside - lines.starts[line] + 1 };
}

/** A position outside the file is taken as its nearest end; a column behind its line as the next line's start. */
export function offsetOf(lines: LineIndex, position: Position): FileOffset {
  if (position.line < 1) return lines.starts[0] as FileOffset;
  if (position.line > lines.starts.length) return lines.length as FileOffset;
  const start = lines.starts[position.line - 1];
  const next = position.line < lines.starts.length ? lines.starts[position.line] : lines.length;
  return Math.max(start, Math.min(start + position.column - 1, next)) as FileOffset;
}

/** Index of the last entry of the rising `starts` that is not above `value`; 0 where every one is above. */
export function lastAtOrBefore(starts: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle] <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const byteOrderMark = 0xfeff;
