// Expressions into values, with every width and sign made explicit: IEEE 1364-2005 5.4 (context-determined widths) and
// 5.5 (signedness flows down to the operands, then operands are widened). Written once for nodes and for bits.

import { type Bits, bitsOf, fromLimbs, hasUnknown, zero } from '../netlist/four-state';
import { isTrue } from '../netlist/ieee';
import { Op } from '../netlist/operators';
import type { PackedForm } from '../netlist/packed-form';
import type { At, Expression } from '../syntax/tables';
import { type FunctionCall, joinOf, type Reader, resizeTo, sliceOf, truthOf } from './algebra';
import { integerValue, toBits } from './constant-value';
import { castCall, typeFormMeant, typeMeant } from './casts';
import { type EnumMethod, enumMethodOf, memberAfter } from './enum-methods';
import type { ExpressionContext } from './expression-context';
import {
  constantInteger,
  type ExpressionType,
  isLeftDetermined,
  isTest,
  replicationCount,
  typeOf,
  wider,
} from './expression-type';
import { hasCall, isTooDeep } from './expression-depth';
import { functionNamed, functionOf, usesReals } from './find-subroutine';
import { lowerReference } from './lower-reference';
import { formOfShape } from './local-signal';
import { literalBits, stringBits } from './number-literal';
import { notAValue } from './references';
import { applyBinary, applyShift, applyTest, applyUnary } from './operator-lowering';
import { formBefore, needsForm, type Pattern, patternParts } from './patterns';

export interface Surroundings<Value> {
  readonly context: ExpressionContext;
  readonly reader: Reader<Value>;
}

/** On its own: at its self-determined width and sign. */
export function lower<Value>(at: Surroundings<Value>, expression: Expression): Value {
  return lowerIn(at, expression, typeOf(at.context, expression));
}

/** As the right-hand side of an assignment to `width` bits: at the larger of both widths, then cut (5.4). */
export function lowerTo<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  width: number,
  form: () => PackedForm | null = () => null,
): Value {
  const type = typeOf(at.context, expression);
  if (type.unpacked) return lowerWords(at, expression, type, width, form());
  if (type.real) return realAsBits(at, expression, width);
  if (expression.kind === 'stream' && type.known) return lowerStream(at, expression, width);
  const value = lowerIn(at, expression, { ...type, width: Math.max(width, type.width) });
  return width < type.width ? at.reader.algebra.narrow(value, width, expression.at) : value;
}

/**
 * The same to what `form` describes: a pattern can only be told by that. `form` is asked for where it is needed; null there:
 * what is assigned to is no one name.
 */
export function lowerFor<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  width: number,
  form: () => PackedForm | null,
): Value {
  if (!needsForm(expression)) return lowerTo(at, expression, width, form);
  const { algebra } = at.reader;
  if (expression.kind === 'conditional') {
    const arms = [expression.then, expression.else].map((arm) => lowerFor(at, arm, width, form));
    return algebra.apply(Op.mux, width, [lowerTruth(at, expression.condition), ...arms], 0, expression.at);
  }
  const whole = form();
  if (expression.kind !== 'pattern' || whole === null) return lowerTo(at, expression, width);
  return resizeTo(algebra, lowerPattern(at, expression, whole), width, 'zero', expression.at);
}

/** Words are assigned to as many words. */
function lowerWords<Value>(
  at: Surroundings<Value>,
  expression: Expression,
  type: ExpressionType,
  width: number,
  form: PackedForm | null,
): Value {
  if (form?.kind === 'array' && form.isUnpacked && form.width === type.width) return lowerIn(at, expression, type);
  return at.reader.algebra.hole(width, notAValue(at.context, expression), expression.at);
}

/** At the width of what it stands for. */
function lowerPattern<Value>(at: Surroundings<Value>, pattern: Pattern, form: PackedForm): Value {
  const { algebra } = at.reader;
  const parts = isTooDeep(at.context, pattern) ? tooDeep(at, pattern) : patternParts(at.context, pattern, form);
  if (typeof parts === 'number') return algebra.hole(form.width, parts, pattern.at);
  const values = parts.map((part) => lowerFor(at, part.value, part.form.width, () => part.form));
  return joinOf(algebra, values, pattern.at);
}

/** Blocks of `size` bits, the last one first (IEEE 1800-2017 11.4.14.2); what a wider target has more is 0, on the right. */
function lowerStream<Value>(
  at: Surroundings<Value>,
  { at: place, parts, reversed, size }: Extract<Expression, { kind: 'stream' }>,
  width: number,
): Value {
  const { algebra } = at.reader;
  const plain = joinOf(
    algebra,
    parts.map((part) => lower(at, part)),
    place,
  );
  const all = algebra.widthOf(plain);
  const block = size === null ? 1 : (typeMeant(at.context, size)?.width ?? constantInteger(at.context, size));
  if (block === null || block < 1) return algebra.hole(width, -1, place);
  const blocks: Value[] = [];
  for (let low = 0; low < all; low += block)
    blocks.push(sliceOf(algebra, plain, low, Math.min(block, all - low), place));
  const stream = reversed ? joinOf(algebra, blocks, place) : plain;
  if (width <= all) return sliceOf(algebra, stream, all - width, width, place);
  return joinOf(algebra, [stream, algebra.constant(zero(width - all), place)], place);
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
    case 'member': {
      const method = enumMethodOf(at.context, expression);
      return method === null
        ? lowerReference(at, expression, type, lower)
        : lowerMethod(at, method, type, expression.at);
    }
    case 'name':
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
    case 'pattern': {
      const form = formBefore(at.context, expression);
      if (form === undefined || form === null)
        return algebra.hole(type.width, sayNoForm(at, expression), expression.at);
      const value = lowerPattern(at, expression, form);
      return resizeTo(algebra, value, type.width, form.signed && type.signed ? 'sign' : 'zero', expression.at);
    }
    case 'stream': {
      const { known, width } = typeOf(at.context, expression);
      if (!known) return algebra.hole(type.width, -1, expression.at);
      return resizeTo(algebra, lowerStream(at, expression, width), type.width, 'zero', expression.at);
    }
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
  const method = expression.callee === undefined ? null : enumMethodOf(context, expression);
  if (method !== null) return lowerMethod(at, method, type, place);
  if (args.length === 1 && (name.name === '$signed' || name.name === '$unsigned')) {
    return resizeTo(algebra, lower(at, args[0]), type.width, type.signed ? 'sign' : 'zero', place);
  }
  if (args.length === 2 && name.name === castCall) {
    const own = typeOf(context, expression);
    const cast = lowerFor(at, args[1], own.width, () => {
      const form = typeFormMeant(context, args[0]);
      return form === null ? null : formOfShape(form);
    });
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

function lowerMethod<Value>(at: Surroundings<Value>, method: EnumMethod, type: ExpressionType, place: At): Value {
  const { algebra } = at.reader;
  const { base, count, name, names } = method;
  const { members } = names;
  const by = count === null ? 1 : (constantInteger(at.context, count) ?? 0);
  const fill = type.signed ? 'sign' : 'zero';
  const constant = (bits: Bits) => resizeTo(algebra, algebra.constant(bits, place), type.width, fill, place);
  switch (name) {
    case 'first':
      return constant(members[0].value);
    case 'last':
      return constant(members[members.length - 1].value);
    case 'num':
      return constant(toBits(integerValue(members.length), 32));
    case 'next':
    case 'prev': {
      const value = memberAfter(algebra, names, lower(at, base), name === 'next' ? by : -by, place);
      return resizeTo(algebra, value, type.width, fill, place);
    }
    case 'name': {
      const what = 'name of an enumeration value as a string';
      const complaint = at.context.log.add('construct', { what }, at.context.source.place(place));
      return algebra.hole(type.width, complaint, place);
    }
  }
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
  const args = frame.ports.map(({ signal: { shape } }, index) =>
    lowerFor(at, expression.args[index], shape.width, () => formOfShape(shape)),
  );
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

/** A type that is not known has been said. */
function sayNoForm<Value>({ context }: Surroundings<Value>, { at, type }: Pattern): number {
  const what = 'assignment pattern where no type says what it stands for';
  return type === null ? context.log.add('construct', { what }, context.source.place(at)) : -1;
}

function tooDeep<Value>({ context }: Surroundings<Value>, expression: Expression): number {
  const args = { limit: 'nesting', value: context.limits.nesting, name: 'expression' } as const;
  return context.log.add('limit', args, context.source.place(expression.at));
}
