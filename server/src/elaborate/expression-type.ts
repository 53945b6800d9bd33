// The self-determined type of an expression: width and signedness by IEEE 1364-2005 5.4.1 (Table 5-22) and 5.5.1.
// A part whose width cannot be told makes `known` false; who needs the width then takes the whole as unknown.

import type { PackedForm } from '../netlist/packed-form';
import type { BinaryOperator, Expression, UnaryOperator } from '../syntax/tables';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { isTooDeep } from './expression-depth';
import { isQuery } from './query-names';
import { castCall, typeMeant } from './casts';
import { type EnumMethod, enumMethodOf } from './enum-methods';
import { functionNamed, functionResult, usesReals } from './find-subroutine';
import { sayNotConstant } from './not-constant';
import { literalWidth } from './number-literal';
import { realFunctionNamed } from './real-math';
import { packedPart, type Reference, resolveReference, type Select, type ValueReference } from './references';

export interface ExpressionType {
  readonly width: number;
  readonly signed: boolean;
  /** Real operands make a real expression; its width is that of an integer (32, signed). */
  readonly real: boolean;
  readonly known: boolean;
  /** An unpacked array, or words of one: no operand of anything. */
  readonly unpacked?: true;
}

export function typeOf(context: ExpressionContext, expression: Expression): ExpressionType {
  if (isTooDeep(context, expression)) return unknownType;
  switch (expression.kind) {
    case 'number':
      return limited(context, expression, literalWidth(expression), expression.signed);
    case 'fill':
      return bits(1, false);
    case 'real':
    case 'time':
      return realType;
    case 'string':
      return bits(8 * Math.max(1, expression.text.length), false);
    case 'member':
      return typeOfMember(context, expression);
    case 'name':
    case 'scoped':
    case 'index':
    case 'range':
      return typeOfReference(context, resolveReference(context, expression));
    case 'unary':
      return isUnaryArithmetic(expression.operator) ? typeOf(context, expression.operand) : bits(1, false);
    case 'binary':
      return typeOfBinary(context, expression);
    case 'conditional':
      return wider(typeOf(context, expression.then), typeOf(context, expression.else));
    case 'concat':
      return typeOfParts(context, expression, expression.parts, 1);
    case 'replicate':
      return typeOfReplication(context, expression);
    case 'pattern':
      return typeOfPattern(context, expression);
    case 'stream':
      return typeOfParts(context, expression, expression.parts, 1);
    case 'call':
      return typeOfCall(context, expression);
    case 'mintypmax':
      return typeOf(context, expression.typ);
    case 'hole':
      return unknownType;
  }
}

const realType: ExpressionType = { width: 32, signed: true, real: true, known: true };
export const unknownType: ExpressionType = { width: 1, signed: false, real: false, known: false };

export function bits(width: number, signed: boolean): ExpressionType {
  return { width, signed, real: false, known: true };
}

/** Operands of one context: the wider width, signed only if both are (5.5.1), real if either is (4.8.1). */
export function wider(left: ExpressionType, right: ExpressionType): ExpressionType {
  return {
    width: Math.max(left.width, right.width),
    signed: left.signed && right.signed,
    real: left.real || right.real,
    known: left.known && right.known,
  };
}

export function isUnaryArithmetic(operator: UnaryOperator): boolean {
  return operator === '+' || operator === '-' || operator === '~';
}

const comparisons: ReadonlySet<BinaryOperator> = new Set([
  '==',
  '!=',
  '===',
  '!==',
  '==?',
  '!=?',
  '<',
  '<=',
  '>',
  '>=',
  '&&',
  '||',
]);

export function isTest(operator: BinaryOperator): boolean {
  return comparisons.has(operator);
}

/** The right operand of a shift or a power is self-determined (Table 5-22). */
export function isLeftDetermined(operator: BinaryOperator): boolean {
  return operator === '<<' || operator === '>>' || operator === '<<<' || operator === '>>>' || operator === '**';
}

function typeOfBinary(context: ExpressionContext, { operator, left, right }: Extract<Expression, { kind: 'binary' }>) {
  if (isTest(operator)) return bits(1, false);
  if (!isLeftDetermined(operator)) return wider(typeOf(context, left), typeOf(context, right));
  const type = typeOf(context, left);
  return operator === '**' && typeOf(context, right).real ? { ...type, real: true } : type;
}

function typeOfMember(context: ExpressionContext, expression: Extract<Expression, { kind: 'member' }>): ExpressionType {
  const method = enumMethodOf(context, expression);
  return method === null
    ? typeOfReference(context, resolveReference(context, expression))
    : typeOfMethod(context, method);
}

function typeOfMethod(context: ExpressionContext, { base, name }: EnumMethod): ExpressionType {
  if (name === 'name') return unknownType;
  return name === 'num' ? bits(32, true) : typeOf(context, base);
}

function typeOfReference(context: ExpressionContext, reference: Reference): ExpressionType {
  if (reference.kind === 'hole') return unknownType;
  if (reference.select !== null) return typeOfSelect(context, reference, reference.select);
  if (reference.view !== null) return bits(reference.view.form.width, reference.view.form.signed);
  if (reference.kind === 'whole') return typeOfWhole(reference.whole.form);
  if (reference.kind === 'parameter') {
    const value = reference.parameter.value();
    return value.kind === 'real' ? realType : bits(value.bits.width, value.signed);
  }
  const { shape } =
    reference.kind === 'signal' ? reference.signal : reference.kind === 'word' ? reference.array : reference;
  return bits(shape.width, shape.signed);
}

function typeOfWhole(form: PackedForm): ExpressionType {
  const type = bits(form.width, form.signed);
  return form.kind === 'array' && form.isUnpacked === true ? { ...type, unpacked: true } : type;
}

/** Selects are unsigned, even of the whole range (5.5.1). */
function typeOfSelect(context: ExpressionContext, reference: ValueReference, select: Select): ExpressionType {
  if (select.kind === 'index') return bits(1, false);
  const width = selectWidth(context, select);
  const form = packedPart(reference);
  const each = form?.kind === 'array' ? form.element.width : 1;
  if (width === null) return unknownType;
  const type = limited(context, select, width * each, false);
  return form?.kind === 'array' && form.isUnpacked === true ? { ...type, unpacked: true } : type;
}

/** Width of a part-select; null where it is not a constant of at least one. */
export function selectWidth(context: ExpressionContext, select: Extract<Select, { kind: 'range' }>): number | null {
  const right = constantInteger(context, select.right);
  if (select.mode !== 'fixed') return right === null || right < 1 ? null : right;
  const left = constantInteger(context, select.left);
  return left === null || right === null ? null : Math.abs(left - right) + 1;
}

/** A constant whole number, complained about where it is none. */
export function constantInteger(context: ExpressionContext, expression: Expression): number | null {
  const value = context.constant(expression);
  if (value === null) {
    sayNotConstant(context, expression);
    return null;
  }
  const integer = integerOf(value);
  const { at } = expression;
  if (integer === null)
    context.log.add('unknown-constant', { what: context.source.textOf(at) }, context.source.place(at));
  return integer;
}

function typeOfParts(
  context: ExpressionContext,
  expression: Expression,
  parts: readonly Expression[],
  count: number,
): ExpressionType {
  let width = 0;
  for (const part of parts) {
    const type = typeOfPart(context, part);
    if (!type.known || type.real) return unknownType;
    width += type.width;
  }
  return limited(context, expression, width * count, false);
}

/** Known by itself only where a type stands before it (IEEE 1800-2017 10.9). */
function typeOfPattern(context: ExpressionContext, { type }: Extract<Expression, { kind: 'pattern' }>): ExpressionType {
  const form = type === null ? null : typeMeant(context, type);
  return form === null ? unknownType : bits(form.width, form.signed ?? false);
}

/** A part of a concatenation must have a size; an unsized number is read at 32 bits, and said (5.1.14). */
function typeOfPart(context: ExpressionContext, part: Expression): ExpressionType {
  if ((part.kind === 'number' && part.size === null) || part.kind === 'fill') {
    context.log.add(
      'unsized-in-concatenation',
      { text: context.source.textOf(part.at) },
      context.source.place(part.at),
    );
  }
  if (part.kind === 'replicate' && replicationCount(context, part) === 0) return bits(0, false);
  return typeOf(context, part);
}

function typeOfReplication(context: ExpressionContext, expression: Extract<Expression, { kind: 'replicate' }>) {
  const count = replicationCount(context, expression);
  if (count === null) return unknownType;
  return count > 0 ? typeOfParts(context, expression, expression.parts, count) : zeroReplication(context, expression);
}

/** A replication by zero may only stand beside something that has bits (5.1.14). */
function zeroReplication(context: ExpressionContext, expression: Expression): ExpressionType {
  const text = context.source.textOf(expression.at);
  context.log.add('zero-replication', { text }, context.source.place(expression.at));
  return unknownType;
}

/** Null where it is not a constant, unknown, or negative: all three are errors in the text (5.1.14). */
export function replicationCount(
  context: ExpressionContext,
  { count }: Extract<Expression, { kind: 'replicate' }>,
): number | null {
  const value = constantInteger(context, count);
  return value === null || value < 0 ? null : value;
}

function typeOfCall(context: ExpressionContext, call: Extract<Expression, { kind: 'call' }>): ExpressionType {
  const { name, args } = call;
  const method = call.callee === undefined ? null : enumMethodOf(context, call);
  if (method !== null) return typeOfMethod(context, method);
  if (args.length === 1 && (name.name === '$signed' || name.name === '$unsigned')) {
    return { ...typeOf(context, args[0]), signed: name.name === '$signed' };
  }
  if (args.length === 2 && name.name === castCall) return typeOfCast(context, args[0], args[1]);
  if (name.name === '$clog2' || name.name === '$bits' || isQuery(name.name)) return bits(32, true);
  if (name.name === '$rtoi') return bits(32, true);
  if (name.name.startsWith('$')) return realFunctionNamed(name.name) === null ? unknownType : realType;
  const called = functionNamed(context, call);
  if (called !== null && usesReals(called.item)) return typeOfRealFunction(context, call);
  const result = functionResult(context, call);
  return result === null ? unknownType : bits(result.shape.width, result.shape.signed);
}

function typeOfCast(context: ExpressionContext, type: Expression, value: Expression): ExpressionType {
  const own = typeOf(context, value);
  const meant = typeMeant(context, type);
  if (meant !== null) return bits(meant.width, meant.signed ?? own.signed);
  const width = constantInteger(context, type);
  return width === null || width < 1 ? unknownType : limited(context, value, width, own.signed);
}

/** The width of a result that is not real is that of its value. */
function typeOfRealFunction(context: ExpressionContext, call: Extract<Expression, { kind: 'call' }>): ExpressionType {
  const value = context.constant(call);
  return value?.kind === 'bits' ? bits(value.bits.width, value.signed) : realType;
}

function limited(context: ExpressionContext, expression: Expression, width: number, signed: boolean): ExpressionType {
  if (width === 0) return zeroReplication(context, expression);
  if (width <= context.limits.width) return bits(width, signed);
  const name = context.source.textOf(expression.at).slice(0, 60);
  const { width: value } = context.limits;
  context.log.add('limit', { limit: 'width', value, name }, context.source.place(expression.at));
  return unknownType;
}
