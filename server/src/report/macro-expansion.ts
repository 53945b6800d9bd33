// What a use of a macro has become in the text that is read.

import { readArguments, skipLineBlank } from '../syntax/macros';
import type { Reading, Unit } from '../syntax/read';
import { wordEnd } from '../syntax/tokens';
import type { FileRange } from '../text/place';

/** `offset`: of the back tick, in the file as typed. Null where nothing was made of it. */
export function macroExpansion({ files, units }: Reading, path: string, offset: number): string | null {
  const file = files.findIndex((each) => each.path === path);
  if (file < 0) return null;
  const { text } = files[file];
  for (const unit of units) {
    const end = useEnd(unit, file, offset) ?? argumentsEnd(text, offset);
    const isInside = (range: FileRange) => range.file === file && range.start >= offset && range.start < end;
    const made = madeIn(unit, isInside);
    if (made !== null) return made.replace(/\s+/g, ' ').trim();
  }
  return null;
}

/** What the macro's own text, where it has any, tells of the use; null where it has none. */
function useEnd({ origin }: Unit, file: number, offset: number): number | null {
  const own = origin.map.segments.find(
    ({ kind, range }) => kind === 'made' && range.file === file && range.start === offset,
  );
  return own?.range.end ?? null;
}

/** Behind the arguments, if there are any. */
function argumentsEnd(text: string, offset: number): number {
  const end = wordEnd(text, offset + 1);
  const open = skipLineBlank(text, end);
  return text[open] === '(' ? (readArguments(text, open)?.end ?? end) : end;
}

/** Text of the macro and its arguments, which keep the place where they are written, stand side by side. */
function madeIn({ origin, text }: Unit, isInside: (range: FileRange) => boolean): string | null {
  const { base, map } = origin;
  let made: string | null = null;
  for (const [index, { offset: start, range }] of map.segments.entries()) {
    const end = map.segments[index + 1]?.offset ?? base + text.length;
    if (start >= base && end <= base + text.length && isInside(range))
      made = (made ?? '') + text.slice(start - base, end - base);
  }
  return made;
}
