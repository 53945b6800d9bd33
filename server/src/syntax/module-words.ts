// What items read from their words alone are made of: names, places, and what goes wrong.

import { canonicalName } from './names';
import { type Remark, remark } from './remark';
import type { At, Item, Named } from './tables';
import { type Token, wordOf } from './tokens';
import type { UnitOffset } from '../text/place';

export interface ItemsRead {
  readonly items: readonly Item[];
  readonly remarks: readonly Remark[];
}

export function unexpected(text: string, token: Token): Remark {
  return remark('unexpected', { text: wordOf(text, token) }, atOf(token, token));
}

export function namedAt(text: string, token: Token): Named {
  return { ...atOf(token, token), name: canonicalName(wordOf(text, token)) };
}

export function atOf(first: Token, last: Token): At {
  return { start: first.start as UnitOffset, end: last.end as UnitOffset };
}
