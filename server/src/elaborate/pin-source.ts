// What a pin hears, as far as time does not matter: through wiring, buffers and delays of nothing.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { isZero } from './triples';

export type Wires = Pick<Netlist, 'nodes' | 'explicitDelays'>;

export interface PinSource {
  readonly bit: Bit;
  /** An odd number of inverters stands between. */
  readonly inverted: boolean;
}

/** Through inverters too. */
export function pinSource(wires: Wires, pin: Bit): PinSource {
  const { nodes } = wires;
  let bit = sourceBit(nodes, pin);
  let inverted = false;
  const seen = new Set<number>();
  while (passes(wires, bit.node) && !seen.has(bitKey(bit))) {
    seen.add(bitKey(bit));
    if (nodes.op[bit.node] === Op.not) inverted = !inverted;
    bit = sourceBit(nodes, { node: nodes.pool[nodes.first[bit.node]] as NodeId, bit: bit.bit });
  }
  return { bit, inverted };
}

function passes({ explicitDelays, nodes }: Wires, node: NodeId): boolean {
  const op = nodes.op[node];
  if (op === Op.buf || op === Op.not) return true;
  if (op !== Op.delay) return false;
  const { rise, fall } = explicitDelays[nodes.aux[node]];
  return isZero(rise) && isZero(fall);
}

export function pinKey(wires: Wires, pin: Bit): number {
  return bitKey(pinSource(wires, pin).bit);
}
