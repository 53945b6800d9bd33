// How long the delays written inside a module (`#`) take from its inputs to a node, at most: what a module path to an output
// has in common with them counts once, the larger of the two holds (IEEE 1364-2005 14.4).

import type { DelayTriple, Netlist, NodeId } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { longestOf, sumOf, zero } from './triples';

/** `stops`: nets of input ports, where a walk ends. Each node is worked out once; a loop adds nothing on its way round. */
export function createDistributedDelays(netlist: Netlist, stops: ReadonlySet<NodeId>): (node: NodeId) => DelayTriple {
  const { nodes } = netlist;
  const known = new Map<NodeId, DelayTriple>();
  if (netlist.explicitDelays.length === 0) return () => zero;
  const operandsOf = (node: NodeId): readonly NodeId[] =>
    stops.has(node) || isSource(nodes.op[node])
      ? []
      : (Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[]);
  return (root) => {
    const stack = [root];
    const opened = new Set<NodeId>();
    for (let node = stack.at(-1); node !== undefined; node = stack.at(-1)) {
      const waiting = opened.has(node)
        ? []
        : operandsOf(node).filter((operand) => !known.has(operand) && !opened.has(operand));
      opened.add(node);
      if (waiting.length > 0) {
        stack.push(...waiting);
        continue;
      }
      stack.pop();
      const before = longestOf([zero, ...operandsOf(node).map((operand) => known.get(operand) ?? zero)]);
      if (!known.has(node)) known.set(node, sumOf(before, ownDelay(netlist, node)));
    }
    return known.get(root) ?? zero;
  };
}

function ownDelay({ explicitDelays, nodes, registers }: Netlist, node: NodeId): DelayTriple {
  const aux = nodes.aux[node];
  const index = nodes.op[node] === Op.delay ? aux : nodes.op[node] === Op.register ? registers[aux].delay : -1;
  return index < 0 ? zero : longestOf([explicitDelays[index].rise, explicitDelays[index].fall]);
}
