// `line, `__LINE__ and `__FILE__: what a line counts as (IEEE 1800-2017 22.12, 22.13). Findings stand where text was typed,
// whatever these say.

import { indexLines, positionOf } from '../text/line-index';
import type { FileOffset } from '../text/place';
import { type DefinitionAt, leaveBlank, note, type Run, type Source } from './expansion';
import type { Stretch } from './macros';
import { lineEnd } from './tokens';

/** `line number "file" level, level being 0, 1 or 2. Returns the offset behind it. */
export function renumber(run: Run, source: Source, directive: Stretch): number {
  const end = lineEnd(source.text, directive.end);
  const written = /^\s*(\d+)\s+"([^"]*)"\s+[012]\s*(?:\/[/*].*)?$/.exec(source.text.slice(directive.end, end));
  const offset = offsetInFile(source, directive);
  if (written === null) note(run, 'bad-directive', { directive: '`line' });
  else run.renumbered.set(source.file, { offset, line: Number(written[1]), path: written[2] });
  leaveBlank(run, source, { start: directive.start, end });
  return end;
}

/** As `line has it; inside a macro's text, that of the use. */
export function positionIn(run: Run, source: Source, at: Stretch): { readonly path: string; readonly line: number } {
  const { file, line } = lineOf(run, source, at);
  const renumbered = run.renumbered.get(file);
  if (renumbered === undefined) return { path: run.options.shelf.files[file].path, line };
  const since = line - lineAt(run, file, renumbered.offset) - 1;
  return { path: renumbered.path, line: renumbered.line + since };
}

/** The line of the file as typed, from one. */
export function lineOf(run: Run, source: Source, at: Stretch): DefinitionAt {
  return { file: source.file, line: lineAt(run, source.file, offsetInFile(source, at)) };
}

function offsetInFile(source: Source, { start }: Stretch): number {
  return source.range === null ? start : source.range.start;
}

function lineAt({ options, lineIndices }: Run, file: number, offset: number): number {
  const lines = lineIndices.get(file) ?? indexLines(options.shelf.files[file].text);
  lineIndices.set(file, lines);
  return positionOf(lines, offset as FileOffset).line;
}
