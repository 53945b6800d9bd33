// The bits that a drive can set: those of the top's input and inout ports, by the node that stands for the outside.

import { signalBitName } from '../netlist/bit-names';
import type { Bit, Netlist, NodeId, Signal } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { bitKey } from '../netlist/bit-key';

export interface DrivePort {
  readonly signal: Signal;
  /** The `input` node. */
  readonly node: NodeId;
}

export interface DrivePorts {
  /** In header order. */
  readonly list: readonly DrivePort[];
  /** The port whose outside node this is, else null. */
  portOf(node: number): DrivePort | null;
  /** The port bit of this full name, else null. */
  bitNamed(name: string): { readonly port: DrivePort; readonly bit: Bit } | null;
}

export function findDrivePorts({ nodes, signals, top }: Netlist): DrivePorts {
  const byNode = new Map<number, DrivePort>();
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.input) continue;
    byNode.set(node, { signal: signals[nodes.aux[node]], node: node as NodeId });
  }
  const list = [...byNode.values()]
    .filter(({ signal }) => signal.instance === top)
    .sort((left, right) => left.signal.id - right.signal.id);
  const byName = new Map<string, { readonly port: DrivePort; readonly bit: Bit }>();
  for (const port of list) {
    for (let bit = 0; bit < port.signal.width; bit++) {
      byName.set(signalBitName(port.signal, bit), { port, bit: { node: port.node, bit } });
    }
  }
  return {
    list,
    portOf: (node) => byNode.get(node) ?? null,
    bitNamed: (name) => byName.get(name) ?? null,
  };
}

/** Bits of ports that are spoken for, by `bitKey`. */
export type TakenBits = Set<number>;

export function takeBit(taken: TakenBits, bit: Bit): void {
  taken.add(bitKey(bit));
}

export function isTaken(taken: TakenBits, bit: Bit): boolean {
  return taken.has(bitKey(bit));
}
