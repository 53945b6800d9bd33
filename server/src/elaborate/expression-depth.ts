// How deep an expression nests, found without recursion, so that every walk behind it may recurse.

import type { Expression } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';

const measured = new WeakMap<Expression, number>();

/** A level takes a character at least; what reading has put in besides never makes four levels of one. */
const levelsOfCharacter = 4;

export function isTooDeep({ limits }: Pick<ExpressionContext, 'limits'>, expression: Expression): boolean {
  const { start, end } = expression.at;
  // Most expressions are too short to be deep, and are not walked through.
  if ((end - start) * levelsOfCharacter < limits.nesting) return false;
  return depthOf(expression) > limits.nesting;
}

/** Levels of expressions inside one another, itself included. */
export function depthOf(expression: Expression): number {
  const known = measured.get(expression);
  if (known !== undefined) return known;
  let deepest = 0;
  const stack: { readonly expression: Expression; readonly depth: number }[] = [{ expression, depth: 1 }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    deepest = Math.max(deepest, top.depth);
    for (const operand of operandsOf(top.expression)) stack.push({ expression: operand, depth: top.depth + 1 });
  }
  measured.set(expression, deepest);
  return deepest;
}

const calling = new WeakMap<Expression, boolean>();

/** Whether a function is called anywhere in an expression. */
export function hasCall(expression: Expression): boolean {
  const known = calling.get(expression);
  if (known !== undefined) return known;
  const stack = [expression];
  let found = false;
  for (let top = stack.pop(); top !== undefined && !found; top = stack.pop()) {
    found = top.kind === 'call' && !top.name.name.startsWith('$');
    stack.push(...operandsOf(top));
  }
  calling.set(expression, found);
  return found;
}

/** The expressions directly inside one. */
export function operandsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'member':
      return [expression.base];
    case 'index':
      return [expression.base, expression.index];
    case 'range':
      return [expression.base, expression.left, expression.right];
    case 'unary':
      return [expression.operand];
    case 'binary':
      return [expression.left, expression.right];
    case 'conditional':
      return [expression.condition, expression.then, expression.else];
    case 'concat':
      return expression.parts;
    case 'replicate':
      return [expression.count, ...expression.parts];
    case 'pattern':
      return expression.entries.map(({ value }) => value);
    case 'stream':
      return expression.parts;
    case 'call':
      return expression.args;
    case 'mintypmax':
      return [expression.min, expression.typ, expression.max];
    default:
      return [];
  }
}
