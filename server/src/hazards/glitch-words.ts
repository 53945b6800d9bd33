// Operators on words as single-bit logic: comparisons, sums, shifts and variable indices. What the operators compute is
// that of `netlist/evaluate.ts`, a test holds the two together; how they are built is unknown (definition 24), so the
// caller marks what comes out. Products, quotients and powers are not spelled out.

import type { Bit, NodeColumns, NodeId } from '../netlist/netlist';
import { operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import {
  and,
  choose,
  type Gates,
  type Literal,
  not,
  oneLiteral,
  unknownLiteral,
  xor,
  zeroLiteral,
} from './glitch-gates';

export interface WordContext {
  readonly nodes: NodeColumns;
  readonly gates: Gates;
  /** The literal of an operand's bit; it has been made before. */
  readonly read: (node: NodeId, bit: number) => Literal;
  /** Carries into each bit of a sum, kept so that a word costs one pass. */
  readonly carries: Map<NodeId, Literal[]>;
}

/** Whether `wordBit` spells the operator out. */
export function isSpelledOut(op: number): boolean {
  return (
    (op >= Op.equal && op <= Op.negate) ||
    op === Op.shiftLeft ||
    op === Op.shiftRight ||
    op === Op.shiftRightSigned ||
    op === Op.readAt ||
    op === Op.writeAt
  );
}

export function wordBit(context: WordContext, { node, bit }: Bit): Literal {
  const { nodes } = context;
  const [left, right] = [operand(nodes, node, 0), operand(nodes, node, 1)];
  switch (nodes.op[node]) {
    case Op.equal:
      return equality(context, left, right);
    case Op.notEqual:
      return not(equality(context, left, right));
    case Op.lessUnsigned:
      return less(context, left, right, 'unsigned');
    case Op.lessSigned:
      return less(context, left, right, 'signed');
    case Op.lessEqualUnsigned:
      return not(less(context, right, left, 'unsigned'));
    case Op.lessEqualSigned:
      return not(less(context, right, left, 'signed'));
    case Op.add:
    case Op.subtract:
    case Op.negate:
      return sumBit(context, node, bit);
    case Op.readAt:
      return readAtBit(context, node, bit);
    case Op.writeAt:
      return writeAtBit(context, node, bit);
    default:
      return shiftBit(context, node, bit);
  }
}

export function equality({ nodes, gates, read }: Omit<WordContext, 'carries'>, left: NodeId, right: NodeId): Literal {
  let equal = oneLiteral;
  for (let bit = 0; bit < nodes.width[left]; bit++) {
    equal = and(gates, equal, not(xor(gates, read(left, bit), read(right, bit))));
  }
  return equal;
}

function less(context: WordContext, left: NodeId, right: NodeId, sign: 'signed' | 'unsigned'): Literal {
  const { nodes, gates, read } = context;
  const top = nodes.width[left] - 1;
  let isLess = zeroLiteral;
  for (let bit = 0; bit <= top; bit++) {
    const [a, b] = [read(left, bit), read(right, bit)];
    // Where the bits differ this one decides; in the sign bit a 1 is the lesser.
    isLess = choose(gates, xor(gates, a, b), bit === top && sign === 'signed' ? a : b, isLess);
  }
  return isLess;
}

function sumBit(context: WordContext, node: NodeId, bit: number): Literal {
  const { gates, carries } = context;
  let known = carries.get(node);
  if (known === undefined) {
    known = [context.nodes.op[node] === Op.add ? zeroLiteral : oneLiteral];
    carries.set(node, known);
  }
  while (known.length <= bit) {
    const [a, b] = addends(context, node, known.length - 1);
    const carry = known[known.length - 1];
    known.push(choose(gates, xor(gates, a, b), carry, a));
  }
  const [a, b] = addends(context, node, bit);
  return xor(gates, xor(gates, a, b), known[bit]);
}

/** a - b is a + ~b + 1, and -b is 0 + ~b + 1. */
function addends({ nodes, read }: WordContext, node: NodeId, bit: number): [Literal, Literal] {
  const first = operand(nodes, node, 0);
  if (nodes.op[node] === Op.negate) return [zeroLiteral, not(read(first, bit))];
  const second = read(operand(nodes, node, 1), bit);
  return [read(first, bit), nodes.op[node] === Op.add ? second : not(second)];
}

/** One bit of a shift: the bit that each amount brings here, chosen by the amount. */
function shiftBit(context: WordContext, node: NodeId, bit: number): Literal {
  const { nodes, read } = context;
  const op = nodes.op[node];
  const [value, amount] = [operand(nodes, node, 0), operand(nodes, node, 1)];
  const width = nodes.width[value];
  const vacant = op === Op.shiftRightSigned ? read(value, width - 1) : zeroLiteral;
  return choiceByNumber(
    context,
    amount,
    width,
    (by) => {
      const from = op === Op.shiftLeft ? bit - by : bit + by;
      return from >= 0 && from < width ? read(value, from) : vacant;
    },
    vacant,
  );
}

/** One bit of a vector at a variable index; outside x. A negative index reaches up to the width below 0. */
function readAtBit(context: WordContext, node: NodeId, bit: number): Literal {
  const { nodes, gates, read } = context;
  const [vector, index] = [operand(nodes, node, 0), operand(nodes, node, 1)];
  let chosen = unknownLiteral;
  for (let from = 0; from < nodes.width[vector]; from++) {
    chosen = choose(gates, isNumber(context, index, from - bit), read(vector, from), chosen);
  }
  return chosen;
}

function writeAtBit(context: WordContext, node: NodeId, bit: number): Literal {
  const { nodes, gates, read } = context;
  const [vector, index, piece] = [operand(nodes, node, 0), operand(nodes, node, 1), operand(nodes, node, 2)];
  let chosen = read(vector, bit);
  for (let from = 0; from < nodes.width[piece]; from++) {
    chosen = choose(gates, isNumber(context, index, bit - from), read(piece, from), chosen);
  }
  return chosen;
}

/** A tree of choices over the bits of an unsigned number; `otherwise` from `count` on. */
function choiceByNumber(
  { nodes, gates, read }: WordContext,
  number: NodeId,
  count: number,
  at: (value: number) => Literal,
  otherwise: Literal,
): Literal {
  let bits = 0;
  while (2 ** bits < count) bits++;
  let level = Array.from({ length: 2 ** bits }, (_, value) => (value < count ? at(value) : otherwise));
  for (let bit = 0; bit < bits; bit++) {
    const select = bit < nodes.width[number] ? read(number, bit) : zeroLiteral;
    level = Array.from({ length: level.length / 2 }, (_, pair) =>
      choose(gates, select, level[2 * pair + 1], level[2 * pair]),
    );
  }
  let chosen = level[0];
  for (let bit = bits; bit < nodes.width[number]; bit++) chosen = choose(gates, read(number, bit), otherwise, chosen);
  return chosen;
}

/** Whether a two's complement word has this value. */
function isNumber({ nodes, gates, read }: WordContext, word: NodeId, value: number): Literal {
  let equal = oneLiteral;
  for (let bit = 0; bit < nodes.width[word]; bit++) {
    const wanted = bit < 31 ? (value >> bit) & 1 : value < 0 ? 1 : 0;
    const literal = read(word, bit);
    equal = and(gates, equal, wanted === 1 ? literal : not(literal));
  }
  return equal;
}
