// Macros as `define writes them (IEEE 1364-2005 19.3.1, arguments with defaults from IEEE 1800-2017 22.5.1),
// and the arguments of a use. Works on text alone; nothing is expanded here.

import { commentEnd, isBlank, isWordStart, lineEnd, stringEnd, wordEnd } from './tokens';

export interface Macro {
  readonly name: string;
  /** Null for a macro without parentheses. */
  readonly parameters: readonly Parameter[] | null;
  readonly body: string;
}

export interface Parameter {
  readonly name: string;
  readonly fallback: string | null;
}

/** A stretch of text, end exclusive. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Reads what follows the word `define. Null macro: no name, or parameters that are not closed. */
export function readDefinition(text: string, from: number): { readonly macro: Macro | null; readonly end: number } {
  const start = skipLineBlank(text, from);
  const named = wordEnd(text, start);
  if (!isWordStart(text.charCodeAt(start))) return { macro: null, end: readBody(text, start).end };
  const name = text.slice(start, named);
  if (text[named] !== '(') return withBody(text, named, { name, parameters: null });
  const list = readArguments(text, named);
  if (list === null) return { macro: null, end: readBody(text, named).end };
  const parameters = list.items.map((item) => readParameter(text.slice(item.start, item.end)));
  const isEmpty = parameters.length === 1 && parameters[0].name === '';
  return withBody(text, list.end, { name, parameters: isEmpty ? [] : parameters });
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
function readBody(text: string, from: number): { readonly body: string; readonly end: number } {
  let body = '';
  let offset = from;
  for (;;) {
    const next = bodyMark(text, offset);
    body += text.slice(offset, next);
    if (next >= text.length) return { body: body.trim(), end: text.length };
    const step = readBodyMark(text, next);
    if (step === null) return { body: body.trim(), end: next };
    body += step.text;
    offset = step.end;
  }
}

/** What the mark at `offset` adds to the body; null where it ends the body. */
function readBodyMark(text: string, offset: number): { readonly text: string; readonly end: number } | null {
  const carried = carriedLine(text, offset);
  if (carried > offset) return { text: '\n', end: carried };
  const two = text.slice(offset, offset + 2);
  if (two === '//') return skipLineComment(text, offset);
  if (two === '/*') return { text: ' ', end: commentEnd(text, offset) };
  if (text[offset] === '"') return { text: text.slice(offset, stringEnd(text, offset)), end: stringEnd(text, offset) };
  return text[offset] === '\n' || text[offset] === '\r' ? null : { text: text[offset], end: offset + 1 };
}

/** Behind a backslash and the line end it guards; `offset` where there is none. */
function carriedLine(text: string, offset: number): number {
  if (text[offset] !== '\\') return offset;
  if (text[offset + 1] === '\r' && text[offset + 2] === '\n') return offset + 3;
  return text[offset + 1] === '\n' || text[offset + 1] === '\r' ? offset + 2 : offset;
}

/** A backslash at the end of a one-line comment still carries the definition on. */
function skipLineComment(text: string, offset: number): { readonly text: string; readonly end: number } {
  const end = lineEnd(text, offset);
  return text[end - 1] === '\\' ? { text: '\n', end: carriedLine(text, end - 1) } : { text: '', end };
}

function bodyMark(text: string, from: number): number {
  let offset = from;
  while (offset < text.length && !'\\/"\n\r'.includes(text[offset])) offset += 1;
  return offset;
}

function readParameter(written: string): Parameter {
  const sign = written.indexOf('=');
  if (sign < 0) return { name: written.trim(), fallback: null };
  return { name: written.slice(0, sign).trim(), fallback: written.slice(sign + 1).trim() };
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
