// Walks of single bits through the netlist: back through wiring to what drives a bit, and one step back through any
// operator to the operand bits that can influence it. Nothing is remembered between calls.

import { impossible } from '../text/impossible';
import type { Bit, NodeColumns } from './netlist';

/**
 * The first bit on the way back that is not wiring (`net`, `concat`, `slice`, extensions): a register bit, a port, a
 * constant, a gate. Through ports and plain assignments, never through an operator: this is the report's canonical
 * bit. Nets that only drive each other in a ring give the ring's bit with the lowest node.
 */
export function sourceBit(nodes: NodeColumns, bit: Bit): Bit {
  return impossible(`not built: ${nodes.count} ${bit.bit}`);
}

/** As `sourceBit`, and on through buffers and explicit delays too. */
export function sourceBitPastBuffers(nodes: NodeColumns, bit: Bit): Bit {
  return impossible(`not built: ${nodes.count} ${bit.bit}`);
}

/**
 * The operand bits that can influence this bit, in operand order: exact for wiring, gates, mux and select; carry order
 * for add, subtract and negate (bit i hears bits up to i); all bits for the rest. A source has none.
 */
export function operandsOfBit(nodes: NodeColumns, bit: Bit): Bit[] {
  return impossible(`not built: ${nodes.count} ${bit.bit}`);
}
