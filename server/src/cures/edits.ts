// Changes of text: of a unit's expanded text as a cure plans them, and of the files as typed, which a person applies. What a
// macro spells out cannot be changed at its use, so such an edit has no file to stand in.

import { positionOf } from '../text/line-index';
import { rangeOf, sitesOf } from '../text/origin';
import type { Place, Span, UnitOffset } from '../text/place';
import type { SourceFile } from '../text/source';
import type { Reading } from '../syntax/read';

/** `text` stands in place of [start, end) of the unit's expanded text. */
export interface UnitEdit {
  readonly unit: number;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface FileEdit {
  /** Path of the file, as given. */
  readonly file: string;
  readonly start: number;
  readonly end: number;
  /** The same stretch in lines and columns, from one. */
  readonly span: Span;
  readonly text: string;
}

export function replacing(place: Place, text: string): UnitEdit {
  return { unit: place.unit, start: place.start, end: place.end, text };
}

export function inserting(unit: number, at: number, text: string): UnitEdit {
  return { unit, start: at, end: at, text };
}

/** In the order of the files and in them from the end, so that each may be applied after the one before; null where one cannot be. */
export function fileEdits({ files, units }: Reading, edits: readonly UnitEdit[]): readonly FileEdit[] | null {
  const found: FileEdit[] = [];
  for (const { end, start, text, unit } of edits) {
    const { origin } = units[unit];
    const isMade = (offset: number) => sitesOf(origin, offset as UnitOffset).some(({ kind }) => kind === 'macro');
    if (isMade(start) || isMade(Math.max(start, end - 1))) return null;
    const range = rangeOf(origin, { start: start as UnitOffset, end: end as UnitOffset });
    if (range.end - range.start !== end - start) return null;
    const { lines, path } = files[range.file];
    const [from, to] = [positionOf(lines, range.start), positionOf(lines, range.end)];
    const span = { file: path, line: from.line, column: from.column, endLine: to.line, endColumn: to.column };
    found.push({ file: path, start: range.start, end: range.end, span, text });
  }
  // What is inserted at one place keeps its order, before what replaces the text there.
  const sorted = found
    .reverse()
    .sort((left, right) => (left.file === right.file ? right.start - left.start || right.end - left.end : 0));
  const isApart = sorted.every((edit, index) => {
    const later = sorted[index - 1];
    return later === undefined || later.file !== edit.file || edit.end <= later.start;
  });
  return isApart ? sorted : null;
}

/** The texts as they are afterwards. */
export function withEdits(files: readonly SourceFile[], edits: readonly FileEdit[]): readonly SourceFile[] {
  return files.map(({ path, text }) => {
    const own = edits.filter(({ file }) => file === path);
    return {
      path,
      text: own.reduce((now, { end, start, text: added }) => now.slice(0, start) + added + now.slice(end), text),
    };
  });
}
