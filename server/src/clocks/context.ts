// What every question about clocks is asked of: the netlist, the names of its bits and what a person stated; with the small
// questions that every walk asks of a bit.

import { digitAt } from '../netlist/four-state';
import { type BitNames, createBitNames } from '../netlist/bit-names';
import type { Bit, Netlist, NodeColumns, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { Place } from '../text/place';
import type { ClockOptions } from './network';

export interface Context {
  readonly netlist: Netlist;
  readonly nodes: NodeColumns;
  readonly names: BitNames;
  readonly options: ClockOptions;
}

export function createContext(netlist: Netlist, options: ClockOptions): Context {
  return { netlist, nodes: netlist.nodes, names: createBitNames(netlist), options };
}

export function sameBit(left: Bit, right: Bit): boolean {
  return left.node === right.node && left.bit === right.bit;
}

/** The bit that drives this one, wiring looked through. */
export function sourceOf(context: Context, bit: Bit): Bit {
  return sourceBit(context.nodes, bit);
}

export function opOf(context: Context, bit: Bit): number {
  return context.nodes.op[bit.node];
}

/**
 * The level of a constant bit: 0 or 1, `x` for unknown and high impedance; null for what is no constant.
 * `source`: wiring looked through, which leaves an extension only where it adds a zero.
 */
export function constantLevel(context: Context, source: Bit): 0 | 1 | 'x' | null {
  if (opOf(context, source) === Op.zeroExtend) return 0;
  if (opOf(context, source) !== Op.constant) return null;
  const digit = digitAt(context.netlist.constants[context.nodes.aux[source.node]], source.bit);
  return digit === '0' ? 0 : digit === '1' ? 1 : 'x';
}

/** A latch that only its controls set and clear (cross-coupled gates) has a constant where another has its gate. */
export function isNoGate(context: Context, gate: Bit): boolean {
  return constantLevel(context, sourceOf(context, gate)) !== null;
}

export function placeOfNode(context: Context, node: NodeId): Place {
  return context.netlist.places[context.nodes.place[node]];
}

export function operandNode({ nodes }: Context, node: NodeId, operand: number): NodeId {
  return nodes.pool[nodes.first[node] + operand] as NodeId;
}

/** Bit `index` of operand number `operand` of a node, wiring looked through. */
export function operandSource(context: Context, node: NodeId, operand: number, index: number): Bit {
  return sourceOf(context, { node: operandNode(context, node, operand), bit: index });
}

/** All bits of operand number `operand`, least significant first, wiring looked through. */
export function operandSources(context: Context, node: NodeId, operand: number): Bit[] {
  const width = context.nodes.width[operandNode(context, node, operand)];
  return Array.from({ length: width }, (_, index) => operandSource(context, node, operand, index));
}
