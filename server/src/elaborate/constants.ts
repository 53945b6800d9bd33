// Constant expressions by IEEE 1364-2005 5 to the letter: parameters, ranges, delays, generate conditions. Real
// arithmetic (4.8) stands here too, since only constants may be real.

import { allX, type Bits, digitBits } from '../netlist/four-state';
import type { PackedForm } from '../netlist/packed-form';
import type { BinaryOperator, Expression } from '../syntax/tables';
import { bitsAlgebra, type Reader } from './algebra';
import { queried } from './array-queries';
import { isQuery } from './query-names';
import { castCall, typeFormMeant, typeMeant } from './casts';
import { type ConstantValue, integerValue, numberOf } from './constant-value';
import { isTooDeep } from './expression-depth';
import type { ExpressionContext } from './expression-context';
import { functionNamed, usesReals } from './find-subroutine';
import { isTest, typeOf } from './expression-type';
import { lower, lowerFor } from './lower';
import { literalBits, literalWidth } from './number-literal';
import { runRealFunction } from './real-functions';
import { realArguments, realFunctionNamed } from './real-math';
import { isReference, type ReferenceExpression, resolveReference } from './references';
import type { Scope } from './scope';

export type ModuleSurroundings = Omit<ExpressionContext, 'scope' | 'constant'>;

export function contextIn(module: ModuleSurroundings, scope: Scope): ExpressionContext {
  const { source, log, limits, moduleName } = module;
  const context: ExpressionContext = {
    source,
    log,
    limits,
    moduleName,
    scope,
    constant: (expression) => rememberedConstant(context, expression),
    subroutineBelow: (entity, path, unit) => module.subroutineBelow(entity, path, unit),
    scoped: (where, from, name) => module.scoped(where, from, name),
    runFunction: (call, outside) => module.runFunction(call, outside),
    below: (child) => module.below(child),
  };
  return context;
}

const remembered = new WeakMap<Scope, Map<Expression, ConstantValue | null>>();

/**
 * Worked out once per scope: the bounds of a select are asked for several times, and selects may stand in the bounds of
 * selects.
 */
function rememberedConstant(context: ExpressionContext, expression: Expression): ConstantValue | null {
  if (expression.kind === 'number' || expression.kind === 'name') return constantOf(context, expression);
  const known = remembered.get(context.scope) ?? new Map<Expression, ConstantValue | null>();
  remembered.set(context.scope, known);
  const answer = known.get(expression);
  if (answer !== undefined) return answer;
  const constant = constantOf(context, expression);
  known.set(expression, constant);
  return constant;
}

/** Null where the expression reads what varies, or what is not there. */
function constantOf(context: ExpressionContext, expression: Expression): ConstantValue | null {
  // Most constants are numbers, and need not go through lowering.
  if (expression.kind === 'number' && literalWidth(expression) <= context.limits.width) {
    return { kind: 'bits', bits: literalBits(expression, literalWidth(expression)), signed: expression.signed };
  }
  if (isTooDeep(context, expression)) return null;
  const call = constantCall(context, expression);
  if (call !== undefined) return call;
  const test = realTest(context, expression);
  if (test !== undefined) return test;
  const type = typeOf(context, expression);
  if (!type.known) return null;
  if (type.real) return realOf(context, expression);
  const bits = fixedBits((reader) => lower({ context, reader }, expression));
  return bits === null ? null : { kind: 'bits', bits, signed: type.signed };
}

/** The same as the right-hand side of an assignment to `width` bits. */
export function constantBits(
  context: ExpressionContext,
  expression: Expression,
  width: number,
  form: () => PackedForm | null = () => null,
): Bits | null {
  return fixedBits((reader) => lowerFor({ context, reader }, expression, width, form));
}

/** What lowering gives, unless it has read something that varies. */
function fixedBits(lowered: (reader: Reader<Bits>) => Bits): Bits | null {
  let varies = false;
  const hole = (width: number): Bits => {
    varies = true;
    return allX(width);
  };
  const reader: Reader<Bits> = {
    algebra: { ...bitsAlgebra, hole },
    read: (_signal, _low, width) => hole(width),
    readBelow: (_below, _low, width) => hole(width),
    call: (call) => (varies ? hole(call.result.shape.width) : call.context.runFunction(call, reader)),
    indexed() {},
    compared() {},
  };
  const bits = lowered(reader);
  return varies ? null : bits;
}

/** Functions of constants that are known by name; undefined where the expression is none of them. */
function constantCall(context: ExpressionContext, expression: Expression): ConstantValue | null | undefined {
  if (expression.kind !== 'call') return undefined;
  const { name, args } = expression;
  if (name.name === '$signed' || name.name === '$unsigned' || name.name === castCall) return undefined;
  if (!name.name.startsWith('$')) return realFunctionCall(context, expression);
  const compute = realFunctionNamed(name.name);
  if (compute !== null) return args.length === realArguments(name.name) ? realCall(context, args, compute) : null;
  if (isQuery(name.name)) return queryAnswer(context, name.name, args);
  if (args.length !== 1) return null;
  if (name.name === '$clog2') return ceilingLog2(constantOf(context, args[0]));
  if (name.name === '$bits') return sizeOf(context, args[0]);
  return null;
}

/** Of a type or of a value; of a type with unpacked dimensions all of its bits. */
function sizeOf(context: ExpressionContext, about: Expression): ConstantValue | null {
  const form = typeFormMeant(context, about);
  if (form !== null) return integerValue((form.dimensions ?? []).reduce((all, { width }) => all * width, form.width));
  const type = typeMeant(context, about) ?? typeOf(context, about);
  return !('known' in type) || type.known ? integerValue(type.width) : null;
}

function queryAnswer(
  context: ExpressionContext,
  query: string,
  [about, dimension]: readonly Expression[],
): ConstantValue | null {
  const number = dimension === undefined ? 1 : (numberOf(constantOf(context, dimension) ?? integerValue(0)) ?? 0);
  const found = about === undefined ? null : queried(context, query, about, number);
  return found === null ? null : integerValue(found);
}

function realCall(
  context: ExpressionContext,
  args: readonly Expression[],
  compute: (args: readonly number[]) => ConstantValue | null,
): ConstantValue | null {
  const numbers = args.flatMap((argument) => realNumber(context, argument) ?? []);
  return numbers.length === args.length ? compute(numbers) : null;
}

/** Undefined for a function without reals, which is lowered like any other. */
function realFunctionCall(
  context: ExpressionContext,
  call: Extract<Expression, { kind: 'call' }>,
): ConstantValue | null | undefined {
  const called = functionNamed(context, call);
  if (called === null || !usesReals(called.item)) return undefined;
  const args = call.args.flatMap((argument) => constantOf(context, argument) ?? []);
  if (args.length !== call.args.length) return null;
  return runRealFunction(called, args, (scope) => contextIn(context, scope));
}

/** The ceiling of the logarithm, 0 for 0 (IEEE 1364-2005 17.11.1); the argument counts as unsigned. */
function ceilingLog2(value: ConstantValue | null): ConstantValue | null {
  const number = value === null ? null : numberOf(value.kind === 'bits' ? { ...value, signed: false } : value);
  if (number === null) return null;
  let power = 0;
  while (2 ** power < number) power++;
  return integerValue(power);
}

/** A comparison of reals; undefined where the expression is none. */
function realTest(context: ExpressionContext, expression: Expression): ConstantValue | null | undefined {
  if (expression.kind !== 'binary' || !isTest(expression.operator)) return undefined;
  const { left, right, operator } = expression;
  if (!typeOf(context, left).real && !typeOf(context, right).real) return undefined;
  const [first, second] = [realNumber(context, left), realNumber(context, right)];
  const holds = first === null || second === null ? null : compareReals(operator, first, second);
  return holds === null ? null : { kind: 'bits', bits: digitBits(holds ? '1' : '0'), signed: false };
}

function compareReals(operator: BinaryOperator, left: number, right: number): boolean | null {
  switch (operator) {
    case '==':
      return left === right;
    case '!=':
      return left !== right;
    case '<':
      return left < right;
    case '<=':
      return left <= right;
    case '>':
      return left > right;
    case '>=':
      return left >= right;
    case '&&':
      return left !== 0 && right !== 0;
    case '||':
      return left !== 0 || right !== 0;
    default:
      return null;
  }
}

function realOf(context: ExpressionContext, expression: Expression): ConstantValue | null {
  const value = realNumber(context, expression);
  return value === null ? null : { kind: 'real', value };
}

function realNumber(context: ExpressionContext, expression: Expression): number | null {
  if (expression.kind === 'real') return expression.value;
  if (!typeOf(context, expression).real) {
    const value = constantOf(context, expression);
    return value === null ? null : numberOf(value);
  }
  switch (expression.kind) {
    case 'unary': {
      const operand = realNumber(context, expression.operand);
      if (operand === null) return null;
      return expression.operator === '-' ? -operand : expression.operator === '+' ? operand : null;
    }
    case 'binary': {
      const left = realNumber(context, expression.left);
      const right = realNumber(context, expression.right);
      return left === null || right === null ? null : realArithmetic(expression.operator, left, right);
    }
    case 'conditional': {
      const condition = realNumber(context, expression.condition);
      return condition === null ? null : realNumber(context, condition !== 0 ? expression.then : expression.else);
    }
    case 'mintypmax':
      return realNumber(context, expression.typ);
    case 'call': {
      const value = constantCall(context, expression);
      return value == null ? null : numberOf(value);
    }
    default:
      return isReference(expression) ? realParameter(context, expression) : null;
  }
}

function realParameter(context: ExpressionContext, expression: ReferenceExpression): number | null {
  const reference = resolveReference(context, expression);
  return reference.kind === 'parameter' && reference.select === null ? numberOf(reference.parameter.value()) : null;
}

function realArithmetic(operator: BinaryOperator, left: number, right: number): number | null {
  switch (operator) {
    case '+':
      return left + right;
    case '-':
      return left - right;
    case '*':
      return left * right;
    case '/':
      return right === 0 ? null : left / right;
    case '**':
      return left ** right;
    default:
      return null;
  }
}
