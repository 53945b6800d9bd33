// Which operators take delays of their own: those written for a signal that has some. An operator belongs to every named
// net and stored bit in whose expression it stands; where these have different delays, it keeps those of the design.

import type { DelaySet } from '../delays/delay-set';
import { logicClassOf } from '../delays/stage-delays';
import type { Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { orderNodes } from '../netlist/order';
import type { OwnScopes } from './own-scopes';

export function ownOperators(netlist: Netlist, scopes: OwnScopes): ReadonlyMap<NodeId, DelaySet> {
  const { nodes } = netlist;
  const asked = askedByNames(netlist, scopes);
  const own = new Map<NodeId, DelaySet>();
  for (const node of [...orderNodes(nodes).order].reverse() as NodeId[]) {
    const wanted = asked.of(node);
    if (nodes.op[node] === Op.net || wanted === undefined) continue;
    if (wanted !== null && logicClassOf(nodes.op[node]) !== null) own.set(node, wanted);
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) asked.ask(nodes.pool[entry] as NodeId, wanted);
  }
  return own;
}

/** Per node what its readers want of it: a set, null for the design's own or for several; undefined if nobody asked. */
interface Asked {
  of(node: NodeId): DelaySet | null | undefined;
  ask(node: NodeId, wanted: DelaySet | null): void;
}

/** What nets and stored bits want of the expressions that they take their values from. */
function askedByNames(netlist: Netlist, scopes: OwnScopes): Asked {
  const { nodes, pieces, registers, latches, blackBoxes } = netlist;
  const wishes: (DelaySet | null | undefined)[] = new Array(nodes.count);
  const ask = (node: NodeId, wanted: DelaySet | null): void => {
    wishes[node] = wishes[node] === undefined || wishes[node] === wanted ? wanted : null;
  };
  for (const piece of pieces) ask(nodes.pool[nodes.first[piece.node]] as NodeId, scopes.setOf(piece));
  for (const stored of [...registers, ...latches]) {
    const wanted = scopes.setOf(stored);
    ask(stored.data, wanted);
    ask(('clock' in stored ? stored.clock : stored.gate).node, wanted);
    for (const { control, value } of stored.asynchronous) {
      ask(control.node, wanted);
      ask(value, wanted);
    }
  }
  for (const { pins } of blackBoxes) for (const { node } of pins) ask(node, null);
  return { of: (node) => wishes[node], ask };
}
