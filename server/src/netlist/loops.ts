// Combinational loops, decided bit by bit (definition 18 of the project): a carry chain or a vector whose bits feed
// other bits of itself is no loop, and neither is one that no value of its selects and gate inputs closes.

import { createBitGraph, loopsOf } from './bit-graph';
import { closingOf, type Closing } from './loop-closing';
import type { Bit, Netlist, NodeColumns, NodeId } from './netlist';
import { orderNodes } from './order';
import { visitOperandsOfBit } from './trace';

export interface CombinationalLoop {
  /** Every bit of the loop, by node, then bit. */
  readonly bits: readonly Bit[];
  /** Whether some value of its selects and gate inputs closes the loop; see `Closing`. */
  readonly closes: Closing;
}

/** In order of their first bit. Loops through registers, latches and memories are none. */
export function combinationalLoops(netlist: Netlist): CombinationalLoop[] {
  const { nodes } = netlist;
  const order = orderNodes(nodes);
  return order.knots.flatMap((knot) => {
    const graph = createBitGraph(bitsOfNodes(nodes, knot), (bit, visit) => visitOperandsOfBit(nodes, bit, visit));
    return loopsOf(graph).map((bits) => ({ bits, closes: closingOf(netlist, order, bits) }));
  });
}

function bitsOfNodes(nodes: NodeColumns, members: readonly NodeId[]): Bit[] {
  return members.flatMap((node) => Array.from({ length: nodes.width[node] }, (_, bit) => ({ node, bit })));
}
