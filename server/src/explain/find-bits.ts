// From a name as a person writes it to the bits it stands for: `q`, `q[3]`, `u1.q[7:4]`, in declared indices.

import { declaredIndex, signalBitName } from '../netlist/bit-names';
import { type Bit, contentSignals, type Netlist, type Signal } from '../netlist/netlist';

export interface NamedBit {
  readonly name: string;
  readonly bit: Bit;
}

/** Most significant first; null where no signal is called so, it is a memory kept as a whole, or the index is outside it. */
export function findBits(netlist: Netlist, name: string): readonly NamedBit[] | null {
  const whole = signalNamed(netlist, name);
  if (whole !== null) return bitsOf(whole, () => true);
  const part = /^(.*)\[(-?[0-9]+)(?::(-?[0-9]+))?\]$/s.exec(name);
  const signal = part === null ? null : signalNamed(netlist, part[1]);
  if (part === null || signal === null || signal.scalar) return null;
  const [left, right] = [Number(part[2]), Number(part[3] ?? part[2])];
  const found = bitsOf(signal, (index) => index >= Math.min(left, right) && index <= Math.max(left, right));
  return found.length === Math.abs(left - right) + 1 ? found : null;
}

function signalNamed(netlist: Netlist, name: string): Signal | null {
  const signal = netlist.signals.find((candidate) => candidate.name === name) ?? null;
  return signal === null || contentSignals(netlist).has(signal.id) ? null : signal;
}

function bitsOf(signal: Signal, wanted: (declaredIndex: number) => boolean): readonly NamedBit[] {
  const positions = Array.from({ length: signal.width }, (_, index) => signal.width - 1 - index);
  return positions
    .filter((bit) => wanted(declaredIndex(signal, bit)))
    .map((bit) => ({ name: signalBitName(signal, bit), bit: { node: signal.node, bit } }));
}
