// The terms that a period of a circuit is written in: numbers of 64 bits, each kind one instruction or little more.

export type Term = number & { readonly term: unique symbol };

export const Kind = {
  constant: 0,
  /** A number that the loop carries from period to period; x = its index. */
  input: 1,
  and: 2,
  or: 3,
  xor: 4,
  add: 5,
  subtract: 6,
  multiply: 7,
  /** Unsigned; the divisor is never 0. */
  divide: 8,
  remainder: 9,
  /** Shifts by less than 64. */
  shiftLeft: 10,
  shiftRight: 11,
  shiftRightSigned: 12,
  /** Tests: 0 or 1. */
  isZero: 13,
  equal: 14,
  different: 15,
  less: 16,
  /** (condition, when true, when not) */
  choose: 17,
  countOnes: 18,
  /** Entry of a table of constants; x = the table, y = the index, which is within. */
  look: 19,
} as const;

export interface Terms {
  readonly zero: Term;
  readonly kinds: readonly number[];
  /** Operands by term; -1 where there is none. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
  /** How many low bits may be set: all above are 0. */
  readonly sizes: readonly number[];
  readonly tables: readonly (readonly bigint[])[];
  constant(value: bigint): Term;
  input(index: number, size: number): Term;
  make(kind: number, x: Term, y?: Term, z?: Term): Term;
  look(table: readonly bigint[], index: Term): Term;
  /** The value of a constant, else null. */
  valueOf(term: Term): bigint | null;
}
