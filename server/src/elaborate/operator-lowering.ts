// The operators of the text as operators of the netlist, once their operands have their widths.

import { zero } from '../netlist/four-state';
import { Op, type OpCode } from '../netlist/operators';
import type { At, BinaryOperator, Expression, UnaryOperator } from '../syntax/tables';
import { type Algebra, type Reader, resizeTo, sliceOf } from './algebra';
import type { ExpressionContext } from './expression-context';

export interface Style {
  /** Of the context the operator stands in. */
  readonly signed: boolean;
  readonly at: At;
}

/** Logical negation and reductions: width 1. */
export function applyUnary<Value>(
  algebra: Algebra<Value>,
  operator: Exclude<UnaryOperator, '+' | '-' | '~'>,
  operand: Value,
  at: At,
): Value {
  const { op, inverted } = reductions[operator];
  const reduced = algebra.widthOf(operand) === 1 ? operand : algebra.apply(op, 1, [operand], 0, at);
  return inverted ? algebra.apply(Op.not, 1, [reduced], 0, at) : reduced;
}

const reductions = {
  '!': { op: Op.reduceOr, inverted: true },
  '&': { op: Op.reduceAnd, inverted: false },
  '~&': { op: Op.reduceAnd, inverted: true },
  '|': { op: Op.reduceOr, inverted: false },
  '~|': { op: Op.reduceOr, inverted: true },
  '^': { op: Op.reduceXor, inverted: false },
  '~^': { op: Op.reduceXor, inverted: true },
} as const;

/** Operators whose operands share the context's width. */
export function applyBinary<Value>(
  algebra: Algebra<Value>,
  operator: BinaryOperator,
  left: Value,
  right: Value,
  { signed, at }: Style,
): Value {
  return algebra.apply(arithmetic(operator, signed), algebra.widthOf(left), [left, right], 0, at);
}

function arithmetic(operator: BinaryOperator, signed: boolean): OpCode {
  switch (operator) {
    case '+':
      return Op.add;
    case '-':
      return Op.subtract;
    case '*':
      return Op.multiply;
    case '/':
      return signed ? Op.divideSigned : Op.divideUnsigned;
    case '%':
      return signed ? Op.moduloSigned : Op.moduloUnsigned;
    case '&':
      return Op.and;
    case '|':
      return Op.or;
    case '^':
      return Op.xor;
    default:
      return Op.xnor;
  }
}

export interface Amount<Value> {
  readonly value: Value;
  readonly signed: boolean;
}

/** Shifts and powers: the right operand keeps its own width; a shift takes it as unsigned (IEEE 1364-2005 5.1.12). */
export function applyShift<Value>(
  algebra: Algebra<Value>,
  operator: BinaryOperator,
  base: Value,
  amount: Amount<Value>,
  style: Style,
): Value {
  if (operator === '**') return applyPower(algebra, base, amount, style);
  const width = algebra.widthOf(base);
  const op = operator === '<<' || operator === '<<<' ? Op.shiftLeft : rightShift(operator, style.signed);
  const bits = algebra.constantOf(amount.value);
  const steps = bits === null || bits.b.some((limb) => limb !== 0) ? null : Math.min(width, lowLimb(bits.a));
  if (steps === null) return algebra.apply(op, width, [base, amount.value], 0, style.at);
  return shiftByConstant(algebra, op, base, steps, style.at);
}

function rightShift(operator: BinaryOperator, signed: boolean): OpCode {
  return operator === '>>>' && signed ? Op.shiftRightSigned : Op.shiftRight;
}

/** The amount, or a number beyond every width. */
function lowLimb(limbs: Uint32Array): number {
  return limbs.some((limb, index) => index > 0 && limb !== 0) ? 0xffffffff : limbs[0];
}

/** A shift by a constant is wiring. */
function shiftByConstant<Value>(algebra: Algebra<Value>, op: OpCode, base: Value, steps: number, at: At): Value {
  const width = algebra.widthOf(base);
  if (steps === 0) return base;
  const isSigned = op === Op.shiftRightSigned;
  if (steps === width && !isSigned) return algebra.constant(zero(width), at);
  if (op === Op.shiftLeft) {
    const kept = sliceOf(algebra, base, 0, width - steps, at);
    return algebra.apply(Op.concat, width, [kept, algebra.constant(zero(steps), at)], 0, at);
  }
  const from = Math.min(steps, width - 1);
  return resizeTo(algebra, sliceOf(algebra, base, from, width - from, at), width, isSigned ? 'sign' : 'zero', at);
}

/** A power is signed where its base is, whatever its exponent is (IEEE 1364-2005 5.4.1, 5.5.1). */
function applyPower<Value>(
  algebra: Algebra<Value>,
  base: Value,
  exponent: Amount<Value>,
  { signed, at }: Style,
): Value {
  const op = signed ? Op.powerSigned : Op.powerUnsigned;
  return algebra.apply(op, algebra.widthOf(base), [base, exponent.value], exponent.signed === signed ? 0 : 1, at);
}

/** A comparison of operands of one width: width 1. */
export function applyTest<Value>(
  { context, reader }: { readonly context: ExpressionContext; readonly reader: Reader<Value> },
  expression: Extract<Expression, { kind: 'binary' }>,
  left: Value,
  right: Value,
  signed: boolean,
): Value {
  const { algebra } = reader;
  const { operator, at } = expression;
  if (operator === '===' || operator === '!==') {
    const equal = algebra.caseEqual(left, right, at);
    return operator === '===' ? equal : algebra.apply(Op.not, 1, [equal], 0, at);
  }
  const test = tests[operator as keyof typeof tests];
  if (test === undefined) {
    const complaint = context.log.add('construct', { what: operator }, context.source.place(at));
    return algebra.hole(1, complaint, at);
  }
  const op = signed ? test.signed : test.unsigned;
  const [first, second] = test.swapped ? [right, left] : [left, right];
  const result = algebra.compare(op, first, second, at);
  reader.compared({ op, left: first, right: second, result, expression });
  return result;
}

const tests = {
  '==': { unsigned: Op.equal, signed: Op.equal, swapped: false },
  '!=': { unsigned: Op.notEqual, signed: Op.notEqual, swapped: false },
  '<': { unsigned: Op.lessUnsigned, signed: Op.lessSigned, swapped: false },
  '<=': { unsigned: Op.lessEqualUnsigned, signed: Op.lessEqualSigned, swapped: false },
  '>': { unsigned: Op.lessUnsigned, signed: Op.lessSigned, swapped: true },
  '>=': { unsigned: Op.lessEqualUnsigned, signed: Op.lessEqualSigned, swapped: true },
} as const;
