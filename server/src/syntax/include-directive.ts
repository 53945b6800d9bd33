// `include: finds the file among those at hand and hands its text on, or says what is missing.

import type { Site } from '../text/origin';
import { leaveBlank, makeText, note, type Run, type Source, typedRange } from './expansion';
import { firstOffset } from '../text/line-index';
import { type FirstPlace, includeCandidates } from './includes';
import type { Stretch } from './macros';

/** Expands a stretch of a source; handed in, since the text of an include is expanded like any other. */
export type Expander = (run: Run, source: Source, stretch: Stretch) => void;

export interface WrittenInclude extends Stretch {
  /** The name between quotes or angle brackets, null where none could be read. */
  readonly written: string | null;
  /** Where it is looked for first. */
  readonly place: FirstPlace;
}

export function includeFile(run: Run, source: Source, directive: WrittenInclude, expand: Expander): void {
  const { written } = directive;
  if (written === null) note(run, 'bad-directive', { directive: '`include' });
  const file = written === null ? null : findFile(run, source, written, directive.place);
  if (written !== null && file === null) note(run, 'missing-include', { path: written });
  const enters = file !== null && mayEnter(run, source, file, written ?? '');
  leaveBlank(run, source, directive);
  if (!enters || file === null) return;
  const { text } = run.options.shelf.files[file];
  run.renumbered.delete(file);
  const range = typedRange(source, directive);
  const site: Site = { kind: 'include', name: written ?? '', range, outer: source.site };
  const inner: Source = {
    ...source,
    kind: 'file',
    text,
    file,
    site,
    range: null,
    written: null,
    formals: new Map(),
    includeDepth: source.includeDepth + 1,
  };
  expand(run, inner, { start: firstOffset(text), end: text.length });
  // A comment on the last line of the file ends with the file.
  makeText(run, source, directive, '\n');
}

function findFile(run: Run, source: Source, written: string, place: FirstPlace): number | null {
  const { shelf, includeFolders } = run.options;
  const candidates = includeCandidates(shelf.files[source.file].path, written, includeFolders, place);
  for (const path of candidates) {
    const file = shelf.find(path);
    if (file !== null) return file;
  }
  for (const path of candidates) run.wanted.add(path);
  return null;
}

/** Deeper than this expansion would itself run out of stack, whatever the setting. */
const deepestInclude = 200;

/** Including deeper than the limit is refused, and a file that got there through itself is not tried again. */
function mayEnter(run: Run, source: Source, file: number, path: string): boolean {
  if (run.refused.has(file)) return false;
  const includeDepth = Math.min(run.options.limits.includeDepth, deepestInclude);
  if (source.includeDepth < includeDepth) return true;
  if (isInside(source, file)) note(run, 'recursive-include', { path });
  else note(run, 'limit', { limit: 'includeDepth', value: includeDepth });
  run.refused.add(file);
  return false;
}

function isInside(source: Source, file: number): boolean {
  if (source.file === file) return true;
  for (let site = source.site; site !== null; site = site.outer) if (site.range.file === file) return true;
  return false;
}
