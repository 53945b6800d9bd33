// Where things stand in a unit's text: the process around a place, the line it begins on, words between two places.

import type { Item, ModuleTable } from '../syntax/tables';
import type { Reading } from '../syntax/read';
import { nextToken, wordOf } from '../syntax/tokens';
import type { Place } from '../text/place';

export type ProcessItem = Extract<Item, { kind: 'process' }>;

export function moduleAt({ units }: Reading, { unit }: Place): ModuleTable | null {
  const { table } = units[unit];
  return table.kind === 'module' ? table : null;
}

/** The process that a place stands in, generate blocks left out: what one text makes several times is not rewritten. */
export function processAt(reading: Reading, place: Place): ProcessItem | null {
  const items = moduleAt(reading, place)?.items ?? [];
  const found = items.find(
    (item) => item.kind === 'process' && item.at.start <= place.start && place.end <= item.at.end,
  );
  return found?.kind === 'process' ? found : null;
}

/** The blanks at the beginning of the line that an offset stands on. */
export function indentationAt(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))?.[0] ?? '';
}

/** The line end that the text uses. */
export function lineEndOf(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

/** Offset of the first of these words in [from, to); null where there is none. Comments and strings are passed over. */
export function findWord(text: string, words: readonly string[], from: number, to: number): number | null {
  for (
    let token = nextToken(text, from);
    token.kind !== 'end' && token.start < to;
    token = nextToken(text, token.end)
  ) {
    if (words.includes(wordOf(text, token))) return token.start;
  }
  return null;
}

/** A name that stands nowhere in the text: the one wished for, or the same with a number. */
export function freeName(text: string, wished: string): string {
  const isTaken = (name: string) => new RegExp(`(?<![\\w$])${name}(?![\\w$])`).test(text);
  let name = wished;
  for (let count = 2; isTaken(name); count++) name = `${wished}_${count}`;
  return name;
}

/** Whether a text is a plain name: no select, no escape, no path. */
export function isPlainName(text: string): boolean {
  return /^[A-Za-z_][\w$]*$/.test(text);
}
