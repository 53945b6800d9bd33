// The operators of a netlist: one number each, with the rule for operand and result widths.
// Widths are explicit: the elaborator has applied IEEE 1364-2005 5.4 and 5.5, so no operator extends by itself.

export const Op = {
  // ---- sources: no operands, `aux` says which
  /** aux = constant index */
  constant: 0,
  /** A top-level input or inout port as driven from outside, of the signal's full width. aux = signal id */
  input: 1,
  /** Present output of a register. aux = register id */
  register: 2,
  /** Present output of a latch. aux = latch id */
  latch: 3,
  /** An output or inout of a module that is not given. aux = black box output id */
  blackBox: 4,
  /**
   * What nothing drives (a net: z; a variable: x). aux = signal id. Always of the signal's full width, undriven bits
   * being slices of it: equal nodes are shared, and two bits must not become one root.
   */
  undriven: 5,
  /** What could not be read: unknown by a complaint. aux = complaint index or -1. Never shared. */
  hole: 6,

  // ---- names
  /** A named stretch of a signal with its one driver as operand, same width. aux = net piece id. Passes its operand. */
  net: 7,
  /** An explicit delay of the text around its operand, same width. aux = explicit delay index. */
  delay: 8,
  /** Several drivers of one net resolved, all of the result's width. aux = index in `resolutions`. */
  resolve: 9,

  // ---- wiring
  /** Operands most significant first; width = sum. */
  concat: 10,
  /** Bits [aux + width - 1 : aux] of the operand. */
  slice: 11,
  /** A node builder writes it as a concat with a constant, so that it is in no finished netlist. */
  zeroExtend: 12,
  signExtend: 13,

  // ---- bitwise gates, two or more operands of the result's width (not, buf: one)
  buf: 14,
  not: 15,
  and: 16,
  nand: 17,
  or: 18,
  nor: 19,
  xor: 20,
  xnor: 21,
  /** (data, enable 1 bit): data while enable is 1, z while 0. */
  tristate: 22,

  // ---- reductions to 1 bit
  reduceAnd: 23,
  reduceOr: 24,
  reduceXor: 25,
  /** 1-bit not of reduceOr is logical negation; the elaborator writes it so. */

  // ---- comparisons of equal widths, 1-bit result
  equal: 26,
  notEqual: 27,
  lessUnsigned: 28,
  lessSigned: 29,
  lessEqualUnsigned: 30,
  lessEqualSigned: 31,

  // ---- arithmetic, operands and result of one width
  add: 32,
  subtract: 33,
  negate: 34,
  multiply: 35,
  divideUnsigned: 36,
  divideSigned: 37,
  moduloUnsigned: 38,
  moduloSigned: 39,
  /**
   * Base of the result's width, exponent of any width, both read as the name says; with aux = 1 the exponent is read
   * the other way (the exponent is self-determined, IEEE 1364-2005 5.4.1, so the two may differ).
   */
  powerUnsigned: 40,
  powerSigned: 41,

  // ---- shifts by a variable amount: (value, amount of any width, unsigned)
  shiftLeft: 42,
  shiftRight: 43,
  shiftRightSigned: 44,

  // ---- choice
  /**
   * (select 1 bit, when 1, when 0). aux = 0, or 1 + memory id where the arms are contents of that memory: then an unknown
   * select merges them as a whole, not bit by bit.
   */
  mux: 45,
  /**
   * One n-way case: (selector, then for each arm: label of the selector's width, value of the result's width, last:
   * default value). The first equal label wins. Operand count = 2 + 2 × arms. aux = index in `caseWildcards` or -1:
   * for casez and casex, which label bits match anything. A constant label with x or z elsewhere matches no hardware
   * value: its arm is left out by whoever builds the node.
   */
  select: 46,
  /** Bits [index + width - 1 : index] of a vector at a variable index: (vector, index: signed, at least 32 bits). Outside: x. */
  readAt: 47,
  /** The vector with `piece` written at a variable index: (vector, index: signed, at least 32 bits, piece). See `writeAt`. */
  writeAt: 48,

  // ---- memories; aux = memory id. A content is a value of `contentBits` bits (`memory-contents.ts`); indices, one per
  // dimension, count from 0, signed and at least 32 bits. Only memory operators, registers, latches and nets hold one.
  /** Word: (content, indices). */
  memoryRead: 49,
  /** Content with a piece of a word written: (content, piece, number of its lowest bit: signed, at least 32 bits, indices). */
  memoryWrite: 50,
  /** Content with one value in a range of words: (content, word, per dimension: first index, index behind the last). */
  memoryFill: 51,
  /** An n-way choice of contents: (as many bits as contents, lowest first, contents). One bit is 1; unknown ones merge. */
  memoryPick: 52,
} as const;

export type OpCode = (typeof Op)[keyof typeof Op];

export const opNames: readonly string[] = Object.keys(Op);

/** Operators with no operands: where every walk back ends. */
export function isSource(op: number): boolean {
  return op <= Op.hole;
}

/** Operators on what memories hold. */
export function isMemoryOperator(op: number): boolean {
  return op >= Op.memoryRead && op <= Op.memoryPick;
}

/** Operators that only pass bits on, unchanged and without delay of their own. */
export function isWiring(op: number): boolean {
  return op === Op.net || op === Op.concat || op === Op.slice || op === Op.zeroExtend || op === Op.signExtend;
}
