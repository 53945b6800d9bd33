// A second evaluator, to hold the first to: values are strings of digits, most significant first, one digit at a time
// by tables written out as in IEEE 1364-2005, numbers by big integers. Slow, and shares nothing with the first.

export type Digits = string;

/** Tables by row (first operand) and column (second), both in the order 0 1 x z. */
export const tables = {
  /** 5.1.10, Table 5-12 */
  and: ['0000', '01xx', '0xxx', '0xxx'],
  /** 5.1.10, Table 5-13 */
  or: ['01xx', '1111', 'x1xx', 'x1xx'],
  /** 5.1.10, Table 5-14 */
  xor: ['01xx', '10xx', 'xxxx', 'xxxx'],
  /** 5.1.10, Table 5-15 */
  xnor: ['10xx', '01xx', 'xxxx', 'xxxx'],
  /** 5.1.13, Table 5-21: an ambiguous condition */
  conditional: ['0xxx', 'x1xx', 'xxxx', 'xxxx'],
  /** 4.6.1, Table 4-2 */
  wire: ['0xx0', 'x1x1', 'xxxx', '01xz'],
  /** 4.6.2, Table 4-3 */
  wand: ['0000', '01x1', '0xxx', '01xz'],
  /** 4.6.2, Table 4-4 */
  wor: ['01x0', '1111', 'x1xx', '01xz'],
} as const;

const order = '01xz';

export function lookUp(table: readonly string[], row: string, column: string): string {
  return table[order.indexOf(row)][order.indexOf(column)];
}

export function byDigit(table: readonly string[], left: Digits, right: Digits): Digits {
  return [...left].map((digit, index) => lookUp(table, digit, right[index])).join('');
}

export function isKnown(value: Digits): boolean {
  return !/[xz]/.test(value);
}

export function unsigned(value: Digits): bigint {
  return BigInt(`0b0${value}`);
}

export function signed(value: Digits): bigint {
  return unsigned(value) - (value[0] === '1' ? 2n ** BigInt(value.length) : 0n);
}

export function digitsOf(width: number, value: bigint): Digits {
  const modulus = 2n ** BigInt(width);
  return (((value % modulus) + modulus) % modulus).toString(2).padStart(width, '0');
}

export function referenceEvaluate(op: string, width: number, operands: readonly Digits[], aux: number): Digits {
  const [first, second, third] = operands;
  switch (op) {
    case 'net':
    case 'delay':
      return first;
    case 'concat':
      return operands.join('');
    case 'slice':
      return first.slice(first.length - aux - width, first.length - aux);
    case 'zeroExtend':
      return first.padStart(width, '0');
    case 'signExtend':
      return first.padStart(width, first[0]);
    case 'buf':
      return first.replace(/z/g, 'x');
    case 'not':
      return inverted(first);
    case 'and':
    case 'or':
    case 'xor':
      return operands.reduce((sum, value) => byDigit(tables[op], sum, value), filled(op === 'and' ? '1' : '0', width));
    case 'nand':
      return inverted(referenceEvaluate('and', width, operands, 0));
    case 'nor':
      return inverted(referenceEvaluate('or', width, operands, 0));
    case 'xnor':
      return inverted(referenceEvaluate('xor', width, operands, 0));
    case 'tristate':
      if (second === '0') return filled('z', width);
      return second === '1' ? first.replace(/z/g, 'x') : filled('x', width);
    case 'reduceAnd':
      return [...first].reduce((sum, digit) => lookUp(tables.and, sum, digit), '1');
    case 'reduceOr':
      return [...first].reduce((sum, digit) => lookUp(tables.or, sum, digit), '0');
    case 'reduceXor':
      return [...first].reduce((sum, digit) => lookUp(tables.xor, sum, digit), '0');
    case 'equal':
      return equality(first, second);
    case 'notEqual':
      return inverted(equality(first, second));
    case 'lessUnsigned':
      return compared(operands, () => unsigned(first) < unsigned(second));
    case 'lessSigned':
      return compared(operands, () => signed(first) < signed(second));
    case 'lessEqualUnsigned':
      return compared(operands, () => unsigned(first) <= unsigned(second));
    case 'lessEqualSigned':
      return compared(operands, () => signed(first) <= signed(second));
    case 'shiftLeft':
      return shifted(operands, (by) => (first + filled('0', by)).slice(by));
    case 'shiftRight':
      return shifted(operands, (by) => (filled('0', by) + first).slice(0, width));
    case 'shiftRightSigned':
      return shifted(operands, (by) => (filled(first[0], by) + first).slice(0, width));
    case 'mux':
      if (isKnown(first)) return first === '1' ? second : third;
      return byDigit(tables.conditional, second, third);
    default:
      return operands.every(isKnown) ? arithmetic(op, width, operands) : filled('x', width);
  }
}

/** 5.1.5 and Table 5-6, on known operands. */
function arithmetic(op: string, width: number, [first, second]: readonly Digits[]): Digits {
  const isSigned = op.endsWith('Signed');
  const left = isSigned ? signed(first) : unsigned(first);
  const right = second === undefined ? 0n : isSigned ? signed(second) : unsigned(second);
  switch (op.replace(/(Uns|S)igned$/, '')) {
    case 'add':
      return digitsOf(width, left + right);
    case 'subtract':
      return digitsOf(width, left - right);
    case 'negate':
      return digitsOf(width, -left);
    case 'multiply':
      return digitsOf(width, left * right);
    case 'divide':
      return right === 0n ? filled('x', width) : digitsOf(width, left / right);
    case 'modulo':
      return right === 0n ? filled('x', width) : digitsOf(width, left - (left / right) * right);
    case 'power':
      return right >= 0n ? digitsOf(width, left ** right) : fractionPower(width, left, right);
    default:
      throw new Error(`no reference for ${op}`);
  }
}

function fractionPower(width: number, base: bigint, exponent: bigint): Digits {
  if (base === 0n) return filled('x', width);
  if (base === 1n || base === -1n) return digitsOf(width, base ** -exponent);
  return filled('0', width);
}

function inverted(value: Digits): Digits {
  return value.replace(/./g, (digit) => ({ 0: '1', 1: '0' })[digit] ?? 'x');
}

function equality(left: Digits, right: Digits): Digits {
  const digits = [...byDigit(tables.xnor, left, right)];
  if (digits.includes('0')) return '0';
  return digits.includes('x') ? 'x' : '1';
}

function compared(operands: readonly Digits[], test: () => boolean): Digits {
  if (!operands.every(isKnown)) return 'x';
  return test() ? '1' : '0';
}

function shifted([value, amount]: readonly Digits[], shift: (by: number) => Digits): Digits {
  if (!isKnown(amount)) return filled('x', value.length);
  const by = unsigned(amount);
  return shift(by > BigInt(value.length) ? value.length : Number(by));
}

function filled(digit: string, width: number): Digits {
  return digit.repeat(width);
}

/** Every known value that digits with unknowns could stand for. */
export function completions(value: Digits): Digits[] {
  const at = value.search(/[xz]/);
  if (at < 0) return [value];
  return ['0', '1'].flatMap((digit) => completions(value.slice(0, at) + digit + value.slice(at + 1)));
}

/** Where values that could be meant agree on a known digit, that digit; else x. One value stays as it is. */
export function mergedDigits(values: readonly Digits[]): Digits {
  return values.reduce((sum, value) => byDigit(tables.conditional, sum, value));
}
