// The states of registers as tables of text: for a screen reader, for a page without a script, and for a report in Markdown.

import type { PreviewStates } from '../report/preview-data';
import type { FactTable } from './fact-tables';

/** `state[2:0]: 5 of 8 values are reached; …`, and what it is that is counted. */
export function statesHead({ registers, sequence, why, words }: PreviewStates): string {
  const name = registers.join(' ');
  return why === null
    ? [`${name}: ${words}`, sequence].filter((part) => part !== '').join('; ')
    : `${name}: not told, ${why}`;
}

/** A row for every state, reached or not; none where nothing is told. `most`: rows; the last one counts the others. */
export function statesTable(data: PreviewStates, most: number): FactTable {
  const { registers, start, states, statesTotal, unused, unusedTotal } = data;
  const names = new Map([...states, ...unused].map(({ name, value }) => [value, name]));
  const called = (value: string) => names.get(value) ?? value;
  const reached = states
    .slice(0, most)
    .map(({ name, next, value }) => [
      name === null ? value : `${name} (${value})`,
      next.map(({ to, when }) => (when === '' ? called(to) : `${called(to)} when ${when}`)).join('; '),
      value === start ? 'start' : '',
    ]);
  const apart = unused
    .slice(0, Math.max(0, most - reached.length))
    .map(({ name, to, value, words }) => [
      name === null ? value : `${name} (${value})`,
      to.map(called).join('; '),
      `never reached; ${words}`,
    ]);
  const more = statesTotal + (unusedTotal ?? 0) - reached.length - apart.length;
  const rest = more > 0 ? [[`and ${more} more`, '', '']] : [];
  return {
    caption: `States of ${registers.join(' ')}`,
    heads: ['state', 'next', 'what it is'],
    rows: [...reached, ...apart, ...rest],
  };
}
