// An order in which every node stands after its operands, and how deep each stands. Nodes that feed themselves
// stand together; which of their bits really do is asked of `loops.ts`.

import type { NodeColumns, NodeId } from './netlist';
import { visitStrongComponents } from './strong-components';

export interface NodeOrder {
  /** All nodes by level, then node: sources first, every node after its operands (inside a knot: by node). */
  readonly order: Uint32Array;
  /** 0 for nodes without operands, else 1 + the deepest operand's; nodes of a knot share one. */
  readonly level: Uint32Array;
  /** Sets of nodes that feed each other without a register between, or one that feeds itself. Ascending. */
  readonly knots: readonly (readonly NodeId[])[];
}

export function orderNodes(nodes: NodeColumns): NodeOrder {
  const level = new Uint32Array(nodes.count);
  const knots: NodeId[][] = [];
  const graph = { count: nodes.count, first: nodes.first, degree: nodes.arity, target: nodes.pool };
  visitStrongComponents(graph, (component) => {
    const shared = levelAbove(nodes, component, level);
    for (const node of component) level[node] = shared;
    if (component.length > 1 || feedsItself(nodes, component[0])) {
      knots.push((component.slice() as NodeId[]).sort((left, right) => left - right));
    }
  });
  knots.sort((left, right) => left[0] - right[0]);
  return { order: sortedByLevel(level), level, knots };
}

/** Members of the component still have level 0, so that they do not raise themselves. */
function levelAbove(nodes: NodeColumns, component: readonly number[], level: Uint32Array): number {
  let deepest = 0;
  for (const node of component) {
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) {
      deepest = Math.max(deepest, level[nodes.pool[entry]] + 1);
    }
  }
  return deepest;
}

function feedsItself(nodes: NodeColumns, node: number): boolean {
  const end = nodes.first[node] + nodes.arity[node];
  for (let entry = nodes.first[node]; entry < end; entry++) if (nodes.pool[entry] === node) return true;
  return false;
}

/** Counting sort: levels ascending, nodes ascending within one. */
function sortedByLevel(level: Uint32Array): Uint32Array {
  const start = new Uint32Array(level.reduce((most, value) => Math.max(most, value), 0) + 2);
  for (const value of level) start[value + 1] += 1;
  for (let index = 1; index < start.length; index++) start[index] += start[index - 1];
  const order = new Uint32Array(level.length);
  for (let node = 0; node < level.length; node++) {
    order[start[level[node]]] = node;
    start[level[node]] += 1;
  }
  return order;
}
