// What reaches a node and what a node reaches, over whole nodes. Results are marks by node: 1 = inside.

import type { AsynchronousControl, Netlist, NodeColumns, NodeId } from './netlist';
import { Op } from './operators';

/** The roots and everything they are computed from within one instant: back to sources, not through them. */
export function combinationalCone(nodes: NodeColumns, roots: Iterable<NodeId>): Uint8Array {
  return coneThrough(nodes, roots, () => []);
}

/**
 * As `combinationalCone`, and on through registers and latches: their data, clock, gate and asynchronous controls.
 * It ends at ports, at the outputs of black boxes, and at the addresses of memory words (not at what was written).
 */
export function cone(netlist: Netlist, roots: Iterable<NodeId>): Uint8Array {
  const { nodes, registers, latches } = netlist;
  return coneThrough(nodes, roots, (node) => {
    const aux = nodes.aux[node];
    if (nodes.op[node] === Op.register) {
      const { data, clock, asynchronous } = registers[aux];
      return [data, clock.node, ...controlNodes(asynchronous)];
    }
    if (nodes.op[node] === Op.latch) {
      const { data, gate, asynchronous } = latches[aux];
      return [data, gate.node, ...controlNodes(asynchronous)];
    }
    return [];
  });
}

/** Readers of node n: reader[first[n]] … reader[first[n + 1] - 1], ascending, one entry per operand position. */
export interface Fanout {
  readonly first: Uint32Array;
  readonly reader: Uint32Array;
}

export function createFanout(nodes: NodeColumns): Fanout {
  const first = new Uint32Array(nodes.count + 1);
  for (const operand of nodes.pool) first[operand + 1] += 1;
  for (let node = 0; node < nodes.count; node++) first[node + 1] += first[node];
  const filled = first.slice();
  const reader = new Uint32Array(nodes.pool.length);
  for (let node = 0; node < nodes.count; node++) {
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) {
      const operand = nodes.pool[entry];
      reader[filled[operand]] = node;
      filled[operand] += 1;
    }
  }
  return { first, reader };
}

function coneThrough(
  nodes: NodeColumns,
  roots: Iterable<NodeId>,
  beyond: (source: NodeId) => readonly NodeId[],
): Uint8Array {
  const inside = new Uint8Array(nodes.count);
  const waiting: NodeId[] = [...roots];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (inside[node] === 1) continue;
    inside[node] = 1;
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) waiting.push(nodes.pool[entry] as NodeId);
    waiting.push(...beyond(node));
  }
  return inside;
}

function controlNodes(controls: readonly AsynchronousControl[]): NodeId[] {
  return controls.flatMap(({ control, value }) => [control.node, value]);
}
