// Lines of a file as typed: where each starts, and the way between offsets and one-based positions.
// A line ends at LF, at CRLF (one end) or at a lone CR. A byte order mark before the first line belongs to
// no column. Knows nothing of Verilog.

import { overlapOf } from './overlap';
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
  for (let start = nextLine(text, 0); start >= 0; start = nextLine(text, start)) starts.push(start);
  return { starts: Int32Array.from(starts), length: text.length };
}

/** The lines of `after`, given those of `before`: costs what lies between the ends that both share. */
export function indexLinesAgain(lines: LineIndex, before: string, after: string): LineIndex {
  const { end, start } = overlapOf(before, after);
  // Whether a line starts somewhere is told by the characters on either side; one that is no longer there tells nothing.
  const same = start === 0 ? 0 : lastAtOrBefore(lines.starts, start - 1) + 1;
  const shift = after.length - before.length;
  const rest = lastAtOrBefore(lines.starts, before.length - end) + 1;
  const between: number[] = same === 0 ? [firstOffset(after)] : [];
  const from = same === 0 ? 0 : lines.starts[same - 1];
  for (let next = nextLine(after, from); next >= 0 && next <= after.length - end; next = nextLine(after, next))
    between.push(next);
  const starts = new Int32Array(same + between.length + lines.starts.length - rest);
  starts.set(lines.starts.subarray(0, same));
  starts.set(between, same);
  for (let old = rest, index = same + between.length; old < lines.starts.length; old += 1, index += 1)
    starts[index] = lines.starts[old] + shift;
  return { starts, length: after.length };
}

/** Where the line behind the one at `offset` starts; -1 in the last one. */
function nextLine(text: string, offset: number): number {
  lineEnds.lastIndex = offset;
  return lineEnds.test(text) ? lineEnds.lastIndex : -1;
}

const lineEnds = /\r\n|\n|\r/g;

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

const byteOrderMark = 0xfeff;
