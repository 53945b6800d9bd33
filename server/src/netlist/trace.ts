// Walks of single bits through the netlist: back through wiring to what drives a bit, and one step back through any
// operator to the operand bits that can influence it. Nothing is remembered between calls.

import type { Bit, NodeColumns, NodeId } from './netlist';
import { Op } from './operators';

/**
 * The first bit on the way back that is not wiring (`net`, `concat`, `slice`, extensions): a register bit, a port, a
 * constant, a gate. Through ports and plain assignments, never through an operator: this is the report's canonical
 * bit. Nets that only drive each other in a ring give the ring's bit with the lowest node.
 */
export function sourceBit(nodes: NodeColumns, bit: Bit): Bit {
  return followBack(nodes, bit, wiringStep);
}

/** As `sourceBit`, and on through buffers and explicit delays too. */
export function sourceBitPastBuffers(nodes: NodeColumns, bit: Bit): Bit {
  return followBack(nodes, bit, bufferStep);
}

/** One step back through wiring; null where the bit is not wiring. */
export function wiringStep(nodes: NodeColumns, { node, bit }: Bit): Bit | null {
  const inner = nodes.pool[nodes.first[node]] as NodeId;
  switch (nodes.op[node]) {
    case Op.net:
      return { node: inner, bit };
    case Op.slice:
      return { node: inner, bit: bit + nodes.aux[node] };
    case Op.concat:
      return partAt(nodes, node, bit);
    case Op.zeroExtend:
      return bit < nodes.width[inner] ? { node: inner, bit } : null;
    case Op.signExtend:
      return { node: inner, bit: Math.min(bit, nodes.width[inner] - 1) };
    default:
      return null;
  }
}

/**
 * The operand bits that can influence this bit, in operand order: exact for wiring, gates, mux and select; carry order
 * for add, subtract, negate and multiply (bit i hears bits up to i); all bits for the rest. A source has none.
 */
export function operandsOfBit(nodes: NodeColumns, bit: Bit): Bit[] {
  const found: Bit[] = [];
  visitOperandsOfBit(nodes, bit, (node, index) => found.push({ node, bit: index }));
  return found;
}

export type BitVisitor = (node: NodeId, bit: number) => void;

/** As `operandsOfBit`, without making a list. */
export function visitOperandsOfBit(nodes: NodeColumns, bit: Bit, visit: BitVisitor): void {
  const wired = wiringStep(nodes, bit);
  if (wired !== null) {
    visit(wired.node, wired.bit);
    return;
  }
  const { node } = bit;
  const first = nodes.first[node];
  for (let index = 0; index < nodes.arity[node]; index++) {
    const operand = nodes.pool[first + index] as NodeId;
    const [low, high] = heardStretch(nodes, node, index, bit.bit, nodes.width[operand] - 1);
    for (let heard = low; heard <= high; heard++) visit(operand, heard);
  }
}

function bufferStep(nodes: NodeColumns, bit: Bit): Bit | null {
  const op = nodes.op[bit.node];
  if (op !== Op.buf && op !== Op.delay) return wiringStep(nodes, bit);
  return { node: nodes.pool[nodes.first[bit.node]] as NodeId, bit: bit.bit };
}

/**
 * Steps back until no step is left. A ring of nets is noticed by a mark that is set anew after 32, 64, 128, … steps:
 * no set of visited bits is kept for the common walk of a few steps.
 */
function followBack(nodes: NodeColumns, start: Bit, step: typeof wiringStep): Bit {
  let current = start;
  let mark = start;
  let stepsLeft = 32;
  let stride = 32;
  for (;;) {
    const next = step(nodes, current);
    if (next === null) return current;
    current = next;
    if (sameBit(current, mark)) return lowestInRing(nodes, mark, step);
    stepsLeft -= 1;
    if (stepsLeft === 0) {
      mark = current;
      stride *= 2;
      stepsLeft = stride;
    }
  }
}

function lowestInRing(nodes: NodeColumns, start: Bit, step: typeof wiringStep): Bit {
  let lowest = start;
  for (let bit = step(nodes, start); bit !== null && !sameBit(bit, start); bit = step(nodes, bit)) {
    if (bit.node < lowest.node || (bit.node === lowest.node && bit.bit < lowest.bit)) lowest = bit;
  }
  return lowest;
}

function sameBit(left: Bit, right: Bit): boolean {
  return left.node === right.node && left.bit === right.bit;
}

/** The part of a concat that holds a bit. Parts stand most significant first. */
function partAt(nodes: NodeColumns, node: NodeId, bit: number): Bit {
  let low = 0;
  let entry = nodes.first[node] + nodes.arity[node] - 1;
  while (bit - low >= nodes.width[nodes.pool[entry]]) {
    low += nodes.width[nodes.pool[entry]];
    entry -= 1;
  }
  return { node: nodes.pool[entry] as NodeId, bit: bit - low };
}

const nothing = [0, -1] as const;

/** Which bits of operand `index` a bit hears, as [low, high]; `top` is the operand's highest bit. */
function heardStretch(
  nodes: NodeColumns,
  node: NodeId,
  index: number,
  bit: number,
  top: number,
): readonly [low: number, high: number] {
  const same = [bit, bit] as const;
  const all = [0, top] as const;
  switch (nodes.op[node]) {
    case Op.zeroExtend:
      return nothing;
    case Op.delay:
    case Op.resolve:
    case Op.buf:
    case Op.not:
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.xor:
    case Op.xnor:
      return same;
    case Op.add:
    case Op.subtract:
    case Op.negate:
    case Op.multiply:
      return [0, bit];
    case Op.tristate:
    case Op.writeAt:
      return index === 0 ? same : all;
    case Op.shiftLeft:
      return index === 0 ? [0, bit] : all;
    case Op.shiftRight:
    case Op.shiftRightSigned:
      return index === 0 ? [bit, top] : all;
    case Op.mux:
      return index === 0 ? all : same;
    case Op.select:
      return isSelectValue(nodes, node, index) ? same : all;
    default:
      return all;
  }
}

/** Operands of a select: selector, then label and value in turn, the default last. */
function isSelectValue(nodes: NodeColumns, node: NodeId, index: number): boolean {
  return index === nodes.arity[node] - 1 || (index >= 2 && index % 2 === 0);
}
