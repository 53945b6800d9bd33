// The value a latch is given, under the condition that it is given one: arms of choices that only hold are never taken
// then. Choices share their parts, so each is looked at once.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op } from '../netlist/operators';

/** Choices inside one another further down are left as they are: a hold there reads the latch itself. */
const deepestChoice = 500;

export function createHoldRemover(nodes: NodeBuilder): (value: NodeId) => NodeId {
  const known = new Map<NodeId, NodeId>();

  function strip(value: NodeId, depth: number): NodeId {
    const found = known.get(value);
    if (found !== undefined) return found;
    if (depth > deepestChoice) return value;
    const { op, aux } = nodes.nodes;
    const inner = (arm: NodeId) => strip(arm, depth + 1);
    const result =
      op[value] === Op.mux
        ? stripMux(nodes, value, inner)
        : op[value] === Op.select && aux[value] < 0
          ? stripSelect(nodes, value, inner)
          : value;
    known.set(value, result);
    return result;
  }

  return (value) => strip(value, 0);
}

function stripMux(nodes: NodeBuilder, value: NodeId, strip: (arm: NodeId) => NodeId): NodeId {
  const [select, whenOne, whenZero] = operandsOf(nodes, value);
  if (isHold(nodes, whenOne)) return strip(whenZero);
  if (isHold(nodes, whenZero)) return strip(whenOne);
  return remade(nodes, Op.mux, value, [select, strip(whenOne), strip(whenZero)], 0);
}

/** Where the default only holds, the last arm that does not stands in its place. */
function stripSelect(nodes: NodeBuilder, value: NodeId, strip: (arm: NodeId) => NodeId): NodeId {
  const [selector, ...rest] = operandsOf(nodes, value);
  const otherwise = rest.pop() ?? selector;
  const arms: NodeId[] = [];
  for (let index = 0; index < rest.length; index += 2) {
    if (!isHold(nodes, rest[index + 1])) arms.push(rest[index], strip(rest[index + 1]));
  }
  const last = isHold(nodes, otherwise) ? (arms.splice(-2)[1] ?? otherwise) : strip(otherwise);
  return remade(nodes, Op.select, value, [selector, ...arms, last], -1);
}

function remade(
  nodes: NodeBuilder,
  op: typeof Op.mux | typeof Op.select,
  value: NodeId,
  operands: readonly NodeId[],
  aux: number,
): NodeId {
  const { width, place } = nodes.nodes;
  return nodes.add(op, width[value], operands, aux, nodes.places[place[value]]);
}

function isHold(nodes: NodeBuilder, node: NodeId): boolean {
  const { op } = nodes.nodes;
  let at = node;
  while (op[at] === Op.slice) [at] = operandsOf(nodes, at);
  return op[at] === Op.register;
}

function operandsOf({ nodes }: NodeBuilder, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}
