// Which domains' registers and latches can reach each node within one instant. Coarse: a node is taken whole. It tells
// where no crossing can be, so that only the rest is looked at bit by bit.

import type { Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import type { Pace } from './pace';
import type { DomainId } from './network';

/** The domain of a register's or latch's output; null where unknown. */
export type DomainOfNode = (node: NodeId) => DomainId | null;

/** Domains ascending. */
export type DomainsAt = (node: NodeId) => readonly DomainId[];

export function* domainReach(netlist: Netlist, domainOf: DomainOfNode, pace: Pace): Generator<void, DomainsAt> {
  const { nodes } = netlist;
  const sets = createDomainSets();
  const reach = new Int32Array(nodes.count);
  const { order, knots } = orderNodes(nodes);
  const knotOf = new Map<number, readonly NodeId[]>();
  for (const knot of knots) for (const node of knot) knotOf.set(node, knot);

  function gather(node: number): number {
    const domain = nodes.op[node] === Op.register || nodes.op[node] === Op.latch ? domainOf(node as NodeId) : null;
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
  return (node) => sets.members(reach[node]);
}

/** Sets of domains as numbers: equal sets are one number, and unions are remembered. */
function createDomainSets() {
  const all: (readonly DomainId[])[] = [[]];
  const byText = new Map<string, number>([['', 0]]);
  const unions = new Map<number, number>();

  function idOf(members: readonly DomainId[]): number {
    const text = members.join(' ');
    const known = byText.get(text);
    if (known !== undefined) return known;
    byText.set(text, all.length);
    return all.push(members) - 1;
  }

  return {
    empty: 0,
    single: (domain: DomainId) => idOf([domain]),
    members: (set: number) => all[set],
    union(left: number, right: number): number {
      if (left === right || right === 0) return left;
      if (left === 0) return right;
      const key = Math.min(left, right) * 2 ** 26 + Math.max(left, right);
      const known = unions.get(key);
      if (known !== undefined) return known;
      const members = [...new Set([...all[left], ...all[right]])].sort((one, other) => one - other);
      const made = idOf(members);
      unions.set(key, made);
      return made;
    },
  };
}
