// The parameters of a macro where its text is read as words and not passed on: the name behind a directive, and a
// definition inside a macro's text. Each stands for what the use gave it.

import type { Source } from './expansion';
import { skipLineBlank, type Stretch } from './macros';
import { isWordStart, stringEnd, wordEnd } from './tokens';

/** The name on the line from `from` on, and where it ends in the source; null where none stands there. */
export function nameBehind(source: Source, from: number): { readonly name: string | null; readonly end: number } {
  const start = skipLineBlank(source.text, from);
  if (!isWordStart(source.text.charCodeAt(start))) return { name: null, end: from };
  const end = wordEnd(source.text, start);
  const [name = ''] = /^[A-Za-z_][A-Za-z0-9_$]*/.exec(withFormals(source, { start, end }).trim()) ?? [];
  return name === '' ? { name: null, end: from } : { name, end };
}

/** The stretch with what its parameters stand for; strings stay as they are (IEEE 1364-2005 19.3.1). */
export function withFormals({ text, formals }: Source, { start, end }: Stretch): string {
  const pieces: string[] = [];
  for (let offset = start; offset < end; ) {
    const isWord = isWordStart(text.charCodeAt(offset));
    const isString = text[offset] === '"';
    const next = Math.min(end, isWord ? wordEnd(text, offset) : isString ? stringEnd(text, offset) : offset + 1);
    const piece = text.slice(offset, next);
    const chunks = isWord ? formals.get(piece) : undefined;
    pieces.push(chunks === undefined ? piece : chunks.map((chunk) => chunk.text).join(''));
    offset = next;
  }
  return pieces.join('');
}
