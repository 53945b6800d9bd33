// A comparison as text for a person or as JSON.

import { countWords } from '../explain/words';
import { type Change, type Comparison, comparedKinds } from './compare';
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
      title: `${kind}s`,
      lines: changes.filter((change) => change.kind === kind).flatMap(changeLines),
    })),
  ]);
}

function changeLines({ fields, name, what }: Change): readonly string[] {
  return [`${what.padEnd(7)}  ${name}`, ...fields.map(({ field, from, to }) => `         ${field}: ${from} → ${to}`)];
}
