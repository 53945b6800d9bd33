// Full names of bits as the report writes them: instance path, own name, declared index; a scalar has no index.

import { impossible } from '../text/impossible';
import type { Bit, Netlist, Signal } from './netlist';

export interface BitNames {
  /**
   * The name of what a bit is: of a register, latch, input or net bit its signal's; of an operator's bit the first
   * net, in source order, that it drives directly. Null for what has no name (a part of an expression, a constant).
   */
  nameOf(bit: Bit): string | null;
  /** As `nameOf`, after walking back through ports and plain assignments: the canonical name. */
  canonicalNameOf(bit: Bit): string | null;
}

/** Built once per netlist; holds an index of which nets operators drive. */
export function createBitNames(netlist: Netlist): BitNames {
  return impossible(`not built: ${netlist.top}`);
}

/** `u1.q[3]`: a bit of a signal, counted from its least significant bit, in declared indices. */
export function signalBitName(signal: Signal, bit: number): string {
  return signal.scalar ? signal.name : `${signal.name}[${declaredIndex(signal, bit)}]`;
}

/** `u1.q[3:0]`, `u1.q[3]` or `u1.q`: bits [low + width - 1 : low] of a signal, low counted from its lsb. */
export function signalSliceName(signal: Signal, low: number, width: number): string {
  if (signal.scalar) return signal.name;
  if (width === 1) return signalBitName(signal, low);
  return `${signal.name}[${declaredIndex(signal, low + width - 1)}:${declaredIndex(signal, low)}]`;
}

/** The index as declared of a bit counted from the least significant one. */
export function declaredIndex(signal: Signal, bit: number): number {
  return signal.msb >= signal.lsb ? signal.lsb + bit : signal.lsb - bit;
}
