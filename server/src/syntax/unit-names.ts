// Names such as `s` and `ns` behind a number and a blank. A time literal holds no blank (IEEE 1800-2017 5.8), so that
// `#1 s = 0` is a delay and an assignment; the grammar takes the two for a time.

import type { Edit } from './edits';
import { nextToken, wordOf } from './tokens';

/** Renames them for the grammar; the tables take their names from the text as it was. */
export function namesBehindNumbers(text: string): readonly Edit[] {
  const edits: Edit[] = [];
  // Hardly a module has one: a look at the letters is cheaper than one at the words.
  if (!perhaps.test(text)) return edits;
  let before = nextToken(text, 0);
  let keyword = '';
  for (let token = nextToken(text, before.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = wordOf(text, token);
    if (token.kind === 'keyword') keyword = word;
    // `timeunit 1 ns;` is no name's place, and is read although the standard allows no blank there.
    const isName = token.kind === 'name' && keyword !== 'timeunit' && keyword !== 'timeprecision';
    if (isName && before.kind === 'number' && token.start > before.end && units.has(word))
      edits.push({ start: token.start, end: token.end, text: `${word}_name`, owner: token.start });
    before = token;
  }
  return edits;
}

const units: ReadonlySet<string> = new Set(['s', 'ms', 'us', 'ns', 'ps', 'fs']);
const perhaps = /\b[munpf]?s\b/;
