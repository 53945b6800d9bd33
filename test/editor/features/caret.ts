// Documents for tests of the editor's features: `/*here*/` is the caret and is taken out of the text; answers are read as
// the text that they cover, so that no test counts columns.

import type { Position, Range } from 'vscode-languageserver';
import { offsetAt } from '../../../server/src/editor/features/positions';
import { indexLines, positionOf } from '../../../server/src/text/line-index';
import type { FileOffset } from '../../../server/src/text/place';
import type { Study } from '../../../server/src/report/study';
import { type ReportOptions, studyOf, toEnd } from '../../tools/report-of';

export const document = 'file:///project/a.v';

export interface Opened {
  readonly study: Study;
  readonly text: string;
  /** Where the mark stood; the start of the text where there is none. */
  readonly caret: Position;
}

/** `more`: further files by URI. */
export async function open(
  marked: string,
  more: Readonly<Record<string, string>> = {},
  options: ReportOptions = {},
): Promise<Opened> {
  const at = Math.max(0, marked.indexOf(mark));
  const text = marked.replace(mark, '');
  const others = Object.entries(more).map(([path, content]) => ({ path, text: content }));
  const study = await studyOf([{ path: document, text }, ...others], options);
  return { study, text, caret: positionIn(text, at) };
}

export function positionIn(text: string, offset: number): Position {
  const { column, line } = positionOf(indexLines(text), offset as FileOffset);
  return { line: line - 1, character: column - 1 };
}

/** The text that a range covers, with the line it stands on, from one: `3 clk`. */
export function covered(text: string, { end, start }: Range): string {
  return `${start.line + 1} ${text.slice(offsetAt(text, start), offsetAt(text, end))}`;
}

export const run = toEnd;

const mark = '/*here*/';
