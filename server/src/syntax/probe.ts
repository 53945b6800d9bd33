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

interface Stretch extends Pick<Construct, 'start' | 'end'> {
  readonly kind: Construct['kind'] | 'parameter' | 'port';
}

/** Whether the grammar reads the stretch as it is with those edits. Once the work is used up, nothing is whole. */
export function isWhole(tools: ProbeTools, stretch: Stretch, edits: readonly Edit[]): boolean {
  const edited = editedStretch(tools, stretch, edits);
  if (tools.work < 0) return false;
  const [before, after] = frames[stretch.kind];
  return !isDamaged(tools.parser, before + edited.text + after);
}

/** Where reading fails; null where the stretch is whole. Several times the cost of `isWhole`. */
export function probe(tools: ProbeTools, stretch: Stretch, edits: readonly Edit[]): Failing | null {
  const { start, end, kind } = stretch;
  const edited = editedStretch(tools, stretch, edits);
  if (tools.work < 0) return { start: end, end };
  const failing = failingIn(tools.parser, edited, frames[kind]);
  return failing === null ? null : { start: start + failing.start, end: start + failing.end };
}

function editedStretch(tools: ProbeTools, { start, end }: Stretch, edits: readonly Edit[]): EditedText {
  const inside = editsWithin(edits, start, end);
  const moved = inside.map((edit) => ({ ...edit, start: edit.start - start, end: edit.end - start }));
  const edited = applyEdits(tools.text.slice(start, end), moved);
  tools.work -= edited.text.length;
  return edited;
}

/** The same for the unit as a whole; not counted as work. */
export function probeWhole({ parser, text }: ProbeTools, edits: readonly Edit[]): Failing | null {
  const edited = applyEdits(text, edits);
  return isDamaged(parser, edited.text) ? failingIn(parser, edited, ['', '']) : null;
}

function failingIn(
  parser: SliceParser,
  edited: EditedText,
  [before, after]: readonly [string, string],
): Failing | null {
  const failure = parser.firstFailure(before + edited.text + after);
  if (failure === null) return null;
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
const frames: Readonly<Record<Stretch['kind'], readonly [string, string]>> = {
  header: ['', '\nendmodule'],
  item: ['module m(p);\n', '\nendmodule'],
  statement: ['module m(p);initial begin\n', '\nend endmodule'],
  one: ['module m(p);initial\n', '\nendmodule'],
  // Never whole: an expression is awaited.
  stray: ['module m(p); assign p =\n', '\np; endmodule'],
  declaration: ['module m(p);\nfunction f;\n', '\nbegin end endfunction endmodule'],
  parameter: ['module m #(\n', '\n)(); endmodule'],
  port: ['module m(\n', '\n); endmodule'],
};
