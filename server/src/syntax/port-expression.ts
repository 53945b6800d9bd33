// What stands behind a port of a header without directions (IEEE 1364-2005 12.3.2): names, bits and parts of them, and
// concatenations, told from their words since the grammar does not take them. Bounds are numbers and names, and
// sums and products of them.

import type { UnitOffset } from '../text/place';
import { canonicalName } from './names';
import { plainDecimal } from './numbers';
import type { At, BinaryOperator, Expression } from './tables';
import { type Token, wordOf } from './tokens';

/** Null where the words are anything else. */
export function portExpressionOf(text: string, tokens: readonly Token[]): Expression | null {
  const walk: Walk = { text, tokens, index: 0 };
  const expression = isAt(walk, '{') ? concatenation(walk) : reference(walk);
  return walk.index === tokens.length ? expression : null;
}

interface Walk {
  readonly text: string;
  readonly tokens: readonly Token[];
  index: number;
}

function isAt({ text, tokens, index }: Walk, word: string): boolean {
  return index < tokens.length && wordOf(text, tokens[index]) === word;
}

function take(walk: Walk, word: string): boolean {
  if (!isAt(walk, word)) return false;
  walk.index += 1;
  return true;
}

function from(walk: Walk, first: number): At {
  const { start } = walk.tokens[first];
  return { start: start as UnitOffset, end: walk.tokens[walk.index - 1].end as UnitOffset };
}

function concatenation(walk: Walk): Expression | null {
  const first = walk.index;
  walk.index += 1;
  const parts: Expression[] = [];
  do {
    const part = reference(walk);
    if (part === null) return null;
    parts.push(part);
  } while (take(walk, ','));
  return take(walk, '}') ? { kind: 'concat', at: from(walk, first), parts } : null;
}

/** name, name[index] or name[left:right] */
function reference(walk: Walk): Expression | null {
  const first = walk.index;
  if (walk.tokens[first]?.kind !== 'name') return null;
  const base = operand(walk);
  if (base === null || !take(walk, '[')) return base;
  const left = bound(walk);
  if (left === null) return null;
  if (take(walk, ']')) return { kind: 'index', at: from(walk, first), base, index: left };
  const right = take(walk, ':') ? bound(walk) : null;
  if (right === null || !take(walk, ']')) return null;
  return { kind: 'range', at: from(walk, first), base, mode: 'fixed', left, right };
}

function bound(walk: Walk): Expression | null {
  return chain(walk, ['+', '-'], (inner) => chain(inner, ['*', '/'], operand));
}

/** Operands with operators of one precedence between them, from the left. */
function chain(
  walk: Walk,
  operators: readonly BinaryOperator[],
  read: (walk: Walk) => Expression | null,
): Expression | null {
  const first = walk.index;
  let left = read(walk);
  for (;;) {
    const operator = operators.find((each) => isAt(walk, each));
    if (left === null || operator === undefined) return left;
    walk.index += 1;
    const right = read(walk);
    left = right === null ? null : { kind: 'binary', at: from(walk, first), operator, left, right };
  }
}

function operand(walk: Walk): Expression | null {
  const token = walk.tokens[walk.index];
  if (token === undefined) return null;
  const word = wordOf(walk.text, token);
  walk.index += 1;
  const at = from(walk, walk.index - 1);
  if (token.kind === 'name') return { kind: 'name', at, name: canonicalName(word) };
  return token.kind === 'number' && /^[0-9_]+$/.test(word) ? plainDecimal(at, word) : null;
}
