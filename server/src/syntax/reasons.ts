// Why reading complains: every reason with the arguments its sentence needs. The words stand in `explain/`.
// Reasons are written `reading stage's word`, one meaning each.

import type { LimitName } from '../budget';
import type { ReadingId } from '../text/complaint';

/** What each reason carries. `text` is source text, shortened by `shortened`. */
export interface ReasonTable {
  // ------------------------------------------------ syntax
  /** A token that no reading of the text allows here. */
  readonly unexpected: { readonly text: string };
  /** Where a byte that is no UTF-8 stood in the file. */
  readonly 'bad-character': Record<never, never>;
  /** The text ended, or the construct did, before it was whole. */
  readonly 'unexpected-end': Record<never, never>;
  /** `what` should stand here. */
  readonly missing: { readonly what: string };
  /** `what` opened here is never closed; `expected` would close it. */
  readonly unclosed: { readonly what: string; readonly expected: string };
  /** Digits, base or size that make no number (IEEE 1364-2005 3.5.1). */
  readonly 'bad-number': { readonly text: string };
  /** A size of 0 before a base (IEEE 1364-2005 3.5.1: the size shall be non-zero). */
  readonly 'zero-size': { readonly text: string };
  /** A compiler directive that cannot be read. */
  readonly 'bad-directive': { readonly directive: string };
  /** A macro use with too few or too many arguments, or none. */
  readonly 'macro-arguments': { readonly name: string; readonly expected: number; readonly found: number };
  /** A macro whose text leads back to itself (IEEE 1364-2005 19.3.1). */
  readonly 'recursive-macro': { readonly name: string };
  /** A file that is a picture, a program, or text in another coding. */
  readonly 'no-text': Record<never, never>;
  /** A file that includes itself, at once or through others. */
  readonly 'recursive-include': { readonly path: string };
  // ------------------------------------------------ unsupported
  /** A construct that is recognized and not read. */
  readonly construct: { readonly what: string };
  /** A directive that changes meaning and is not obeyed. */
  readonly directive: { readonly directive: string };
  // ------------------------------------------------ limit-reached
  readonly limit: { readonly limit: LimitName; readonly value: number };
  // ------------------------------------------------ unresolved-name
  readonly 'unknown-macro': { readonly name: string };
  /** A macro whose `define is read only after the use. */
  readonly 'late-macro': { readonly name: string; readonly path: string; readonly line: number };
  /** A macro that `undef or `undefineall has taken away before the use. */
  readonly 'removed-macro': { readonly name: string };
  readonly 'missing-include': { readonly path: string };
}

export type Reason = keyof ReasonTable;

/** Under which identifier each reason is reported. */
export const readingReasons = {
  unexpected: 'syntax',
  'bad-character': 'syntax',
  'unexpected-end': 'syntax',
  missing: 'syntax',
  unclosed: 'syntax',
  'bad-number': 'syntax',
  'zero-size': 'syntax',
  'bad-directive': 'syntax',
  'macro-arguments': 'syntax',
  'recursive-macro': 'syntax',
  'no-text': 'syntax',
  'recursive-include': 'syntax',
  construct: 'unsupported',
  directive: 'unsupported',
  limit: 'limit-reached',
  'unknown-macro': 'unresolved-name',
  'late-macro': 'unresolved-name',
  'removed-macro': 'unresolved-name',
  'missing-include': 'unresolved-name',
} as const satisfies Readonly<Record<Reason, ReadingId>>;

/** Control characters, which no screen shows. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const unseen = /[\u0000-\u0008\u000e-\u001f\u007f-\u009f]/g;

function nameOfCharacter(character: string): string {
  return `U+${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Source text short enough for a sentence. */
export function shortened(text: string): string {
  const line = text.trim().replace(/\s+/g, ' ').replace(unseen, nameOfCharacter);
  return line.length <= 40 ? line : `${line.slice(0, 39)}…`;
}
