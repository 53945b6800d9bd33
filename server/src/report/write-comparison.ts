// A comparison as text for a person or as JSON.

import { countWords } from '../explain/words';
import { type Change, type Comparison, comparedKinds } from './comparison';
import { layOut } from './text-layout';

export function writeComparisonJson({ changes }: Comparison): string {
  return `${JSON.stringify({ changes }, null, 2)}\n`;
}

/** `before` and `after`: what the two are called. */
export function writeComparisonText({ changes }: Comparison, before: string, after: string): string {
  const title = changes.length === 0 ? 'no difference' : countWords(changes.length, 'difference');
  return layOut([
    { title, lines: [`from ${before}`, `to   ${after}`] },
    ...comparedKinds.map((kind) => ({
      title: titles[kind],
      lines: changes.filter((change) => change.kind === kind).flatMap(changeLines),
    })),
  ]);
}

const titles: Readonly<Record<Change['kind'], string>> = {
  register: 'registers',
  latch: 'latches',
  memory: 'memories',
  clock: 'clocks',
  domain: 'domains',
  chain: 'chains',
  sequence: 'sequences',
  transfer: 'transfers',
  crossing: 'crossings',
  reset: 'resets',
  glitch: 'glitches',
  output: 'outputs',
  finding: 'findings',
};

function changeLines({ fields, name, what }: Change): readonly string[] {
  const altered = fields.map(({ field, from, to }) => `         ${field}: ${valueWords(from)} → ${valueWords(to)}`);
  return [`${what.padEnd(7)}  ${name}`, ...altered];
}

/** A value of a report: words as they are, what has only a reason as that; all else as the report has it. */
function valueWords(json: string): string {
  const value: unknown = JSON.parse(json);
  if (value === null) return 'none';
  if (typeof value === 'string') return value;
  const isReason = typeof value === 'object' && 'reason' in value && Object.keys(value).length === 1;
  return isReason ? String(value.reason) : json;
}
