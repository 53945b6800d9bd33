// Reading: files in, tables out, with every complaint about their text. Each file is expanded, cut into
// units, and each unit read by itself; a unit's key tells whether an earlier reading of it still holds.

import type { Limits } from '../budget';
import type { Complaint } from '../text/complaint';
import { indexLines } from '../text/line-index';
import { type IndexedFile, mapOrigins, type Origin } from '../text/origin';
import type { FileOffset } from '../text/place';
import type { SourceFile } from '../text/source';
import { complaintOf } from './remark';
import type { SliceParser } from './slice-parser';
import { sliceUnits } from './slices';
import type { UnitTable } from './tables';
import { readUnit } from './unit';

export interface ReadOptions {
  /** Macros that stand defined before the first file, by name. */
  readonly defines: Readonly<Record<string, string>>;
  /** Where includes are looked for after the including file's own folder, with `/`. */
  readonly includeFolders: readonly string[];
  readonly limits: Limits;
  /** Files at hand for includes that are not themselves compiled. */
  readonly provided: readonly SourceFile[];
}

export interface Unit {
  readonly table: UnitTable;
  /** The unit's expanded text, which places index. */
  readonly text: string;
  /** Index into the reading's files: the file it was compiled from. */
  readonly file: number;
  readonly key: string;
  readonly origin: Origin;
}

export interface ReadFile extends SourceFile, IndexedFile {}

export interface Reading {
  /** Those given, in their order, then those included. */
  readonly files: readonly ReadFile[];
  /** In source order; a place's `unit` is the index in this list. */
  readonly units: readonly Unit[];
  /** Ordered by unit and offset. */
  readonly complaints: readonly Complaint[];
  /** Paths where an include that is not at hand may be found, in the order to try them. */
  readonly wanted: readonly string[];
}

/** Yields after each unit. */
export function* readFiles(
  files: readonly SourceFile[],
  options: ReadOptions,
  parser: SliceParser,
): Generator<void, Reading> {
  const units: Unit[] = [];
  const complaints: Complaint[] = [];
  for (const [index, file] of files.entries()) {
    const map = mapOrigins([
      { offset: 0, kind: 'copied', range: { file: index, start: 0 as FileOffset, end: file.text.length as FileOffset }, site: null },
    ]);
    for (const slice of sliceUnits(file.text)) {
      if (slice.what === 'loose') continue;
      const text = file.text.slice(slice.start, slice.end);
      const inForce = { celldefine: false, timeUnit: null, timePrecision: null, defaultNet: 'wire' } as const;
      const reading = readUnit({ what: slice.what, text, inForce }, parser, options.limits);
      complaints.push(...reading.remarks.map((remark) => complaintOf(remark, units.length)));
      units.push({ table: reading.table, text, file: index, key: text, origin: { map, base: slice.start } });
      yield;
    }
  }
  return { files: files.map((file) => ({ ...file, lines: indexLines(file.text) })), units, complaints, wanted: [] };
}
