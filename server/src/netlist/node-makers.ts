// Short ways to ask a node builder for common shapes. Each returns a node of the stated width; what needs no node
// (a slice of the full width, an extension by nothing) makes none.

import type { Place } from '../text/place';
import { bitsOf, type Bits, type Digit, zero } from './four-state';
import type { Bit, NodeId } from './netlist';
import type { NodeBuilder } from './node-builder';
import { Op, type OpCode } from './operators';

/** Bits [low + width - 1 : low] of a node; they must lie inside it. */
export function sliceOf(builder: NodeBuilder, node: NodeId, low: number, width: number, place: Place): NodeId {
  return builder.add(Op.slice, width, [node], low, place);
}

/** One bit as a node of width 1. */
export function bitNode(builder: NodeBuilder, bit: Bit, place: Place): NodeId {
  return sliceOf(builder, bit.node, bit.bit, 1, place);
}

/** Parts joined, most significant first. Parts of width 0 do not exist: at least one part. */
export function concatOf(builder: NodeBuilder, parts: readonly NodeId[], place: Place): NodeId {
  return builder.add(Op.concat, totalWidth(builder, parts), parts, 0, place);
}

export function replicateOf(builder: NodeBuilder, count: number, node: NodeId, place: Place): NodeId {
  return concatOf(builder, new Array<NodeId>(count).fill(node), place);
}

export function zeroOf(builder: NodeBuilder, width: number, place: Place): NodeId {
  return builder.constant(zero(width), place);
}

/** A constant of `width` bits, all the same digit. */
export function filledOf(builder: NodeBuilder, digit: Digit, width: number, place: Place): NodeId {
  return builder.constant(bitsOf(digit.repeat(width)), place);
}

export function constantOf(builder: NodeBuilder, value: Bits, place: Place): NodeId {
  return builder.constant(value, place);
}

/** Cut to the low bits, or widened with zeros or copies of the most significant bit. */
export function extendTo(
  builder: NodeBuilder,
  node: NodeId,
  width: number,
  fill: 'zero' | 'sign',
  place: Place,
): NodeId {
  const from = builder.nodes.width[node];
  if (width <= from) return sliceOf(builder, node, 0, width, place);
  return builder.add(fill === 'zero' ? Op.zeroExtend : Op.signExtend, width, [node], 0, place);
}

/** `select` has width 1; both arms one width. */
export function muxOf(builder: NodeBuilder, select: NodeId, whenOne: NodeId, whenZero: NodeId, place: Place): NodeId {
  return builder.add(Op.mux, builder.nodes.width[whenOne], [select, whenOne, whenZero], 0, place);
}

export interface SelectArm {
  readonly label: NodeId;
  readonly value: NodeId;
}

/** One n-way choice: the first arm whose label equals the selector. `wildcards`: an index of `addWildcards`, or -1. */
export function selectOf(
  builder: NodeBuilder,
  selector: NodeId,
  arms: readonly SelectArm[],
  otherwise: NodeId,
  wildcards: number,
  place: Place,
): NodeId {
  const operands = [selector, ...arms.flatMap(({ label, value }) => [label, value]), otherwise];
  return builder.add(Op.select, builder.nodes.width[otherwise], operands, wildcards, place);
}

export function notOf(builder: NodeBuilder, node: NodeId, place: Place): NodeId {
  return builder.add(Op.not, builder.nodes.width[node], [node], 0, place);
}

/** A bitwise gate, operands of one width. */
export function gateOf(builder: NodeBuilder, op: GateOp, operands: readonly NodeId[], place: Place): NodeId {
  return builder.add(op, builder.nodes.width[operands[0]], operands, 0, place);
}

export type GateOp =
  | typeof Op.buf
  | typeof Op.not
  | typeof Op.and
  | typeof Op.nand
  | typeof Op.or
  | typeof Op.nor
  | typeof Op.xor
  | typeof Op.xnor;

/** A reduction or a comparison: result of width 1. */
export function testOf(builder: NodeBuilder, op: OpCode, operands: readonly NodeId[], place: Place): NodeId {
  return builder.add(op, 1, operands, 0, place);
}

/** Whether a value is not zero, width 1: a 1-bit value is its own truth. */
export function truthOf(builder: NodeBuilder, node: NodeId, place: Place): NodeId {
  return builder.nodes.width[node] === 1 ? node : testOf(builder, Op.reduceOr, [node], place);
}

function totalWidth(builder: NodeBuilder, parts: readonly NodeId[]): number {
  return parts.reduce((sum, part) => sum + builder.nodes.width[part], 0);
}
