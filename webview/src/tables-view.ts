// The tables in place of the picture: the same facts for a screen reader, of the part of the run that the picture shows.

import { factTables, type FactTable } from '../../server/src/drawing/fact-tables';
import type { Scene } from '../../server/src/drawing/scene';
import type { View } from '../../server/src/drawing/view';
import { timeWords } from '../../server/src/text/time-words';
import { make } from './page-elements';

/** Entries of one list; the rest is seen by zooming in. */
const listed = 200;

export function makeTables(): HTMLElement {
  return make('div', { id: 'tables', attributes: { role: 'region', 'aria-label': 'Tables', tabindex: '0' } });
}

export function fillTables(element: HTMLElement, { data }: Scene, { from, radix, to }: View): void {
  const window = { from: Math.floor(from), to: Math.ceil(to) };
  const tables = factTables(data, { ...window, radix, most: listed });
  const part = make('p', {
    text: `From ${timeWords(window.from)} to ${timeWords(window.to)}, as the picture is zoomed.`,
  });
  element.replaceChildren(part, ...tables.map(tableOf));
}

/** The first cell of each row is its head. */
export function tableOf({ caption, heads, rows }: FactTable): HTMLElement {
  const head = make(
    'tr',
    {},
    heads.map((text) => make('th', { text, attributes: { scope: 'col' } })),
  );
  return make('table', {}, [
    make('caption', { text: caption }),
    make('thead', {}, [head]),
    make('tbody', {}, rows.map(rowOf)),
  ]);
}

function rowOf([first, ...others]: readonly string[]): HTMLElement {
  const name = make('th', { text: first, attributes: { scope: 'row' } });
  return make('tr', {}, [name, ...others.map((text) => make('td', { text }))]);
}
