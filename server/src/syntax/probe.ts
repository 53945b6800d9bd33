// Asks the grammar about one construct by itself: whole or damaged, and at which token. The construct is
// parsed inside the smallest module that could hold it, with the edits that lie in it.

import { applyEdits, type Edit, type EditedText, editsWithin } from './edits';
import type { SliceParser } from './slice-parser';
import type { Construct } from './word-walk';

export interface ProbeTools {
  readonly parser: SliceParser;
  readonly text: string;
  /** Characters that may still be parsed for mending this unit. */
  work: number;
}

/** Offset, in the unit's text, of the token that no reading allows; the end where the text ran out. */
export interface Failing {
  readonly start: number;
  readonly end: number;
}

/** Null where the stretch is whole. Once the work is used up everything counts as damaged. */
export function probe(
  tools: ProbeTools,
  { start, end, kind }: Pick<Construct, 'start' | 'end' | 'kind'>,
  edits: readonly Edit[],
): Failing | null {
  const inside = editsWithin(edits, start, end);
  const moved = inside.map((edit) => ({ ...edit, start: edit.start - start, end: edit.end - start }));
  const edited = applyEdits(tools.text.slice(start, end), moved);
  tools.work -= edited.text.length;
  if (tools.work < 0) return { start: end, end };
  const failing = failingIn(tools.parser, edited, frames[kind]);
  return failing === null ? null : { start: start + failing.start, end: start + failing.end };
}

/** The same for the unit as a whole; not counted as work. */
export function probeWhole({ parser, text }: ProbeTools, edits: readonly Edit[]): Failing | null {
  return failingIn(parser, applyEdits(text, edits), ['', '']);
}

function failingIn(
  parser: SliceParser,
  edited: EditedText,
  [before, after]: readonly [string, string],
): Failing | null {
  const framed = before + edited.text + after;
  if (!isDamaged(parser, framed)) return null;
  const failure = parser.firstFailure(framed) ?? { start: framed.length, end: framed.length };
  const toUnit = edited.openMap();
  const inside = (offset: number) => Math.max(0, Math.min(offset - before.length, edited.text.length));
  const start = toUnit(inside(failure.start));
  return { start, end: Math.max(start, toUnit(inside(failure.end))) };
}

function isDamaged(parser: SliceParser, text: string): boolean {
  const tree = parser.parse(text);
  const { hasError } = tree.rootNode;
  tree.delete();
  return hasError;
}

/** A non-ANSI header lets port declarations stand among the items. */
const frames: Readonly<Record<Construct['kind'], readonly [string, string]>> = {
  header: ['', '\nendmodule'],
  item: ['module m(p);\n', '\nendmodule'],
  statement: ['module m(p);initial begin\n', '\nend endmodule'],
};
