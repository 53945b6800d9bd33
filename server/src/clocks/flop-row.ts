// A row of flip-flops of one domain, each read by the next one alone: what a synchronizer is made of.

import type { RegisterId } from '../netlist/netlist';
import { type ReaderIndex, readersOf } from './bit-readers';
import type { RegisterClocking } from './network';

export interface FlopRow {
  readonly length: number;
  readonly last: RegisterId;
}

/** Longer rows are delay lines. */
const deepestRow = 8;

/** From this register bit on. */
export function rowFrom(
  clocking: readonly RegisterClocking[],
  readers: ReaderIndex,
  first: { readonly register: RegisterId; readonly bit: number },
): FlopRow {
  const { domain } = clocking[first.register];
  let current = first;
  for (let length = 1; length < deepestRow; length++) {
    const { node } = readers.context.netlist.registers[current.register];
    const { flops, others } = readersOf(readers, { node, bit: current.bit });
    const [next] = flops;
    if (others || flops.length !== 1 || clocking[next.register].domain !== domain) {
      return { length, last: current.register };
    }
    current = next;
  }
  return { length: deepestRow, last: current.register };
}
