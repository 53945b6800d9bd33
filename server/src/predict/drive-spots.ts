// Where a choice walk stands in a register's data, and what can be read off there: whether the register holds, which
// state it is in, which digits a constant has.

import { signalSliceName } from '../netlist/bit-names';
import { toBinary } from '../netlist/four-state';
import type { Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';

/** A node's place in the register's data: its lowest bit, and the state that the register is in there, where known. */
export interface Spot {
  readonly node: NodeId;
  readonly low: number;
  readonly state: string | null;
}

/** Whether the node is the register's own value, bit for bit, where it stands in the register's data. */
export function isHold({ nodes }: Netlist, register: Register, { node, low }: Spot): boolean {
  const end = Math.min(nodes.width[node], register.width - low);
  for (let bit = Math.max(0, -low); bit < end; bit++) {
    const source = sourceBit(nodes, { node, bit });
    if (source.node !== register.node || source.bit !== low + bit) return false;
  }
  return true;
}

/** The digits of a constant that the register's whole value is compared with, where `select` is such a test. */
export function stateTested(netlist: Netlist, register: Register, select: NodeId): string | null {
  const test = throughNets(netlist, select);
  if (netlist.nodes.op[test] !== Op.equal) return null;
  const [left, right] = operandsOf(netlist, test);
  if (isHold(netlist, register, { node: left, low: 0, state: null })) return digitsOf(netlist, right);
  return isHold(netlist, register, { node: right, low: 0, state: null }) ? digitsOf(netlist, left) : null;
}

export function digitsOf(netlist: Netlist, node: NodeId): string | null {
  const constant = throughNets(netlist, node);
  return netlist.nodes.op[constant] === Op.constant ? toBinary(netlist.constants[netlist.nodes.aux[constant]]) : null;
}

export function throughNets({ nodes }: Netlist, from: NodeId): NodeId {
  let node = from;
  for (let steps = 0; nodes.op[node] === Op.net && steps < nodes.count; steps++)
    node = nodes.pool[nodes.first[node]] as NodeId;
  return node;
}

/** The parts of a concatenation that reach into the register. */
export function partsOf(netlist: Netlist, register: Register, { node, low, state }: Spot): Spot[] {
  const { width } = netlist.nodes;
  let above = low + width[node];
  const parts = operandsOf(netlist, node).map((part) => {
    above -= width[part];
    return { node: part, low: above, state };
  });
  return parts.filter((part) => part.low < register.width && part.low + width[part.node] > 0);
}

export function operandsOf({ nodes }: Netlist, node: NodeId): NodeId[] {
  return Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node])) as NodeId[];
}

export function sliceName(
  netlist: Netlist,
  { signal, low, width }: Pick<Register, 'signal' | 'low' | 'width'>,
): string {
  return signalSliceName(netlist.signals[signal], low, width);
}
