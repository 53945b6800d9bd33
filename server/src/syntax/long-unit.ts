// A module too long to be parsed: its header alone is read, and what the rest may drive is named. The parser's tree of a
// text takes some hundred times the text's own length.

import type { UnitOffset } from '../text/place';
import { namesDrivenIn } from './driven-names';
import { readModuleUnit } from './module-unit';
import { remark } from './remark';
import type { Item } from './tables';
import { nextToken, wordOf } from './tokens';
import type { ReadingTools, UnitReading } from './unit-reading';
import type { UnitSlice } from './units';

/** In one module. Its tree then takes less than a gigabyte. */
export const mostWords = 1_500_000;

export function readModuleOfAnyLength(unit: UnitSlice, tools: ReadingTools): UnitReading {
  const { text, slice, noted } = unit;
  if (!isTooLong(text)) return readModuleUnit(unit, tools);
  const end = headerEnd(text);
  const head = { ...unit, text: text.slice(0, end), slice: { ...slice, closed: false } };
  const { table, remarks } = readModuleUnit({ ...head, noted: noted.filter(({ at }) => at.end <= end) }, tools);
  const rest = { start: end as UnitOffset, end: text.length as UnitOffset };
  const hole: Item = { kind: 'hole', at: rest, names: namesDrivenIn(text, rest) };
  const place = { start: 0 as UnitOffset, end: nextToken(text, nextToken(text, 0).end).end as UnitOffset };
  return {
    table: table.kind === 'module' ? { ...table, items: [...table.items, hole] } : table,
    // That the text was cut here is no mistake of its writer's.
    remarks: [...remarks.filter(({ reason }) => reason !== 'unclosed'), remark('construct', { what: tooLong }, place)],
  };
}

export const tooLong = `text of more than ${mostWords} words in one piece`;

/** A word has a character at least. */
export function isTooLong(text: string): boolean {
  if (text.length <= mostWords) return false;
  let words = 0;
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) {
    words += 1;
    if (words > mostWords) return true;
  }
  return false;
}

function headerEnd(text: string): number {
  let token = nextToken(text, 0);
  while (token.kind !== 'end' && wordOf(text, token) !== ';') token = nextToken(text, token.end);
  return token.end;
}
