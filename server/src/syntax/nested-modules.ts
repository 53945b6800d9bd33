// Modules that stand inside another one (IEEE 1800-2017 23.4): recognized, said, and left blank.

import type { UnitOffset } from '../text/place';
import type { Edit } from './edits';
import { type Remark, remark } from './remark';
import { nestedEnd } from './slices';
import { nextToken, wordOf } from './tokens';

/** `text` begins with the outer module's keyword. */
export function blankNested(text: string, remarks: Remark[]): readonly Edit[] {
  const edits: Edit[] = [];
  // Most modules hold one closing word, and are not looked through.
  if (text.indexOf('endmodule') === text.lastIndexOf('endmodule')) return edits;
  const first = nextToken(text, 0);
  for (let token = nextToken(text, first.end); token.kind !== 'end'; token = nextToken(text, token.end)) {
    const word = token.kind === 'keyword' ? wordOf(text, token) : '';
    if (word !== 'module' && word !== 'macromodule') continue;
    const end = nestedEnd(text, token);
    if (end === null) continue;
    const name = nextToken(text, token.end);
    const at = { start: token.start as UnitOffset, end: name.end as UnitOffset };
    remarks.push(remark('construct', { what: `module ${wordOf(text, name)} inside another module` }, at));
    edits.push({ start: token.start, end, text: ' ', owner: token.start });
    token = { ...token, end };
  }
  return edits;
}
