// Comparisons that never or always hold, whatever the operands' free bits are: by the width of an operand that was
// widened, or by a sign that is not there (definition 18). Each operand is known to lie in a range of numbers.

import { hasUnknown, toBigInt } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op } from '../netlist/operators';
import type { Comparison } from './algebra';

interface NumberRange {
  readonly min: bigint;
  readonly max: bigint;
}

/** The value the comparison always has; null where it can be both, or where both sides are constants. */
export function fixedComparison(nodes: NodeBuilder, { op, left, right }: Comparison<NodeId>): 0 | 1 | null {
  if (nodes.constantOf(left) !== null && nodes.constantOf(right) !== null) return null;
  if (op === Op.equal || op === Op.notEqual) {
    const isApart = areApart(nodes, left, right, false) || areApart(nodes, left, right, true);
    return isApart ? (op === Op.equal ? 0 : 1) : null;
  }
  const signed = op === Op.lessSigned || op === Op.lessEqualSigned;
  const leftRange = rangeOf(nodes, left, signed);
  const rightRange = rangeOf(nodes, right, signed);
  if (leftRange === null || rightRange === null) return null;
  if (op === Op.lessUnsigned || op === Op.lessSigned) {
    if (leftRange.max < rightRange.min) return 1;
    return leftRange.min >= rightRange.max ? 0 : null;
  }
  if (leftRange.max <= rightRange.min) return 1;
  return leftRange.min > rightRange.max ? 0 : null;
}

/** No number that the one can be is one that the other can be, read as unsigned or as two's complement. */
function areApart(nodes: NodeBuilder, left: NodeId, right: NodeId, signed: boolean): boolean {
  const leftRange = rangeOf(nodes, left, signed);
  const rightRange = rangeOf(nodes, right, signed);
  if (leftRange === null || rightRange === null) return false;
  return leftRange.max < rightRange.min || rightRange.max < leftRange.min;
}

/** From the constant bits on top; null for a constant with x or z. */
function rangeOf(nodes: NodeBuilder, node: NodeId, signed: boolean): NumberRange | null {
  const width = nodes.nodes.width[node];
  const constant = nodes.constantOf(node);
  if (constant !== null) {
    if (hasUnknown(constant)) return null;
    const value = BigInt.asUintN(width, toBigInt(constant) ?? 0n);
    const number = signed ? BigInt.asIntN(width, value) : value;
    return { min: number, max: number };
  }
  const free = freeBits(nodes, node);
  if (nodes.nodes.op[node] === Op.signExtend) return signed ? signedRange(BigInt(free)) : full(width, signed);
  if (free === width) return full(width, signed);
  return { min: 0n, max: (1n << BigInt(free)) - 1n };
}

function full(width: number, signed: boolean): NumberRange {
  return signed ? signedRange(BigInt(width)) : { min: 0n, max: (1n << BigInt(width)) - 1n };
}

function signedRange(width: bigint): NumberRange {
  return { min: -(1n << (width - 1n)), max: (1n << (width - 1n)) - 1n };
}

/** How many low bits vary: what was widened has zeros, or copies of its sign, above. */
function freeBits(nodes: NodeBuilder, node: NodeId): number {
  const { op, width, first, pool } = nodes.nodes;
  const top = pool[first[node]] as NodeId;
  if (op[node] === Op.signExtend) return width[top];
  if (op[node] !== Op.concat) return width[node];
  const zeros = nodes.constantOf(top);
  const isZero = zeros !== null && !hasUnknown(zeros) && toBigInt(zeros) === 0n;
  return isZero ? width[node] - width[top] : width[node];
}
