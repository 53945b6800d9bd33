// Macros as `define writes them (IEEE 1364-2005 19.3.1, arguments with defaults from IEEE 1800-2017 22.5.1),
// and the arguments of a use. Works on text alone; nothing is expanded here.

import { commentEnd, isBlank, isWordStart, lineEnd, stringEnd, wordEnd } from './tokens';

export interface Macro {
  readonly name: string;
  /** Null for a macro without parentheses. */
  readonly parameters: readonly Parameter[] | null;
  readonly body: MacroText;
}

export interface Parameter {
  readonly name: string;
  readonly fallback: MacroText | null;
}

/** Text of a definition, character for character as written; comments and what carries lines on are blanks. */
export interface MacroText {
  readonly text: string;
  /** Offset of its first character in the text that holds the definition. */
  readonly start: number;
}

/** A stretch of text, end exclusive. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Reads what follows the word `define. Null macro: no name, or parameters that are not closed or not names. */
export function readDefinition(text: string, from: number): { readonly macro: Macro | null; readonly end: number } {
  const start = skipLineBlank(text, from);
  const named = wordEnd(text, start);
  if (!isWordStart(text.charCodeAt(start))) return { macro: null, end: readBody(text, start).end };
  const name = text.slice(start, named);
  if (text[named] !== '(') return withBody(text, named, { name, parameters: null });
  const list = readArguments(text, named);
  if (list === null) return { macro: null, end: readBody(text, named).end };
  const parameters = list.items.map((item) => readParameter(text, item));
  const isEmpty = parameters.length === 1 && parameters[0].name === '';
  const whole = withBody(text, list.end, { name, parameters: isEmpty ? [] : parameters });
  return isEmpty || areNames(parameters) ? whole : { macro: null, end: whole.end };
}

/** Each a word, and none twice. */
function areNames(parameters: readonly Parameter[]): boolean {
  const names = parameters.map(({ name }) => name);
  return new Set(names).size === names.length && names.every((name) => /^[A-Za-z_][A-Za-z0-9_$]*$/.test(name));
}

/** The arguments of a use, `open` being at its parenthesis. Null where no closing one is found. */
export function readArguments(
  text: string,
  open: number,
): { readonly items: readonly Stretch[]; readonly end: number } | null {
  const items: Stretch[] = [];
  let depth = 0;
  let start = open + 1;
  for (let offset = open; offset < text.length; offset = nextMark(text, offset)) {
    const mark = text[offset];
    if (mark === '(' || mark === '[' || mark === '{') depth += 1;
    else if (mark === ',' && depth === 1) {
      items.push(trimmed(text, start, offset));
      start = offset + 1;
    } else if (mark === ')' || mark === ']' || mark === '}') {
      depth -= 1;
      if (depth === 0) return { items: [...items, trimmed(text, start, offset)], end: offset + 1 };
    }
  }
  return null;
}

/** Behind blanks that do not end the line. */
export function skipLineBlank(text: string, from: number): number {
  const end = lineEnd(text, from);
  let offset = from;
  while (offset < end && isBlank(text.charCodeAt(offset))) offset += 1;
  return offset;
}

function withBody(
  text: string,
  from: number,
  head: Omit<Macro, 'body'>,
): { readonly macro: Macro; readonly end: number } {
  const { body, end } = readBody(text, from);
  return { macro: { ...head, body }, end };
}

/** Up to the end of the line, a backslash before it carrying on; comments are not part of it. */
function readBody(text: string, from: number): { readonly body: MacroText; readonly end: number } {
  const pieces: string[] = [];
  let offset = from;
  while (offset < text.length) {
    const next = bodyMark(text, offset);
    pieces.push(text.slice(offset, next));
    const mark = next < text.length ? readBodyMark(text, next) : null;
    offset = mark === null ? next : mark.end;
    if (mark === null) break;
    pieces.push(mark.isText ? text.slice(next, mark.end) : blanked(text.slice(next, mark.end)));
  }
  const whole = pieces.join('');
  const body = { text: whole.trim(), start: from + whole.length - whole.trimStart().length };
  return { body, end: Math.min(offset, text.length) };
}

/** Line ends stay, and so do all offsets. */
function blanked(text: string): string {
  return text.replace(/[^\r\n]/g, ' ');
}

/** How far the mark at `offset` reaches, and whether it is text of the body; null where it ends the body. */
function readBodyMark(text: string, offset: number): { readonly isText: boolean; readonly end: number } | null {
  const carried = carriedLine(text, offset);
  if (carried > offset) return { isText: false, end: carried };
  const two = text.slice(offset, offset + 2);
  if (two === '//') return { isText: false, end: behindLineComment(text, offset) };
  if (two === '/*') return { isText: false, end: commentEnd(text, offset) };
  if (text[offset] === '"') return { isText: true, end: stringEnd(text, offset) };
  return text[offset] === '\n' || text[offset] === '\r' ? null : { isText: true, end: offset + 1 };
}

/** Behind a backslash and the line end it guards; `offset` where there is none. */
function carriedLine(text: string, offset: number): number {
  if (text[offset] !== '\\') return offset;
  if (text[offset + 1] === '\r' && text[offset + 2] === '\n') return offset + 3;
  return text[offset + 1] === '\n' || text[offset + 1] === '\r' ? offset + 2 : offset;
}

/** A backslash at the end of a one-line comment still carries the definition on. */
function behindLineComment(text: string, offset: number): number {
  const end = lineEnd(text, offset);
  return text[end - 1] === '\\' ? carriedLine(text, end - 1) : end;
}

function bodyMark(text: string, from: number): number {
  let offset = from;
  while (offset < text.length && !'\\/"\n\r'.includes(text[offset])) offset += 1;
  return offset;
}

/** A name, and behind `=` the text it falls back on. */
function readParameter(text: string, { start, end }: Stretch): Parameter {
  const written = withoutComments(text, { start, end });
  const sign = written.indexOf('=');
  if (sign < 0) return { name: written.trim(), fallback: null };
  const fallback = trimmed(text, start + sign + 1, end);
  return {
    name: written.slice(0, sign).trim(),
    fallback: { text: withoutComments(text, fallback), start: fallback.start },
  };
}

/** The stretch with comments, and backslashes before line ends, as blanks. */
function withoutComments(text: string, { start, end }: Stretch): string {
  const pieces: string[] = [];
  for (let offset = start; offset < end; ) {
    const next = Math.min(bodyMark(text, offset), end);
    const mark = next < end ? readBodyMark(text, next) : null;
    const stop = Math.min(mark?.end ?? next + 1, end);
    const piece = text.slice(next, stop);
    pieces.push(text.slice(offset, next), mark?.isText === true ? piece : blanked(piece));
    offset = stop;
  }
  return pieces.join('');
}

/** The next character that may matter to a list of arguments. */
function nextMark(text: string, offset: number): number {
  let next = offset + 1;
  if (text[offset] === '"') next = Math.max(next, stringEnd(text, offset));
  else if (text[offset] === '/' && text[offset + 1] === '/') next = lineEnd(text, offset);
  else if (text[offset] === '/' && text[offset + 1] === '*') next = commentEnd(text, offset);
  while (next < text.length && !'()[]{},"/'.includes(text[next])) next += 1;
  return next;
}

/** Without the blanks around it (IEEE 1800-2017 22.5.1). */
function trimmed(text: string, start: number, end: number): Stretch {
  let first = start;
  let last = end;
  while (first < last && isBlank(text.charCodeAt(first))) first += 1;
  while (last > first && isBlank(text.charCodeAt(last - 1))) last -= 1;
  return { start: first, end: last };
}
