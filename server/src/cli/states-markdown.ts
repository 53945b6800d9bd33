// The states of one register as a part of a review in Markdown: a sentence, the picture inside the text, and the table.

import { drawStates } from '../drawing/state-picture';
import { statesHead, statesTable } from '../drawing/state-tables';
import { plainSvgOf, anyGround } from '../drawing/svg';
import { plain, table } from '../report/markdown';
import type { PreviewStates } from '../report/preview-data';

/** Rows of a table that is read on paper. */
const listed = 64;

export function statesMarkdown(states: PreviewStates): readonly string[] {
  const head = `${plain(statesHead(states))}.`;
  if (states.why !== null) return [head];
  const { heads, rows } = statesTable(states, listed);
  const cells = table(
    heads,
    rows.map((row) => row.map(plain)),
  );
  return [`${head} How sure: ${plain(states.sure)}.`, '', ...picture(states), ...cells];
}

/** A reader that shows no picture inside a text has the table, which says the same. */
function picture(states: PreviewStates): readonly string[] {
  const drawn = drawStates(states);
  if (drawn === null) return [];
  const title = `steps between the states of ${states.registers.join(' ')}`;
  const text = Buffer.from(plainSvgOf(drawn, title, anyGround), 'utf8').toString('base64');
  return [`![${plain(title)}](data:image/svg+xml;base64,${text})`, ''];
}
