// The words of Verilog text, one at a time, without the grammar: for slicing, for finding the ends of broken
// constructs and for preprocessing. Blanks, comments and attributes are skipped. Never fails: an open string
// ends with its line, an open comment with the text.

import { isKeyword } from './keywords';

export type TokenKind = 'name' | 'keyword' | 'system' | 'directive' | 'number' | 'string' | 'mark' | 'end';

export interface Token {
  readonly kind: TokenKind;
  readonly start: number;
  readonly end: number;
}

/** The first token at or behind `from`. At the end of the text a token of kind `end` without length. */
export function nextToken(text: string, from: number): Token {
  const start = skipBlank(text, from);
  if (start >= text.length) return { kind: 'end', start: text.length, end: text.length };
  const code = text.charCodeAt(start);
  if (isWordStart(code)) return wordToken(text, start);
  if (isDigit(code)) return { kind: 'number', start, end: numberEnd(text, start) };
  if (code === quote) return { kind: 'string', start, end: stringEnd(text, start) };
  if (code === apostrophe) return basedToken(text, start);
  if (code === backslash) return { kind: 'name', start, end: blankFrom(text, start + 1) };
  if (code === dollar) return { kind: 'system', start, end: wordEnd(text, start + 1) };
  if (code === backTick) return { kind: 'directive', start, end: wordEnd(text, start + 1) };
  return { kind: 'mark', start, end: start + markLength(text, start) };
}

export function wordOf(text: string, token: Token): string {
  return text.slice(token.start, token.end);
}

/** Behind blanks, comments and attributes. */
export function skipBlank(text: string, from: number): number {
  let offset = from;
  for (;;) {
    while (offset < text.length && isBlank(text.charCodeAt(offset))) offset += 1;
    const next = skipOne(text, offset);
    if (next === offset) return offset;
    offset = next;
  }
}

/** Behind the comment or attribute at `offset`; `offset` itself where there is none. */
function skipOne(text: string, offset: number): number {
  const code = text.charCodeAt(offset);
  if (code !== slash && code !== parenthesis) return offset;
  const next = text.charCodeAt(offset + 1);
  if (code === slash && next === slash) return lineEnd(text, offset);
  if (code === slash && next === star) return commentEnd(text, offset);
  return code === parenthesis && next === star ? attributeEnd(text, offset) : offset;
}

export function lineEnd(text: string, from: number): number {
  let offset = from;
  while (offset < text.length && !isLineEnd(text.charCodeAt(offset))) offset += 1;
  return offset;
}

/** Behind the closing mark of the block comment at `start`; the end of the text where there is none. */
export function commentEnd(text: string, start: number): number {
  const close = text.indexOf('*/', start + 2);
  return close < 0 ? text.length : close + 2;
}

/** Where the text's last comment begins, if it is a block comment that nothing closes. */
export function openComment(text: string): number | null {
  let end = 0;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) end = token.end;
  for (let start = text.indexOf('/', end); start >= 0; start = text.indexOf('/', skipOne(text, start))) {
    if (text.charCodeAt(start + 1) === star && text.indexOf('*/', start + 2) < 0) return start;
  }
  return null;
}

/** Behind the string at `start`: its closing quote, or the end of its line. A backslash guards what follows it. */
export function stringEnd(text: string, start: number): number {
  let offset = start + 1;
  while (offset < text.length) {
    const code = text.charCodeAt(offset);
    if (code === quote) return offset + 1;
    if (isLineEnd(code)) return offset;
    offset += code === backslash ? 2 : 1;
  }
  return text.length;
}

/**
 * Behind the attribute at `start`; `start` where none begins: `(*)` is a sensitivity list, and a semicolon or
 * another `(*` before `*)` means that this one opened no attribute (IEEE 1364-2005 3.8).
 */
function attributeEnd(text: string, start: number): number {
  const stop = attributeStop(text, start);
  return text.charCodeAt(stop) === star ? stop + 2 : start;
}

/** Where it is told whether `(*` at `start` opens an attribute: at the closing mark's star, or at what stands against it. */
export function attributeStop(text: string, start: number): number {
  let offset = start + 2;
  while (offset < text.length && isBlank(text.charCodeAt(offset))) offset += 1;
  if (text.charCodeAt(offset) === closing) return offset;
  for (; offset < text.length; offset += 1) {
    const code = text.charCodeAt(offset);
    if (code === semicolon || (code === parenthesis && text.charCodeAt(offset + 1) === star)) return offset;
    if (code === quote) offset = stringEnd(text, offset) - 1;
    else if (code === star && text.charCodeAt(offset + 1) === closing) return offset;
  }
  return text.length;
}

function wordToken(text: string, start: number): Token {
  const end = wordEnd(text, start);
  return { kind: isKeyword(text.slice(start, end)) ? 'keyword' : 'name', start, end };
}

export function wordEnd(text: string, from: number): number {
  let offset = from;
  while (isWordPart(text.charCodeAt(offset))) offset += 1;
  return offset;
}

/** Digits, a fraction, an exponent or a time unit; a base that follows is a token of its own. */
function numberEnd(text: string, start: number): number {
  realNumber.lastIndex = start;
  realNumber.test(text);
  return realNumber.lastIndex;
}

/** 'h and its digits, which may stand behind blanks; '0; otherwise an apostrophe (with `{` one mark). */
function basedToken(text: string, start: number): Token {
  basedNumber.lastIndex = start;
  if (basedNumber.test(text)) return { kind: 'number', start, end: basedNumber.lastIndex };
  return { kind: 'mark', start, end: start + (text.charCodeAt(start + 1) === brace ? 2 : 1) };
}

function markLength(text: string, start: number): number {
  longMark.lastIndex = start;
  return longMark.test(text) ? longMark.lastIndex - start : 1;
}

function blankFrom(text: string, from: number): number {
  let offset = from;
  while (offset < text.length && !isBlank(text.charCodeAt(offset))) offset += 1;
  return offset;
}

export function isBlank(code: number): boolean {
  return code === 0x20 || (code >= 0x09 && code <= 0x0d) || code === 0xa0 || code === 0xfeff;
}

export function isLineEnd(code: number): boolean {
  return code === 0x0a || code === 0x0d;
}

export function isWordStart(code: number): boolean {
  return (code >= 0x61 && code <= 0x7a) || (code >= 0x41 && code <= 0x5a) || code === 0x5f;
}

export function isWordPart(code: number): boolean {
  return isWordStart(code) || isDigit(code) || code === dollar;
}

function isDigit(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

const quote = 0x22;
const dollar = 0x24;
const apostrophe = 0x27;
const parenthesis = 0x28;
const closing = 0x29;
const star = 0x2a;
const slash = 0x2f;
const semicolon = 0x3b;
const backslash = 0x5c;
const backTick = 0x60;
const brace = 0x7b;

const realNumber = /[0-9][0-9_]*(?:\.[0-9][0-9_]*)?(?:[eE][+-]?[0-9][0-9_]*)?(?:(?:[munpf]?s)(?![A-Za-z0-9_$]))?/y;
const basedNumber =
  /'(?:[sS]?[bB]\s*[01xXzZ?][01xXzZ?_]*|[sS]?[oO]\s*[0-7xXzZ?][0-7xXzZ?_]*|[sS]?[dD]\s*(?:[0-9][0-9_]*|[xXzZ?]_*)|[sS]?[hH]\s*[0-9a-fA-FxXzZ?][0-9a-fA-FxXzZ?_]*|[01xXzZ](?![A-Za-z0-9_$]))/y;
const longMark =
  /<<<=|>>>=|===|!==|==\?|!=\?|<<<|>>>|<<=|>>=|&&&|<->|->>|\*\*|==|!=|<=|>=|&&|\|\||<<|>>|~&|~\||~\^|\^~|\+\+|--|\+=|-=|\*=|\/=|%=|&=|\|=|\^=|\+:|-:|->|=>|\*>|::|##|\.\*/y;
