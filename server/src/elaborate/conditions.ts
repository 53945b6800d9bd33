// Small one-bit logic over conditions, kept as plain as the conditions are: what is certain stays a constant.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { digitBits } from '../netlist/four-state';
import { gateOf, muxOf, notOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { Place } from '../text/place';

const certainNodes = new WeakMap<NodeBuilder, NodeId[]>();

/** Constant 0 or 1 of width 1. */
export function certain(nodes: NodeBuilder, value: 0 | 1, place: Place): NodeId {
  const known = certainNodes.get(nodes) ?? [];
  certainNodes.set(nodes, known);
  known[value] ??= nodes.constant(digitBits(value === 1 ? '1' : '0'), place);
  return known[value];
}

export function isCertain(nodes: NodeBuilder, condition: NodeId, value: 0 | 1): boolean {
  const known = certainNodes.get(nodes)?.[value];
  if (known !== undefined) return known === condition;
  const bits = nodes.constantOf(condition);
  return bits !== null && bits.a[0] === value && bits.b[0] === 0;
}

/** `select ? whenOne : whenZero`, width 1. */
export function chooseCondition(
  nodes: NodeBuilder,
  select: NodeId,
  whenOne: NodeId,
  whenZero: NodeId,
  place: Place,
): NodeId {
  if (whenOne === whenZero) return whenOne;
  if (isCertain(nodes, whenOne, 1)) return either(nodes, select, whenZero, place);
  if (isCertain(nodes, whenZero, 0)) return both(nodes, select, whenOne, place);
  if (isCertain(nodes, whenOne, 0)) return both(nodes, negated(nodes, select, place), whenZero, place);
  if (isCertain(nodes, whenZero, 1)) return either(nodes, negated(nodes, select, place), whenOne, place);
  return muxOf(nodes, select, whenOne, whenZero, place);
}

export function both(nodes: NodeBuilder, left: NodeId, right: NodeId, place: Place): NodeId {
  if (isCertain(nodes, left, 1)) return right;
  if (isCertain(nodes, right, 1)) return left;
  if (isCertain(nodes, left, 0)) return left;
  if (isCertain(nodes, right, 0)) return right;
  return left === right ? left : gateOf(nodes, Op.and, [left, right], place);
}

export function either(nodes: NodeBuilder, left: NodeId, right: NodeId, place: Place): NodeId {
  if (isCertain(nodes, left, 0)) return right;
  if (isCertain(nodes, right, 0)) return left;
  if (isCertain(nodes, left, 1)) return left;
  if (isCertain(nodes, right, 1)) return right;
  return left === right ? left : gateOf(nodes, Op.or, [left, right], place);
}

export function negated(nodes: NodeBuilder, condition: NodeId, place: Place): NodeId {
  const { op, first, pool } = nodes.nodes;
  return op[condition] === Op.not ? (pool[first[condition]] as NodeId) : notOf(nodes, condition, place);
}
