// An evaluator of Verilog expressions, written from IEEE 1364-2005 clauses 5.1, 5.4 and 5.5 alone: digits as text,
// arithmetic as BigInt. It imports nothing of the tool, so that the two can only agree by both being right.

import type { Expression } from './expression';

/** Self-determined width, IEEE 1364-2005 table 5-22. */
export function widthOf(expression: Expression): number {
  switch (expression.kind) {
    case 'literal':
      return expression.digits.length;
    case 'unary':
      return ['+', '-', '~'].includes(expression.operator) ? widthOf(expression.operand) : 1;
    case 'binary':
      if (isOneBit(expression.operator)) return 1;
      if (isShift(expression.operator) || expression.operator === '**') return widthOf(expression.left);
      return Math.max(widthOf(expression.left), widthOf(expression.right));
    case 'conditional':
      return Math.max(widthOf(expression.then), widthOf(expression.else));
    case 'concat':
      return expression.parts.reduce((sum, part) => sum + widthOf(part), 0);
    case 'replicate':
      return expression.count * widthOf(expression.part);
    case 'cast':
      return widthOf(expression.operand);
  }
}

/** Signedness, clause 5.5.1: only operands that are not self-determined count. */
export function isSigned(expression: Expression): boolean {
  switch (expression.kind) {
    case 'literal':
    case 'cast':
      return expression.signed;
    case 'unary':
      return ['+', '-', '~'].includes(expression.operator) && isSigned(expression.operand);
    case 'binary':
      if (isOneBit(expression.operator)) return false;
      if (isShift(expression.operator) || expression.operator === '**') return isSigned(expression.left);
      return isSigned(expression.left) && isSigned(expression.right);
    case 'conditional':
      return isSigned(expression.then) && isSigned(expression.else);
    default:
      return false;
  }
}

/** What a target of `width` bits holds after the assignment (clause 5.5.3): digits, most significant first. */
export function assigned(expression: Expression, width: number): string {
  const context = Math.max(width, widthOf(expression));
  return evaluate(expression, context, isSigned(expression)).slice(context - width);
}

/** Value in a context of `width` bits whose propagated type is `signed` (clause 5.5.2). */
function evaluate(expression: Expression, width: number, signed: boolean): string {
  switch (expression.kind) {
    case 'literal':
      return extend(expression.digits, width, signed);
    case 'cast':
      return extend(selfDetermined(expression.operand), width, signed);
    case 'concat':
      return extend(expression.parts.map(selfDetermined).join(''), width, false);
    case 'replicate':
      return extend(selfDetermined(expression.part).repeat(expression.count), width, false);
    case 'conditional':
      return conditional(expression, width, signed);
    case 'unary':
      return unary(expression, width, signed);
    case 'binary':
      return binary(expression, width, signed);
  }
}

function selfDetermined(expression: Expression): string {
  return evaluate(expression, widthOf(expression), isSigned(expression));
}

/** An operand is extended by the type propagated to it: by its own top digit where signed, else by zeros (5.5.2). */
function extend(digits: string, width: number, signed: boolean): string {
  const fill = signed ? digits[0] : '0';
  return digits.padStart(width, fill);
}

function conditional(expression: Expression & { kind: 'conditional' }, width: number, signed: boolean): string {
  const truth = truthOf(selfDetermined(expression.condition));
  const then = evaluate(expression.then, width, signed);
  const otherwise = evaluate(expression.else, width, signed);
  if (truth !== 'x') return truth === '1' ? then : otherwise;
  return zip(then, otherwise, (a, b) => (a === b && isKnown(a) ? a : 'x'));
}

function unary(expression: Expression & { kind: 'unary' }, width: number, signed: boolean): string {
  const { operator } = expression;
  if (operator === '+' || operator === '-' || operator === '~') {
    const operand = evaluate(expression.operand, width, signed);
    if (operator === '~') return [...operand].map(not).join('');
    // Table 5-7: unary plus is "the same as m", so that unknown bits stay where they are.
    if (operator === '+') return operand;
    return isKnown(operand) ? digitsOf(-toUnsigned(operand), width) : xs(width);
  }
  return extend(reduce(operator, selfDetermined(expression.operand)), width, false);
}

function reduce(operator: string, operand: string): string {
  if (operator === '!') return not(truthOf(operand));
  const inverted = operator.length === 2;
  const gate = { '&': and, '|': or, '^': xor }[operator[operator.length - 1]] as (a: string, b: string) => string;
  const result = [...operand].reduce((a, b) => gate(a, b), operator.endsWith('&') ? '1' : '0');
  return inverted ? not(result) : result;
}

function binary(expression: Expression & { kind: 'binary' }, width: number, signed: boolean): string {
  const { operator } = expression;
  if (operator === '&&' || operator === '||') {
    const gate = operator === '&&' ? and : or;
    return extend(
      gate(truthOf(selfDetermined(expression.left)), truthOf(selfDetermined(expression.right))),
      width,
      false,
    );
  }
  if (isOneBit(operator)) return extend(compare(expression), width, false);
  const left = evaluate(expression.left, width, signed);
  if (isShift(operator)) return shift(operator, left, selfDetermined(expression.right), signed);
  if (operator === '**') return power(left, expression.right, signed);
  const right = evaluate(expression.right, width, signed);
  const gate = { '&': and, '|': or, '^': xor, '~^': (a: string, b: string) => not(xor(a, b)) }[operator];
  if (gate) return zip(left, right, gate);
  return arithmetic(operator, left, right, signed);
}

/** Operands are as wide as the wider one, signed where both are (clauses 5.1.7 and 5.1.8). */
function compare(expression: Expression & { kind: 'binary' }): string {
  const width = Math.max(widthOf(expression.left), widthOf(expression.right));
  const signed = isSigned(expression.left) && isSigned(expression.right);
  const left = evaluate(expression.left, width, signed);
  const right = evaluate(expression.right, width, signed);
  const { operator } = expression;
  if (operator === '===' || operator === '!==') return (left === right) === (operator === '===') ? '1' : '0';
  if (operator === '==' || operator === '!=') {
    const equal = zip(left, right, (a, b) => not(xor(a, b)));
    const result = [...equal].reduce((a, b) => and(a, b), '1');
    return operator === '==' ? result : not(result);
  }
  if (!isKnown(left) || !isKnown(right)) return 'x';
  const [a, b] = signed ? [toSigned(left), toSigned(right)] : [toUnsigned(left), toUnsigned(right)];
  const holds = { '<': a < b, '<=': a <= b, '>': a > b, '>=': a >= b }[operator];
  return holds ? '1' : '0';
}

/** Clause 5.1.12: the amount is unsigned; >>> fills with the sign where the result type is signed. */
function shift(operator: string, value: string, amount: string, signed: boolean): string {
  const width = value.length;
  if (!isKnown(amount)) return xs(width);
  const by = Number(toUnsigned(amount) > BigInt(width) ? BigInt(width) : toUnsigned(amount));
  if (operator.startsWith('<')) return value.slice(by) + '0'.repeat(by);
  const fill = operator === '>>>' && signed ? value[0] : '0';
  return fill.repeat(by) + value.slice(0, width - by);
}

function arithmetic(operator: string, left: string, right: string, signed: boolean): string {
  const width = left.length;
  if (!isKnown(left) || !isKnown(right)) return xs(width);
  const [a, b] = signed ? [toSigned(left), toSigned(right)] : [toUnsigned(left), toUnsigned(right)];
  if (operator === '+') return digitsOf(a + b, width);
  if (operator === '-') return digitsOf(a - b, width);
  if (operator === '*') return digitsOf(a * b, width);
  if (b === 0n) return xs(width);
  return digitsOf(operator === '/' ? a / b : a % b, width);
}

/** Clause 5.1.5, table 5-6; the exponent is self-determined and keeps its own sign. */
function power(base: string, exponentExpression: Expression, signed: boolean): string {
  const width = base.length;
  const digits = selfDetermined(exponentExpression);
  if (!isKnown(base) || !isKnown(digits)) return xs(width);
  const a = signed ? toSigned(base) : toUnsigned(base);
  const exponent = isSigned(exponentExpression) ? toSigned(digits) : toUnsigned(digits);
  if (exponent >= 0n) return digitsOf(powerModulo(a, exponent, 1n << BigInt(width)), width);
  if (a === 0n) return xs(width);
  if (a === 1n) return digitsOf(1n, width);
  if (a === -1n) return digitsOf(exponent % 2n === 0n ? 1n : -1n, width);
  return digitsOf(0n, width);
}

function powerModulo(base: bigint, exponent: bigint, modulus: bigint): bigint {
  let result = 1n;
  let square = base % modulus;
  for (let rest = exponent; rest > 0n; rest >>= 1n) {
    if (rest & 1n) result = (result * square) % modulus;
    square = (square * square) % modulus;
  }
  return result;
}

function isOneBit(operator: string): boolean {
  return ['==', '!=', '===', '!==', '<', '<=', '>', '>=', '&&', '||'].includes(operator);
}

function isShift(operator: string): boolean {
  return ['<<', '>>', '<<<', '>>>'].includes(operator);
}

function isKnown(digits: string): boolean {
  return !/[xz]/.test(digits);
}

function truthOf(digits: string): string {
  return digits.includes('1') ? '1' : isKnown(digits) ? '0' : 'x';
}

/** Clause 5.1.10: z as an input acts as x. */
function and(a: string, b: string): string {
  return a === '0' || b === '0' ? '0' : a === '1' && b === '1' ? '1' : 'x';
}

function or(a: string, b: string): string {
  return a === '1' || b === '1' ? '1' : a === '0' && b === '0' ? '0' : 'x';
}

function xor(a: string, b: string): string {
  return isKnown(a + b) ? (a === b ? '0' : '1') : 'x';
}

function not(a: string): string {
  return a === '0' ? '1' : a === '1' ? '0' : 'x';
}

function zip(left: string, right: string, gate: (a: string, b: string) => string): string {
  return [...left].map((digit, index) => gate(digit, right[index])).join('');
}

function xs(width: number): string {
  return 'x'.repeat(width);
}

function toUnsigned(digits: string): bigint {
  return BigInt(`0b${digits}`);
}

function toSigned(digits: string): bigint {
  return BigInt.asIntN(digits.length, toUnsigned(digits));
}

export function digitsOf(value: bigint, width: number): string {
  return BigInt.asUintN(width, value).toString(2).padStart(width, '0');
}
