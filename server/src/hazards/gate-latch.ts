// Storage that somebody built from gates (definition 40): loops of gates that keep their value and that inputs set and
// clear, flip-flops of six NANDs as well as vectors that hold each other. Two gates of one bit each are latches of the
// netlist already. No finding; the report lists them beside the latches.

import { bitKey } from '../netlist/bit-key';
import { combinationalLoops } from '../netlist/loops';
import type { Bit, Netlist, NodeColumns } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';
import { controlledGates, feedbackOf, invertingGates, isPassing } from './loop-feedback';
import { type LoopMember, loopMembers } from './loop-members';

/** The named bits of each such loop by the place of their drivers; there is one at least. In order of their loops. */
export function gateLatches(netlist: Netlist): (readonly LoopMember[])[] {
  return combinationalLoops(netlist)
    .filter(({ bits, closes }) => closes !== 'never' && isGateLatch(netlist.nodes, bits))
    .map(({ bits }) => loopMembers(netlist, bits))
    .filter((members) => members.length > 0);
}

/** Gates and names alone, some of them inverting, a value that is kept, and at least two gates with a control outside. */
export function isGateLatch(nodes: NodeColumns, loop: readonly Bit[]): boolean {
  const members = new Set(loop.map(bitKey));
  const gates = loop.filter(({ node }) => !isPassing(nodes, node));
  return (
    gates.every(({ node }) => controlledGates.has(nodes.op[node]) || nodes.op[node] === Op.not) &&
    gates.some(({ node }) => invertingGates.has(nodes.op[node])) &&
    gates.filter((gate) => hasControl(nodes, members, gate)).length > 1 &&
    feedbackOf(nodes, loop) === 'keeps'
  );
}

function hasControl(nodes: NodeColumns, members: ReadonlySet<number>, gate: Bit): boolean {
  let outside = 0;
  visitOperandsOfBit(nodes, gate, (node, bit) => {
    if (!members.has(bitKey({ node, bit }))) outside++;
  });
  return outside > 0;
}
