// Methods of enumerations (IEEE 1800-2017 6.19.5) where hardware has them: first, last and num are constants, next and prev
// choose by the present value. `name` gives a string, which no hardware has.

import { allX, type Bits } from '../netlist/four-state';
import { Op } from '../netlist/operators';
import type { Enumeration } from '../netlist/packed-form';
import type { At, Expression } from '../syntax/tables';
import type { Algebra } from './algebra';
import type { ExpressionContext } from './expression-context';
import { isReference, namesOf, type ReferenceExpression, resolveReference } from './references';
import { type Entity, lookUp } from './scope';

export interface EnumMethod {
  readonly name: 'first' | 'last' | 'next' | 'prev' | 'num' | 'name';
  /** The value that it is a method of. */
  readonly base: ReferenceExpression;
  readonly names: Enumeration;
  /** How far next and prev go. */
  readonly count: Expression | null;
}

/** Null where the expression is something else. */
export function enumMethodOf(
  context: ExpressionContext,
  expression: Extract<Expression, { kind: 'member' | 'call' }>,
): EnumMethod | null {
  const member = expression.kind === 'member' ? expression : expression.callee;
  if (member?.kind !== 'member' || !methods.has(member.name.name)) return null;
  const { base } = member;
  if (!isReference(base) || !isValue(context, base)) return null;
  const reference = resolveReference(context, base);
  const names = reference.kind === 'hole' ? null : namesOf(reference);
  if (names === null || names.members.length === 0) return null;
  const [count = null] = expression.kind === 'call' ? expression.args : [];
  return { name: member.name.name as EnumMethod['name'], base, names, count };
}

const methods: ReadonlySet<string> = new Set(['first', 'last', 'next', 'prev', 'num', 'name']);

/** Whether a name leads to something that has a value, without saying what is wrong where it does not. */
function isValue({ scope }: ExpressionContext, expression: ReferenceExpression): boolean {
  let root: Expression = expression;
  while (root.kind === 'member' || root.kind === 'index' || root.kind === 'range') root = root.base;
  const entity = root.kind === 'name' ? lookUp(scope, root.name) : null;
  return entity !== null && values.has(entity.kind);
}

const values: ReadonlySet<Entity['kind']> = new Set(['signal', 'array', 'record', 'below', 'interface']);

/** The member `by` places on, round the end; x for a value that is no member. */
export function memberAfter<Value>(
  algebra: Algebra<Value>,
  { members }: Enumeration,
  value: Value,
  by: number,
  at: At,
): Value {
  const width = algebra.widthOf(value);
  const { length } = members;
  const constant = (bits: Bits) => algebra.constant(bits, at);
  const isComplete = length === 2 ** width;
  let result = constant(isComplete ? members[(((length - 1 + by) % length) + length) % length].value : allX(width));
  for (let index = isComplete ? length - 2 : length - 1; index >= 0; index -= 1) {
    const target = members[(((index + by) % length) + length) % length].value;
    const isThis = algebra.compare(Op.equal, value, constant(members[index].value), at);
    result = algebra.apply(Op.mux, width, [isThis, constant(target), result], 0, at);
  }
  return result;
}
