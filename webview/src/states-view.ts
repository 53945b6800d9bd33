// The states of registers beside the picture, folded away until they are wanted: a sentence each, the steps drawn, and the
// table that says the same to a screen reader. What a person has opened stays open while the text changes.

import { drawStates } from '../../server/src/drawing/state-picture';
import { statesHead, statesTable } from '../../server/src/drawing/state-tables';
import { plainSvgOf } from '../../server/src/drawing/svg';
import { visibleText } from '../../server/src/drawing/visible-text';
import type { PreviewData, PreviewStates } from '../../server/src/report/preview-data';
import type { Span } from '../../server/src/text/place';
import { make, makeLink } from './page-elements';
import { tableOf } from './tables-view';

export interface StatesView {
  readonly element: HTMLElement;
  show(data: PreviewData): void;
}

/** Rows of a table; the report has them all. */
const listed = 256;

export function makeStates(reveal: (span: Span) => void): StatesView {
  const element = make('section', { className: 'states', attributes: { 'aria-label': 'States' } });
  let shown: PreviewData['states'] | null = null;
  return {
    element,
    show({ states }) {
      const told = states.filter(({ why }) => why === null);
      element.hidden = told.length === 0;
      if (states === shown) return;
      shown = states;
      const parts = element.querySelectorAll<HTMLElement>('details[open]');
      const open = new Set(Array.from(parts, ({ dataset }) => dataset.registers ?? ''));
      element.replaceChildren(...told.map((each) => partOf(each, open, reveal)));
    },
  };
}

function partOf(states: PreviewStates, open: ReadonlySet<string>, reveal: (span: Span) => void): HTMLElement {
  const name = states.registers.join(' ');
  const summary = make('summary', {}, [make('span', { className: 'weight', text: 'States of ' }), statesHead(states)]);
  const part = make('details', { attributes: { 'data-registers': name } }, [
    summary,
    make('p', {}, [states.sure, ' ', makeLink(`line ${states.span.line}`, () => reveal(states.span))]),
    ...pictureOf(states),
    tableOf(statesTable(states, listed)),
  ]);
  part.open = open.has(name);
  return part;
}

/** Drawn in the ink of the theme. */
function pictureOf(states: PreviewStates): readonly Node[] {
  const picture = drawStates(states);
  if (picture === null) return [];
  const title = `The steps between the states of ${visibleText(states.registers.join(' '))}; the table below says the same`;
  const drawn = new DOMParser().parseFromString(plainSvgOf(picture, title), 'image/svg+xml').documentElement;
  const attributes = { tabindex: '0', role: 'group', 'aria-label': 'Diagram' };
  return [make('div', { className: 'diagram', attributes }, [document.importNode(drawn, true)])];
}
