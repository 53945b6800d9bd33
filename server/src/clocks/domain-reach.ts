// Which domains' registers and latches can reach a node, taken whole, or a bit within one instant. The first is quick and
// tells where no crossing can be; the second is asked only where the first leaves it open.

import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { isSource } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import { coneOperands, coneStart } from './cone-bits';
import { type Context, opOf } from './context';
import type { DomainSets } from './domain-sets';
import { createMemoWalk } from './memo-walk';
import type { DomainId } from './network';
import type { Pace } from './pace';

/** The domain of a register's or latch's output; null where unknown, and for every other node. */
export type DomainOfNode = (node: NodeId) => DomainId | null;

/** A set for each node (`DomainSets`). */
export function* nodeReach(
  netlist: Netlist,
  domainOf: DomainOfNode,
  sets: DomainSets,
  pace: Pace,
): Generator<void, Int32Array> {
  const { nodes } = netlist;
  const reach = new Int32Array(nodes.count);
  const { order, knots } = orderNodes(nodes);
  const knotOf = new Map<number, readonly NodeId[]>();
  for (const knot of knots) for (const node of knot) knotOf.set(node, knot);

  function gather(node: number): number {
    const domain = domainOf(node as NodeId);
    let set = domain === null ? sets.empty : sets.single(domain);
    for (let index = 0; index < nodes.arity[node]; index++) {
      set = sets.union(set, reach[nodes.pool[nodes.first[node] + index]]);
    }
    return set;
  }

  for (const node of order) {
    const knot = knotOf.get(node);
    if (knot === undefined) reach[node] = gather(node);
    else if (reach[node] === sets.empty) {
      const all = knot.reduce((set, member) => sets.union(set, gather(member)), sets.empty);
      for (const member of knot) reach[member] = all;
    }
    if (pace.spend(1)) yield;
  }
  return reach;
}

/** The set of one bit, exact but for wide arithmetic. `reach`: of the nodes. */
export function createBitReach(
  context: Context,
  domainOf: DomainOfNode,
  sets: DomainSets,
  reach: Int32Array,
): (bit: Bit) => number {
  const walk = createMemoWalk<number>({
    operandsOf: (bit) => (reach[bit.node] === sets.empty ? [] : coneOperands(context, bit)),
    valueOf(bit, _operands, values) {
      if (!isSource(opOf(context, bit))) {
        return values.reduce<number>((all, set) => sets.union(all, set ?? sets.empty), sets.empty);
      }
      const domain = domainOf(bit.node);
      return domain === null ? sets.empty : sets.single(domain);
    },
  });
  return (bit) => walk(coneStart(context, bit));
}
