// A file made to be included, read by itself: macros of whoever includes it are not there, and its text may be the inside
// of a module. None of that is a mistake. Only what is wrong wherever the file is included is said.

import type { Reason } from './reasons';
import type { Remark } from './remark';

/** By the ending of its name, as is common practice (no source). */
export function isHeader(path: string): boolean {
  return /\.s?vh$/i.test(path);
}

/** Of text outside every unit: inside one, a design is read, and what is unknown there leaves a hole in it. */
export function saidOfHeader(remarks: readonly Remark[]): readonly Remark[] {
  return remarks.filter(({ reason }) => !ofIncluder.has(reason));
}

/** What the text around the include decides. */
const ofIncluder: ReadonlySet<Reason> = new Set<Reason>([
  'unknown-macro',
  'late-macro',
  'removed-macro',
  'unexpected',
  'unexpected-end',
  'missing',
  'construct',
]);
