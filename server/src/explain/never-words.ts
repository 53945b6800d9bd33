// Why a bit does not change in the run, in sentences: one per link of the way back.

import type { NeverStep } from './account-never';
import { listWords } from './words';

/** `full is 0: cnt == 4'd9 does not hold, cnt is 0, 1 and 2 (line 12)`. */
export function neverWords({ span, text, value, why }: NeverStep): string {
  const line = span === null ? '' : ` (line ${span.line})`;
  switch (why.kind) {
    case 'input':
      return `${text} is held at ${value}${why.reason === null ? ', as stated' : `, assumed: ${why.reason}`}${line}`;
    case 'constant':
      return `what it is made from is always ${value}${line}`;
    case 'clock':
      return `${text} gets no edge that it acts on: its clock ${why.clock} does not make one${line}`;
    case 'control':
      return `${text} is held at ${value} by ${why.control}, which stays ${why.active}${line}`;
    case 'not-enabled':
      return `${text} is assigned only if ${why.condition}, which does not hold at any edge${line}`;
    case 'same-value':
      return `${text} samples ${value} at every edge, which it holds already${line}`;
    case 'comparison':
      return `${text} is ${value === '0' ? 'never true' : value === '1' ? 'always true' : value}: ${why.of} is ${takenWords(why.taken, why.more)}${line}`;
    case 'fixed':
      return `${text} ${value === '1' ? 'always holds' : 'can never hold'}, whatever its operands are: by their widths or signs${line}`;
    case 'logic':
      return `${text} is ${value} all the time${line}`;
  }
}

function takenWords(taken: readonly string[], more: boolean): string {
  return more ? `${taken.join(', ')} and others, not that` : listWords(taken);
}
