// The way between the places of a study and those of the protocol: lines and characters from one there, from zero here, both
// in UTF-16 units. In the editor a study's files are named by URI, so that a span's file is a location's as it stands.

import type { Location, Position, Range } from 'vscode-languageserver';
import { indexLines, type LineIndex, offsetOf, positionOf } from '../../text/line-index';
import type { FileOffset, Span } from '../../text/place';

export function rangeOf(span: Span): Range {
  return {
    start: { line: span.line - 1, character: span.column - 1 },
    end: { line: span.endLine - 1, character: span.endColumn - 1 },
  };
}

export function locationOf(span: Span): Location {
  return { uri: span.file, range: rangeOf(span) };
}

/** A character behind its line's end is taken as that end (protocol 3.17, Position), a line behind the last as the text's end. */
export function offsetAt(text: string, position: Position): FileOffset {
  return offsetIn(text, indexLines(text), position);
}

/** The same for a caller who has the lines already. */
export function offsetIn(text: string, lines: LineIndex, { character, line }: Position): FileOffset {
  const start = offsetOf(lines, { line: line + 1, column: 1 });
  const wished = offsetOf(lines, { line: line + 1, column: character + 1 });
  return Math.min(wished, lineEndAfter(text, start)) as FileOffset;
}

/** From one offset of a text to another. */
export function rangeBetween(text: string, start: number, end: number): Range {
  const lines = indexLines(text);
  const at = (offset: number): Position => {
    const { column, line } = positionOf(lines, offset as FileOffset);
    return { line: line - 1, character: column - 1 };
  };
  return { start: at(start), end: at(end) };
}

/** Whether a caret there touches the span, its end included: behind a name one still means it. */
export function touches(span: Span, position: Position): boolean {
  const { end, start } = rangeOf(span);
  return !isBefore(position, start) && !isBefore(end, position);
}

export function isBefore(left: Position, right: Position): boolean {
  return left.line < right.line || (left.line === right.line && left.character < right.character);
}

function lineEndAfter(text: string, start: number): number {
  const rest = /[\r\n]/g;
  rest.lastIndex = start;
  return rest.exec(text)?.index ?? text.length;
}
