// The same circuit with latches as the choices that they are while one looks only at levels: what stands at the data input
// while the gate is open, else what is stored. For questions about what runs round while latches are open. Nodes keep
// their numbers, new ones stand behind them; everything else of the netlist is as it was.

import { createGrowingNodes, type GrowingNodes } from './growing-nodes';
import type { Bit, Latch, LatchId, Netlist, NodeId } from './netlist';
import { Op } from './operators';

export interface OpenLatches {
  readonly netlist: Netlist;
  /** The node that gives a latch's output, by node; the same node as before. */
  readonly latchOf: ReadonlyMap<NodeId, LatchId>;
  /** Nodes that choose: what opens, sets and clears. */
  readonly choosing: ReadonlySet<NodeId>;
}

export function withOpenLatches(netlist: Netlist): OpenLatches {
  const nodes = createGrowingNodes(netlist.nodes);
  const choosing = new Set<NodeId>();
  for (const latch of netlist.latches) openOne(nodes, netlist.nodes.place[latch.node], latch, choosing);
  return {
    netlist: { ...netlist, nodes: nodes.columns() },
    latchOf: new Map(netlist.latches.map(({ id, node }) => [node, id])),
    choosing,
  };
}

/** The stored value and the choices are new nodes; the old one passes what they give. */
function openOne(nodes: GrowingNodes, place: number, latch: Latch, choosing: Set<NodeId>): void {
  const { node, width } = latch;
  const add = (op: number, of: number, operands: readonly NodeId[], aux: number) =>
    nodes.add({ op, width: of, operands, aux, place });
  const choose = ({ node: control, bit }: Bit, active: 'high' | 'low', taken: NodeId, rest: NodeId) => {
    const select = add(Op.slice, 1, [control], bit);
    choosing.add(select);
    return add(Op.mux, width, active === 'high' ? [select, taken, rest] : [select, rest, taken], 0);
  };
  const stored = add(Op.latch, width, [], latch.id);
  const opened = choose(latch.gate, latch.active, latch.data, stored);
  const value = latch.asynchronous.reduceRight(
    (rest, { active, control, value: loaded }) => choose(control, active, loaded, rest),
    opened,
  );
  nodes.replace(node, { op: Op.buf, operands: [value], aux: 0 });
}
