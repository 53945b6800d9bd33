// Says that an expression is no constant, unless it holds a name that means nothing: that has been said already.

import type { Expression } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import { isTooDeep, operandsOf } from './expression-depth';
import { isReference, resolveReference } from './references';

/** The complaint that tells why. */
export function sayNotConstant(context: ExpressionContext, expression: Expression): number {
  const { log, source } = context;
  if (expression.kind === 'hole') return -1;
  return (
    lostName(context, expression) ??
    log.add('not-constant', { what: source.textOf(expression.at) }, source.place(expression.at))
  );
}

/** The complaint about the first name that means nothing; null where each means something. */
function lostName(context: ExpressionContext, expression: Expression): number | null {
  if (isTooDeep(context, expression)) return null;
  const pending = [expression];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    if (isReference(next)) {
      const reference = resolveReference(context, next);
      if (reference.kind === 'hole') return reference.complaint;
    }
    pending.push(...[...operandsOf(next)].reverse());
  }
  return null;
}
