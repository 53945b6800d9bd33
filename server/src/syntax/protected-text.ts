// Text that its owner has made unreadable: `pragma protect begin_protected … end_protected (IEEE 1364-2005 clause 28), and
// between `protected and `endprotected, which are common practice (no source). It is passed over, and said.

import { leaveBlank, note, type Run, type Source } from './expansion';
import type { Stretch } from './macros';
import { lineEnd } from './tokens';

/** Returns the offset behind what is protected, or behind a directive that only marks it; null for any other directive. */
export function skipProtected(run: Run, source: Source, directive: Stretch): number | null {
  const { text } = source;
  const line = text.slice(directive.start, lineEnd(text, directive.end));
  if (marking.test(line)) return leave(run, source, { ...directive, end: directive.end });
  const envelope = envelopes.find(({ opening }) => opening.test(line));
  if (envelope === undefined) return null;
  envelope.closing.lastIndex = directive.end;
  const isClosed = envelope.closing.test(text);
  const end = isClosed ? envelope.closing.lastIndex : text.length;
  if (isClosed) note(run, 'construct', { what: 'protected text' });
  else note(run, 'unclosed', { what: 'protected text', expected: envelope.expected });
  return leave(run, source, { start: directive.start, end });
}

function leave(run: Run, source: Source, stretch: Stretch): number {
  leaveBlank(run, source, stretch);
  return stretch.end;
}

/** They stand around text that is still plain. */
const marking = /^`(?:protect|endprotect)\b/;

const envelopes: readonly { readonly opening: RegExp; readonly closing: RegExp; readonly expected: string }[] = [
  {
    opening: /^`pragma\s+protect\s+begin_protected\b/,
    closing: /`pragma\s+protect\s+end_protected\b/g,
    expected: '`pragma protect end_protected',
  },
  { opening: /^`protected\b/, closing: /`endprotected\b/g, expected: '`endprotected' },
];
