// A comparison at the width its operands have by themselves: `q == 9` compares four bits where q has four, though 9 has
// 32 (IEEE 1364-2005 5.4.1). What was widened with zeros or copies of its sign is told from its nodes.

import { type Bits, hasUnknown, toBigInt, toSignedBigInt } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { sliceOf } from '../netlist/node-makers';
import { Op, type OpCode } from '../netlist/operators';
import type { Place } from '../text/place';

export function compare(nodes: NodeBuilder, op: OpCode, left: NodeId, right: NodeId, place: Place): NodeId {
  const width = Math.max(leastWidth(nodes, op, left, right), 1);
  const operands = [left, right].map((operand) => sliceOf(nodes, operand, 0, width, place));
  return nodes.add(op, 1, operands, 0, place);
}

/** The fewest low bits that decide the comparison. */
function leastWidth(nodes: NodeBuilder, op: OpCode, left: NodeId, right: NodeId): number {
  const asUnsigned = Math.max(neededUnsigned(nodes, left), neededUnsigned(nodes, right));
  const asSigned = Math.max(neededSigned(nodes, left), neededSigned(nodes, right));
  const full = nodes.nodes.width[left];
  if (op === Op.lessSigned || op === Op.lessEqualSigned) return Math.min(full, asSigned);
  if (op === Op.equal || op === Op.notEqual) return Math.min(full, asUnsigned, asSigned);
  return Math.min(full, asUnsigned);
}

/** Bits below which everything is 0. */
function neededUnsigned(nodes: NodeBuilder, node: NodeId): number {
  const constant = knownConstant(nodes, node);
  if (constant !== null) return bitLength(toBigInt(constant) ?? 0n);
  const inner = zeroExtended(nodes, node);
  return inner ?? nodes.nodes.width[node];
}

/** Bits above which everything is a copy of the sign. */
function neededSigned(nodes: NodeBuilder, node: NodeId): number {
  const constant = knownConstant(nodes, node);
  if (constant !== null) {
    const value = toSignedBigInt(constant) ?? 0n;
    return 1 + bitLength(value < 0n ? -value - 1n : value);
  }
  const { op, width, first, pool } = nodes.nodes;
  if (op[node] === Op.signExtend) return width[pool[first[node]]];
  const inner = zeroExtended(nodes, node);
  return inner === null ? width[node] : inner + 1;
}

function knownConstant(nodes: NodeBuilder, node: NodeId): Bits | null {
  const constant = nodes.constantOf(node);
  return constant === null || hasUnknown(constant) ? null : constant;
}

/** Width below the zeros on top; null where there are none. */
function zeroExtended(nodes: NodeBuilder, node: NodeId): number | null {
  const { op, width, first, pool } = nodes.nodes;
  if (op[node] !== Op.concat) return null;
  const top = knownConstant(nodes, pool[first[node]] as NodeId);
  return top !== null && toBigInt(top) === 0n ? width[node] - top.width : null;
}

function bitLength(value: bigint): number {
  return value === 0n ? 0 : value.toString(2).length;
}
