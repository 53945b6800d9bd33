// How deep a statement nests, the expressions in it included, found without recursion: what one call of a function costs
// of the depth that following may have.

import type { Expression, Statement } from '../syntax/tables';
import { statementsIn } from '../syntax/statements-in';
import { depthOf } from './expression-depth';

export function heightOf(statement: Statement): number {
  let highest = 0;
  const stack: { readonly statement: Statement; readonly depth: number }[] = [{ statement, depth: 1 }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const deepest = Math.max(0, ...expressionsIn(top.statement).map(depthOf));
    highest = Math.max(highest, top.depth + deepest);
    for (const inner of statementsIn(top.statement)) stack.push({ statement: inner, depth: top.depth + 1 });
  }
  return highest;
}

/** The expressions directly inside a statement. */
export function expressionsIn(statement: Statement): readonly Expression[] {
  switch (statement.kind) {
    case 'assign':
      return [statement.target, statement.value];
    case 'if':
    case 'while':
    case 'wait':
      return [statement.condition];
    case 'case':
      return [statement.selector, ...statement.items.flatMap(({ labels }) => labels)];
    case 'for':
      return [statement.variable, statement.start, statement.condition];
    case 'repeat':
      return [statement.count];
    case 'call':
      return statement.args;
    default:
      return [];
  }
}
