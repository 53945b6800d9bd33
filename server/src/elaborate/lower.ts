// Expressions into values, with every width and sign made explicit: IEEE 1364-2005 5.4 (context-determined widths) and
// 5.5 (signedness flows down to the operands, then operands are widened). Written once for nodes and for bits.

import { type Bits, bitsOf, fromLimbs, hasUnknown } from '../netlist/four-state';
import { isTrue } from '../netlist/ieee';
import { Op } from '../netlist/operators';
import type { Expression } from '../syntax/tables';
import { type FunctionCall, joinOf, type Reader, resizeTo, truthOf } from './algebra';
import { toBits } from './constant-value';
import { castCall } from './casts';
import type { ExpressionContext } from './expression-context';
import { type ExpressionType, isLeftDetermined, isTest, replicationCount, typeOf, wider } from './expression-type';
import { hasCall, isTooDeep } from './expression-depth';
import { functionNamed, functionOf, usesReals } from './find-subroutine';
import { lowerReference } from './lower-reference';
import { literalBits, stringBits } from './number-literal';
import { applyBinary, applyShift, applyTest, applyUnary } from './operator-lowering';

export interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

/** On its own: at its self-determined width and sign. */
export function lower<Value>(at: Surroundings<Value>, expression: Expression): Value {
  return lowerIn(at, expression, typeOf(at.context, expression));
}

/** As the right-hand side of an assignment to `width` bits: at the larger of both widths, then cut (5.4). */
export function lowerTo<Value>(at: Surroundings<Value>, expression: Expression, width: number): Value {
  const type = typeOf(at.context, expression);
  if (type.real) return realAsBits(at, expression, width);
  const value = lowerIn(at, expression, { ...type, width: Math.max(width, type.width) });
  return width < type.width ? at.reader.algebra.narrow(value, width, expression.at) : value;
}

/** In a context of a given type, whose width is at least the expression's own. */
export function lowerIn<Value>(at: Surroundings<Value>, expression: Expression, type: ExpressionType): Value {
  if (isTooDeep(at.context, expression))
    return at.reader.algebra.hole(type.width, tooDeep(at, expression), expression.at);
  return lowerAs(at, expression, type);
}

/** As a condition: whether it is not zero, width 1. */
export function lowerTruth<Value>(at: Surroundings<Value>, expression: Expression): Value {
  return truthOf(at.reader.algebra, lower(at, expression), expression.at);
}

/** Several expressions compared with one another, as a case's selector and its labels: at their common type (9.5). */
export function commonType(context: ExpressionContext, expressions: readonly Expression[]): ExpressionType {
  return expressions.map((expression) => typeOf(context, expression)).reduce(wider);
}

/** As `lowerIn`, for what is inside an expression whose depth has been looked at. */
function lowerAs<Value>(at: Surroundings<Value>, expression: Expression, type: ExpressionType): Value {
  const { algebra } = at.reader;
  switch (expression.kind) {
    case 'number':
      if ((expression.size ?? 0) > at.context.limits.width) return algebra.hole(type.width, -1, expression.at);
      return fitLiteral(at, expression, literalBits(expression, type.width), type);
    case 'fill':
      return algebra.constant(bitsOf(expression.digit.repeat(type.width)), expression.at);
    case 'string':
      return fitLiteral(at, expression, stringBits(expression.text), type);
    case 'name':
    case 'member':
    case 'scoped':
    case 'index':
    case 'range':
      return lowerReference(at, expression, type, lower);
    case 'unary':
      return lowerUnary(at, expression, type);
    case 'binary':
      return lowerBinary(at, expression, type);
    case 'conditional':
      return lowerConditional(at, expression, type);
    case 'concat':
    case 'replicate':
      return lowerJoined(at, expression, type);
    case 'call':
      return lowerCall(at, expression, type);
    case 'mintypmax':
      return lowerAs(at, expression.typ, type);
    case 'real':
    case 'time':
      return realAsBits(at, expression, type.width);
    case 'hole':
      return algebra.hole(type.width, -1, expression.at);
  }
}

function fitLiteral<Value>(
  at: Surroundings<Value>,
  { at: place }: Expression,
  bits: Bits,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  return resizeTo(algebra, algebra.constant(bits, place), type.width, type.signed ? 'sign' : 'zero', place);
}

function lowerUnary<Value>(
  at: Surroundings<Value>,
  { operator, operand, at: place }: Extract<Expression, { kind: 'unary' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  if (operator === '+') return lowerAs(at, operand, type);
  if (operator === '-') return algebra.apply(Op.negate, type.width, [lowerAs(at, operand, type)], 0, place);
  if (operator === '~') return algebra.apply(Op.not, type.width, [lowerAs(at, operand, type)], 0, place);
  return resizeTo(algebra, applyUnary(algebra, operator, lower(at, operand), place), type.width, 'zero', place);
}

function lowerBinary<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'binary' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  const { operator, left, right, at: place } = expression;
  if (operator === '&&' || operator === '||') {
    const op = operator === '&&' ? Op.and : Op.or;
    const both = algebra.apply(op, 1, [lowerTruth(at, left), lowerTruth(at, right)], 0, place);
    return resizeTo(algebra, both, type.width, 'zero', place);
  }
  if (isTest(operator)) return resizeTo(algebra, lowerComparison(at, expression), type.width, 'zero', place);
  const base = lowerAs(at, left, type);
  if (!isLeftDetermined(operator)) {
    return applyBinary(algebra, operator, base, lowerAs(at, right, type), { signed: type.signed, at: place });
  }
  const amount = { value: lower(at, right), signed: typeOf(at.context, right).signed };
  return applyShift(algebra, operator, base, amount, { signed: type.signed, at: place });
}

/** Operands of a comparison make a context of their own (Table 5-22). */
/** Unknown digits of a constant on the right match anything (IEEE 1800-2017 11.4.6). */
function lowerWildcard<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'binary' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  const { at: place, left, operator, right } = expression;
  const pattern = algebra.constantOf(lowerAs(at, right, type));
  const value = lowerAs(at, left, type);
  const equality = { ...expression, operator: operator === '==?' ? '==' : '!=' } as const;
  if (pattern === null) return applyTest(at, equality, value, lowerAs(at, right, type), type.signed);
  const known = fromLimbs(
    pattern.width,
    pattern.b.map((limb) => ~limb >>> 0),
    new Uint32Array(pattern.b.length),
  );
  const masked = (operand: Value) =>
    algebra.apply(Op.and, type.width, [operand, algebra.constant(known, place)], 0, place);
  const wanted = fromLimbs(
    pattern.width,
    pattern.a.map((limb, index) => limb & ~pattern.b[index]),
    new Uint32Array(pattern.b.length),
  );
  return applyTest(at, equality, masked(value), algebra.constant(wanted, place), type.signed);
}

function lowerComparison<Value>(at: Surroundings<Value>, expression: Extract<Expression, { kind: 'binary' }>): Value {
  const { left, right } = expression;
  const type = commonType(at.context, [left, right]);
  if (type.real) return realAsBits(at, expression, 1);
  if (expression.operator === '==?' || expression.operator === '!=?') return lowerWildcard(at, expression, type);
  return applyTest(at, expression, lowerAs(at, left, type), lowerAs(at, right, type), type.signed);
}

/** A known condition calls no function in the other arm (5.1.13): a function may end its recursion so. */
function lowerConditional<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'conditional' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  const condition = lowerTruth(at, expression.condition);
  const known = hasCall(expression) ? algebra.constantOf(condition) : null;
  if (known !== null && !hasUnknown(known)) return lowerAs(at, isTrue(known) ? expression.then : expression.else, type);
  const arms = [lowerAs(at, expression.then, type), lowerAs(at, expression.else, type)];
  return algebra.apply(Op.mux, type.width, [condition, ...arms], 0, expression.at);
}

function lowerJoined<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'concat' | 'replicate' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  if (!typeOf(at.context, expression).known) return algebra.hole(type.width, -1, expression.at);
  const parts = lowerParts(at, expression);
  return resizeTo(algebra, joinOf(algebra, parts, expression.at), type.width, 'zero', expression.at);
}

/** Most significant first; a replication by zero stands for nothing. */
function lowerParts<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'concat' | 'replicate' }>,
): Value[] {
  const count = expression.kind === 'concat' ? 1 : (replicationCount(at.context, expression) ?? 0);
  if (count === 0) return [];
  const once = expression.parts.flatMap((part) =>
    part.kind === 'replicate' ? lowerParts(at, part) : [lower(at, part)],
  );
  return Array.from({ length: count }, () => once).flat();
}

function lowerCall<Value>(
  at: Surroundings<Value>,
  expression: Extract<Expression, { kind: 'call' }>,
  type: ExpressionType,
): Value {
  const { algebra } = at.reader;
  const { context } = at;
  const { name, args, at: place } = expression;
  if (args.length === 1 && (name.name === '$signed' || name.name === '$unsigned')) {
    return resizeTo(algebra, lower(at, args[0]), type.width, type.signed ? 'sign' : 'zero', place);
  }
  if (args.length === 2 && name.name === castCall) {
    const own = typeOf(context, expression);
    const cast = lowerTo(at, args[1], own.width);
    return resizeTo(algebra, cast, type.width, own.signed && type.signed ? 'sign' : 'zero', place);
  }
  const called = name.name.startsWith('$') ? null : functionNamed(context, expression);
  if (called !== null && usesReals(called.item)) return realAsBits(at, expression, type.width);
  if (!name.name.startsWith('$')) return lowerFunction(at, expression, type);
  const value = context.constant(expression);
  if (value !== null) return algebra.constant(toBits(value, type.width), place);
  return algebra.hole(
    type.width,
    context.log.add('construct', { what: name.name }, context.source.place(place)),
    place,
  );
}

/** Arguments are assigned to the function's inputs: each at the larger of both widths, then cut (10.4.3, 5.4). */
function lowerFunction<Value>(
  at: Surroundings<Value>,
  expression: FunctionCall<Value>['expression'],
  type: ExpressionType,
) {
  const { algebra } = at.reader;
  const found = functionOf(at.context, expression);
  if (found.kind === 'none') return algebra.hole(type.width, found.complaint, expression.at);
  const { subroutine, frame, result } = found;
  const args = frame.ports.map(({ signal }, index) => lowerTo(at, expression.args[index], signal.shape.width));
  const value = at.reader.call({ subroutine, frame, result, args, context: at.context, expression });
  return resizeTo(algebra, value, type.width, type.signed ? 'sign' : 'zero', expression.at);
}

function realAsBits<Value>(at: Surroundings<Value>, expression: Expression, width: number): Value {
  const { algebra } = at.reader;
  const { context } = at;
  const value = context.constant(expression);
  if (value !== null) return algebra.constant(toBits(value, width), expression.at);
  const complaint = context.log.add('construct', { what: 'real' }, context.source.place(expression.at));
  return algebra.hole(width, complaint, expression.at);
}

function tooDeep<Value>({ context }: Surroundings<Value>, expression: Expression): number {
  const args = { limit: 'nesting', value: context.limits.nesting, name: 'expression' } as const;
  return context.log.add('limit', args, context.source.place(expression.at));
}
