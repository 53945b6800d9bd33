// What reaches a node and what a node reaches, over whole nodes. Results are marks by node: 1 = inside.

import { impossible } from '../text/impossible';
import type { Netlist, NodeColumns, NodeId } from './netlist';

/** The roots and everything they are computed from within one instant: back to sources, not through them. */
export function combinationalCone(nodes: NodeColumns, roots: Iterable<NodeId>): Uint8Array {
  return impossible(`not built: ${nodes.count} ${roots}`);
}

/** As `combinationalCone`, and on through registers and latches: their data, clock, gate and asynchronous controls. */
export function cone(netlist: Netlist, roots: Iterable<NodeId>): Uint8Array {
  return impossible(`not built: ${netlist.top} ${roots}`);
}

/** Readers of node n: reader[first[n]] … reader[first[n + 1] - 1], ascending, one entry per operand position. */
export interface Fanout {
  readonly first: Uint32Array;
  readonly reader: Uint32Array;
}

export function createFanout(nodes: NodeColumns): Fanout {
  return impossible(`not built: ${nodes.count}`);
}
