// What an operator gives for known operand values, by the hardware reading (definition 15 of the project): an unknown
// select merges bit by bit, wildcards count only in case items, unknown bits of arithmetic make the whole result x.
// Gates, tests and arithmetic hear z as x; wiring, choices and shifts move digits, z included.
// Sources have no value here: they are state, kept by whoever runs the netlist.

import { impossible } from '../text/impossible';
import { add, negate, subtract } from './evaluate-add';
import { bitwiseAnd, bitwiseNot, bitwiseOr, bitwiseXor, buffer } from './evaluate-bitwise';
import { choose, chooseLabel, readAt, writeAt } from './evaluate-choice';
import { equal, lessSigned, lessUnsigned } from './evaluate-compare';
import { divide, modulo, multiply, power } from './evaluate-multiply';
import { reduceAnd, reduceOr, reduceXor } from './evaluate-reduce';
import { resolve, tristate } from './evaluate-resolve';
import { shiftLeft, shiftRight } from './evaluate-shift';
import { type Bits, digitAt, toNumber } from './four-state';
import { concat, resize, slice } from './four-state-parts';
import type { MemoryContents } from './memory-contents';
import type { Netlist } from './netlist';
import { type Op, opNames } from './operators';

/** The tables that operators look their `aux` up in. A netlist is one; so is a node builder, that has no memories yet. */
export interface OperatorTables extends Pick<Netlist, 'resolutions' | 'caseWildcards'> {
  readonly memories: readonly Pick<Netlist['memories'][number], 'contents'>[];
}

/** The value of a node of this operator, width and aux (see `operators.ts`), from the values of its operands in order. */
export function evaluate(
  op: number,
  width: number,
  operands: readonly Bits[],
  aux: number,
  tables: OperatorTables,
): Bits {
  return evaluators[op](operands, width, aux, tables);
}

type Evaluator = (operands: readonly Bits[], width: number, aux: number, tables: OperatorTables) => Bits;

const byName: Readonly<Record<keyof typeof Op, Evaluator>> = {
  constant: noValue,
  input: noValue,
  register: noValue,
  latch: noValue,
  blackBox: noValue,
  undriven: noValue,
  hole: noValue,

  net: ([value]) => value,
  delay: ([value]) => value,
  resolve: (drivers, _width, aux, tables) => resolve(tables.resolutions[aux].kind, drivers),
  concat: (parts) => concat(parts),
  slice: ([value], width, low) => slice(value, low, width),
  zeroExtend: ([value], width) => resize(value, width, 'zero'),
  signExtend: ([value], width) => resize(value, width, 'sign'),

  buf: ([value]) => buffer(value),
  not: ([value]) => bitwiseNot(value),
  and: (values) => bitwiseAnd(values),
  nand: (values) => bitwiseNot(bitwiseAnd(values)),
  or: (values) => bitwiseOr(values),
  nor: (values) => bitwiseNot(bitwiseOr(values)),
  xor: (values) => bitwiseXor(values),
  xnor: (values) => bitwiseNot(bitwiseXor(values)),
  tristate: ([data, enable]) => tristate(data, enable),
  reduceAnd: ([value]) => reduceAnd(value),
  reduceOr: ([value]) => reduceOr(value),
  reduceXor: ([value]) => reduceXor(value),

  equal: ([left, right]) => equal(left, right),
  notEqual: ([left, right]) => bitwiseNot(equal(left, right)),
  lessUnsigned: ([left, right]) => lessUnsigned(left, right),
  lessSigned: ([left, right]) => lessSigned(left, right),
  lessEqualUnsigned: ([left, right]) => bitwiseNot(lessUnsigned(right, left)),
  lessEqualSigned: ([left, right]) => bitwiseNot(lessSigned(right, left)),

  add: ([left, right]) => add(left, right),
  subtract: ([left, right]) => subtract(left, right),
  negate: ([value]) => negate(value),
  multiply: ([left, right]) => multiply(left, right),
  divideUnsigned: ([left, right]) => divide('unsigned', left, right),
  divideSigned: ([left, right]) => divide('signed', left, right),
  moduloUnsigned: ([left, right]) => modulo('unsigned', left, right),
  moduloSigned: ([left, right]) => modulo('signed', left, right),
  powerUnsigned: ([base, exponent], _width, aux) =>
    power('unsigned', aux === 1 ? 'signed' : 'unsigned', base, exponent),
  powerSigned: ([base, exponent], _width, aux) => power('signed', aux === 1 ? 'unsigned' : 'signed', base, exponent),
  shiftLeft: ([value, amount]) => shiftLeft(value, amount),
  shiftRight: ([value, amount]) => shiftRight(value, amount, 'zero'),
  shiftRightSigned: ([value, amount]) => shiftRight(value, amount, 'sign'),

  mux: ([select, whenOne, whenZero], _width, aux, tables) =>
    aux > 0 && select.b[0] !== 0
      ? contentsAt(tables, aux - 1).merge([whenOne, whenZero])
      : choose(select, whenOne, whenZero),
  select: (operands, _width, aux, tables) => chooseLabel(operands, aux < 0 ? null : tables.caseWildcards[aux]),
  readAt: ([vector, index], width) => readAt(vector, index, width),
  writeAt: ([vector, index, piece]) => writeAt(vector, index, piece),

  memoryRead: ([content, ...indices], _width, aux, tables) => contentsAt(tables, aux).read(content, indices),
  memoryWrite: ([content, piece, low, ...indices], _width, aux, tables) =>
    contentsAt(tables, aux).write(content, indices, low, piece),
  memoryFill: ([content, value, ...bounds], _width, aux, tables) =>
    contentsAt(tables, aux).fill(content, value, rangesOf(bounds)),
  memoryPick: ([which, ...contents], _width, aux, tables) =>
    contentsAt(tables, aux).merge(contents.filter((_, index) => digitAt(which, index) !== '0')),
};

/** By operator number. */
const evaluators: readonly Evaluator[] = opNames.map((name) => byName[name as keyof typeof Op]);

function noValue(): never {
  return impossible('a source has no value of its own');
}

function contentsAt({ memories }: OperatorTables, memory: number): MemoryContents {
  return memories[memory].contents ?? impossible(`memory ${memory} is kept word by word`);
}

/** First index and the one behind the last, dimension by dimension. */
function rangesOf(bounds: readonly Bits[]): { readonly from: number; readonly until: number }[] {
  return Array.from({ length: bounds.length / 2 }, (_, dimension) => ({
    from: toNumber(bounds[2 * dimension]) ?? 0,
    until: toNumber(bounds[2 * dimension + 1]) ?? 0,
  }));
}
