// Findings that a person accepts where they stand: a comment `foretick: accepted ID, REASON` (a colon will do instead of the
// comma), behind the code on its line, or on lines of its own before the line that it is about.

import { nextToken } from '../syntax/tokens';
import { type LineIndex, positionOf } from '../text/line-index';
import type { FileOffset, Span } from '../text/place';

export interface TextAcceptance {
  readonly id: string;
  readonly reason: string;
  readonly file: string;
  /** The line of the code that it is about, from one. */
  readonly line: number;
  /** The comment's words. */
  readonly span: Span;
}

export interface AcceptingFile {
  readonly path: string;
  readonly text: string;
  readonly lines: LineIndex;
}

export function acceptancesIn(files: readonly AcceptingFile[]): readonly TextAcceptance[] {
  return files.flatMap((file) => (file.text.includes('foretick:') ? acceptancesOf(file) : []));
}

function acceptancesOf(file: AcceptingFile): readonly TextAcceptance[] {
  const { lines, text } = file;
  const lineOf = (offset: number) => positionOf(lines, offset as FileOffset).line;
  const found: TextAcceptance[] = [];
  let behind = 0;
  for (;;) {
    const token = nextToken(text, behind);
    // What stands between two words is blanks and comments.
    for (const match of text.slice(behind, token.start).matchAll(written)) {
      const start = behind + match.index;
      const isBehindCode = behind > 0 && lineOf(behind - 1) === lineOf(start);
      const line = isBehindCode ? lineOf(start) : lineOf(token.start);
      const span = spanOf(file, start, start + match[0].length);
      found.push({ id: match[1], reason: match[2].trim(), file: file.path, line, span });
    }
    if (token.kind === 'end') return found;
    behind = token.end;
  }
}

const written =
  /foretick:[ \t]*accepted[ \t]+([a-z]+(?:-[a-z]+)*)[ \t]*[,:][ \t]*(\S[^\r\n]*?)(?=[ \t]*(?:\*\/|\r|\n|$))/g;

function spanOf({ lines, path }: AcceptingFile, start: number, end: number): Span {
  const [from, to] = [positionOf(lines, start as FileOffset), positionOf(lines, end as FileOffset)];
  return { file: path, line: from.line, column: from.column, endLine: to.line, endColumn: to.column };
}
