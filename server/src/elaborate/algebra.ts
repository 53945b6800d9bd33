// What expressions are lowered into. The rules of widths and signs are written once, over values of any kind: nodes of
// the netlist (the hardware reading) or plain bits (IEEE 1364 to the letter, for constants and start values).

import { evaluate, type OperatorTables } from '../netlist/evaluate';
import { allX, type Bits } from '../netlist/four-state';
import { resize, slice } from '../netlist/four-state-parts';
import { caseEqual } from '../netlist/ieee';
import { Op, type OpCode } from '../netlist/operators';
import type { At, Expression } from '../syntax/tables';
import type { ConstantValue } from './constant-value';
import type { LocalSignal } from './local-signal';
import type { ArrayEntity, Frame, SubroutineEntity } from './scope';

export interface Algebra<Value> {
  constant(bits: Bits, at: At): Value;
  /** Operators and operand widths as `operators.ts` states them. */
  apply(op: OpCode, width: number, operands: readonly Value[], aux: number, at: At): Value;
  widthOf(value: Value): number;
  constantOf(value: Value): Bits | null;
  /** A comparison operator on operands of equal widths, width 1. */
  compare(op: OpCode, left: Value, right: Value, at: At): Value;
  /** `===` of equal widths, width 1. */
  caseEqual(left: Value, right: Value, at: At): Value;
  /** The low bits of a value that is assigned to less than its width. */
  narrow(value: Value, width: number, at: At): Value;
  /** Unknown, by the complaint with this index. */
  hole(width: number, complaint: number, at: At): Value;
}

/** An algebra and where the values of names come from. */
export interface Reader<Value> {
  readonly algebra: Algebra<Value>;
  /** Bits [low + width - 1 : low] of a signal, inside its range. */
  read(signal: LocalSignal, low: number, width: number, at: At): Value;
  /** A signal of an instance below, by a hierarchical name. */
  readBelow(below: SignalBelow, low: number, width: number, at: At): Value;
  /** What a function gives. */
  call(call: FunctionCall<Value>): Value;
  /** Told of every read of an array at an index that varies. */
  indexed(array: ArrayEntity, at: At): void;
  /** Told of every comparison, with its operands at their common width. */
  compared(comparison: Comparison<Value>): void;
}

/** A signal below this module: instances from here down, then the signal's number in the last one's module. */
export interface SignalBelow {
  readonly path: readonly number[];
  readonly signal: number;
  readonly width: number;
}

/** What is known without looking at the circuit: IEEE 1364-2005 5 and 10.4 to the letter. */
export interface Constants {
  /** The constant an expression stands for; null where it reads what varies. */
  constant(expression: Expression): ConstantValue | null;
  /** What a function gives for known arguments. `outside`: how names outside it read. */
  runFunction(call: FunctionCall<Bits>, outside: Reader<Bits>): Bits;
}

export interface FunctionCall<Value> {
  readonly subroutine: SubroutineEntity;
  readonly frame: Frame;
  readonly result: LocalSignal;
  /** One per port, at its port's width. */
  readonly args: readonly Value[];
  readonly context: Constants;
  readonly expression: Extract<Expression, { kind: 'call' }>;
}

export interface Comparison<Value> {
  readonly op: OpCode;
  readonly left: Value;
  readonly right: Value;
  readonly result: Value;
  readonly expression: Expression;
}

const noTables: OperatorTables = { resolutions: [], caseWildcards: [], memories: [] };

/** IEEE 1364-2005 to the letter. */
export const bitsAlgebra: Algebra<Bits> = {
  constant: (bits) => bits,
  apply: (op, width, operands, aux) => evaluate(op, width, operands, aux, noTables),
  widthOf: (bits) => bits.width,
  constantOf: (bits) => bits,
  compare: (op, left, right) => evaluate(op, 1, [left, right], 0, noTables),
  caseEqual,
  narrow: (bits, width) => slice(bits, 0, width),
  hole: (width) => allX(width),
};

/** Bits [low + width - 1 : low] of a value, inside it. */
export function sliceOf<Value>(algebra: Algebra<Value>, value: Value, low: number, width: number, at: At): Value {
  if (low === 0 && width === algebra.widthOf(value)) return value;
  const bits = algebra.constantOf(value);
  if (bits !== null) return algebra.constant(slice(bits, low, width), at);
  return algebra.apply(Op.slice, width, [value], low, at);
}

/** Cut to the low bits, or widened. */
export function resizeTo<Value>(
  algebra: Algebra<Value>,
  value: Value,
  width: number,
  fill: 'zero' | 'sign',
  at: At,
): Value {
  const from = algebra.widthOf(value);
  if (width <= from) return sliceOf(algebra, value, 0, width, at);
  const bits = algebra.constantOf(value);
  if (bits !== null) return algebra.constant(resize(bits, width, fill), at);
  return algebra.apply(fill === 'sign' ? Op.signExtend : Op.zeroExtend, width, [value], 0, at);
}

/** Parts joined, most significant first. */
export function joinOf<Value>(algebra: Algebra<Value>, parts: readonly Value[], at: At): Value {
  if (parts.length === 1) return parts[0];
  const width = parts.reduce((sum, part) => sum + algebra.widthOf(part), 0);
  return algebra.apply(Op.concat, width, parts, 0, at);
}

/** Whether a value is not zero, width 1. */
export function truthOf<Value>(algebra: Algebra<Value>, value: Value, at: At): Value {
  return algebra.widthOf(value) === 1 ? value : algebra.apply(Op.reduceOr, 1, [value], 0, at);
}
