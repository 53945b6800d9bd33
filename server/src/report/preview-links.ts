// The changes of a preview as links of accounts: those that a trace shows and everything that caused them, in time order,
// each with its sentence. Also which root change every change goes back to.

import { type AccountContext, type AccountStep, stepOf } from '../explain/account-steps';
import { stepWords } from '../explain/account-words';
import type { PreviewLink } from './preview-data';

const linksPerTurn = 256;

export interface LinkTable {
  readonly links: readonly PreviewLink[];
  /** Index in `links` of a change of the waves; -1 where it is not among them. */
  linkOf(change: number): number;
}

/** `shown`: the changes that traces show, as indices in the waves. Yields after a fixed number of links. */
export function* buildLinks(context: AccountContext, shown: Iterable<number>): Generator<void, LinkTable> {
  const { cause, count } = context.waves.changes;
  const needed = new Uint8Array(count);
  for (let change of shown) {
    for (; change >= 0 && needed[change] === 0; change = cause[change]) needed[change] = 1;
  }
  const position = new Int32Array(count).fill(-1);
  const links: PreviewLink[] = [];
  const steps: AccountStep[] = [];
  for (let change = 0; change < count; change += 1) {
    if (needed[change] === 0) continue;
    position[change] = links.length;
    const step = stepOf(context, change);
    const causeLink = cause[change] < 0 ? -1 : position[cause[change]];
    steps.push(step);
    links.push({
      signal: step.text,
      at: step.at,
      before: step.before,
      after: step.after,
      cause: causeLink,
      kind: step.what,
      span: step.span,
      words: stepWords(step, namedCause(steps, links, causeLink)),
    });
    if (links.length % linksPerTurn === 0) yield;
  }
  return { links, linkOf: (change) => position[change] };
}

/** The nearest cause with a name: parts of expressions are passed over in words. */
function namedCause(steps: readonly AccountStep[], links: readonly PreviewLink[], from: number): AccountStep | null {
  let index = from;
  while (index >= 0 && steps[index].signal === null && links[index].cause >= 0) index = links[index].cause;
  return index < 0 ? null : steps[index];
}
