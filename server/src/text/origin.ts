// Where expanded text comes from. The text of a unit is a run of segments: a stretch copied from a file
// keeps its characters' own offsets, a stretch made by a macro use points as a whole to that use, and knows
// besides where in the macro's definition it is written. Both remember the chain of includes and macro uses
// they came through. Knows nothing of Verilog.

import { type LineIndex, lastAtOrBefore, positionOf } from './line-index';
import type { FileOffset, FileRange, Place, Span, UnitOffset } from './place';

/** One step of the way text took: an include directive or a macro use, and what that itself stood in. */
export interface Site {
  readonly kind: 'include' | 'macro';
  /** Macro name, or the include's file name as written. */
  readonly name: string;
  /** The directive or use; inside a macro's text, the outermost use in a file. */
  readonly range: FileRange;
  readonly outer: Site | null;
}

export interface Segment {
  /** Offset in the expanded text of the whole file where this segment begins; it ends where the next begins. */
  readonly offset: number;
  /** `copied`: character k of the segment is character `range.start + k` of the file. `made`: all of it means all of `range`. */
  readonly kind: 'copied' | 'made';
  readonly range: FileRange;
  readonly site: Site | null;
  /** For text of a macro: where character 0 of the segment is written in the definition; the rest follows it there. */
  readonly written: WrittenAt | null;
}

/** A place in a file where text of a macro is written. */
export interface WrittenAt {
  readonly file: number;
  readonly start: FileOffset;
}

/** The segments of one file's expanded text in order; `offsets` repeats where each begins, for searching. */
export interface OriginMap {
  readonly segments: readonly Segment[];
  readonly offsets: Int32Array;
}

/** The origin of one unit: the map of its file's expanded text, and where in that text the unit begins. */
export interface Origin {
  readonly map: OriginMap;
  readonly base: number;
}

/** A file of the study with its lines. */
export interface IndexedFile {
  readonly path: string;
  readonly lines: LineIndex;
}

export function mapOrigins(segments: readonly Segment[]): OriginMap {
  return { segments, offsets: Int32Array.from(segments, (segment) => segment.offset) };
}

/** The stretch of a file as typed that `place` stands for. A stretch across files is taken to where they meet. */
export function rangeOf(origin: Origin, place: Pick<Place, 'start' | 'end'>): FileRange {
  if (place.end <= place.start) return emptyRange(origin, place.start);
  const first = endpoint(origin, place.start);
  const last = endpoint(origin, (place.end - 1) as UnitOffset);
  return join(first, last);
}

/** Lines and columns of `rangeOf`. `files` is the study's list, which the range's `file` indexes. */
export function spanOf(files: readonly IndexedFile[], origin: Origin, place: Pick<Place, 'start' | 'end'>): Span {
  return spanOfRange(files, rangeOf(origin, place));
}

export function spanOfRange(files: readonly IndexedFile[], range: FileRange): Span {
  const file = files[range.file];
  const start = positionOf(file.lines, range.start);
  const end = positionOf(file.lines, range.end);
  return { file: file.path, line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}

/** The includes and macro uses that the character at `offset` came through, innermost first. */
export function sitesOf(origin: Origin, offset: UnitOffset): readonly Site[] {
  const sites: Site[] = [];
  for (let site = segmentAt(origin, offset).site; site !== null; site = site.outer) sites.push(site);
  return sites;
}

/** What a stretch made by a macro is in the macro's definition. */
export interface WrittenText {
  /** The macro whose text holds it: the innermost of several. */
  readonly macro: string;
  readonly range: FileRange;
}

/** Null where the stretch does not begin with text of a macro. One that leaves that text ends with the text. */
export function writtenTextOf(origin: Origin, place: Pick<Place, 'start' | 'end'>): WrittenText | null {
  const { segments, offsets } = origin.map;
  const index = lastAtOrBefore(offsets, place.start + origin.base);
  const { written, site, offset } = segments[index];
  if (written === null || site === null) return null;
  const length = segmentEnd(segments, index, place.end + origin.base) - offset;
  const last = Math.min(Math.max(place.end, place.start) + origin.base - offset, length);
  const start = written.start + place.start + origin.base - offset;
  const end = Math.max(start, written.start + last);
  return { macro: site.name, range: { file: written.file, start: start as FileOffset, end: end as FileOffset } };
}

/**
 * The unit's offset for a place in a file, for editors: the character copied from there, else the first
 * character made by a macro use that covers it. Null where the unit holds nothing from there.
 */
export function unitOffsetOf(origin: Origin, unitLength: number, file: number, offset: FileOffset): UnitOffset | null {
  const { map, base } = origin;
  const { segments } = map;
  let made: number | null = null;
  for (let index = lastAtOrBefore(map.offsets, base); index < segments.length; index += 1) {
    const segment = segments[index];
    const from = Math.max(segment.offset, base);
    const to = Math.min(segmentEnd(segments, index, base + unitLength), base + unitLength);
    if (segment.offset > base + unitLength) break;
    if (segment.range.file !== file) continue;
    if (segment.kind === 'copied') {
      const expanded = segment.offset + (offset - segment.range.start);
      if (expanded >= from && expanded <= to) return (expanded - base) as UnitOffset;
    } else if (made === null && from < to && segment.range.start <= offset && offset < segment.range.end) {
      made = from - base;
    }
  }
  return made as UnitOffset | null;
}

/** A place without length belongs behind the character before it: what is missing is missing there. */
function emptyRange(origin: Origin, offset: UnitOffset): FileRange {
  if (offset === 0) {
    const { range } = endpoint(origin, offset);
    return { ...range, end: range.start };
  }
  const { range } = endpoint(origin, (offset - 1) as UnitOffset);
  return { ...range, start: range.end };
}

interface Endpoint {
  /** One character of a file, or the whole of a macro use. */
  readonly range: FileRange;
  readonly site: Site | null;
}

function endpoint(origin: Origin, offset: UnitOffset): Endpoint {
  const segment = segmentAt(origin, offset);
  if (segment.kind === 'made') return segment;
  const start = (segment.range.start + (offset + origin.base - segment.offset)) as FileOffset;
  return { range: { file: segment.range.file, start, end: (start + 1) as FileOffset }, site: segment.site };
}

function segmentAt(origin: Origin, offset: UnitOffset): Segment {
  return origin.map.segments[lastAtOrBefore(origin.map.offsets, offset + origin.base)];
}

function join(first: Endpoint, last: Endpoint): FileRange {
  for (let left: Endpoint | null = first; left !== null; left = outward(left)) {
    for (let right: Endpoint | null = last; right !== null; right = outward(right)) {
      if (left.range.file !== right.range.file) continue;
      const start = Math.min(left.range.start, right.range.start) as FileOffset;
      return { file: left.range.file, start, end: Math.max(left.range.end, right.range.end) as FileOffset };
    }
  }
  return first.range;
}

/** The include directive or macro use that the endpoint stands behind. */
function outward(endpoint: Endpoint): Endpoint | null {
  return endpoint.site === null ? null : { range: endpoint.site.range, site: endpoint.site.outer };
}

function segmentEnd(segments: readonly Segment[], index: number, textEnd: number): number {
  return index + 1 < segments.length ? segments[index + 1].offset : textEnd;
}
