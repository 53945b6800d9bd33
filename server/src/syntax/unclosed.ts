// What to say of a unit or a comment that the text never closes.

import type { UnitOffset } from '../text/place';
import { type Remark, remark } from './remark';
import { nextToken, wordOf } from './tokens';
import type { UnitSlice } from './units';

/** The text ends here because a limit did, which has been said. */
export function isCut({ noted }: UnitSlice): boolean {
  return noted.some((each) => each.reason === 'limit');
}

/** At the unit's keyword and name. */
export function unclosedUnit({ text, slice }: UnitSlice): Remark {
  const opening = nextToken(text, 0);
  const name = nextToken(text, opening.end);
  const end = name.kind === 'name' ? name.end : opening.end;
  // An interface and a package are read in the form of a module.
  const word = slice.what === 'module' ? wordOf(text, opening) : slice.what;
  const expected = slice.what === 'module' ? 'endmodule' : `end${word}`;
  return remark('unclosed', { what: word, expected }, { start: opening.start as UnitOffset, end: end as UnitOffset });
}

export function unclosedComment(text: string, start: number): Remark {
  const end = Math.min(text.length, start + 2);
  return remark(
    'unclosed',
    { what: 'comment', expected: '*/' },
    { start: start as UnitOffset, end: end as UnitOffset },
  );
}
