// The register bits that a register's next value is made from within one instant, through logic and names.

import { bitKey } from './bit-key';
import type { Netlist, Register, RegisterId } from './netlist';
import { Op } from './operators';
import { visitOperandsOfBit } from './trace';

export interface RegisterBit {
  readonly register: RegisterId;
  readonly bit: number;
}

/** Its own bits too, where it hears them. */
export function registersHeard({ nodes, registers }: Netlist, to: Register): readonly RegisterBit[] {
  const found: RegisterBit[] = [];
  const seen = new Set<number>();
  const waiting = Array.from({ length: to.width }, (_, bit) => ({ node: to.data, bit }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (seen.has(bitKey(next))) continue;
    seen.add(bitKey(next));
    const { node, bit } = next;
    if (nodes.op[node] === Op.register) found.push({ register: registers[nodes.aux[node]].id, bit });
    else visitOperandsOfBit(nodes, next, (operand, index) => waiting.push({ node: operand, bit: index }));
  }
  return found;
}
