// Full names of bits as the report writes them: instance path, own name, declared index; a scalar has no index.

import { bitKey } from './bit-key';
import { bitSuffix, type PackedForm, sliceSuffixes } from './packed-form';
import type { Bit, NetPiece, Netlist, NodeId, Signal } from './netlist';
import { Op } from './operators';
import { sourceBit, wiringStep } from './trace';

export interface BitNames {
  /**
   * The name of what a bit is: of a register, latch, input or net bit its signal's; of an operator's bit the first
   * net, in source order, that it drives directly; of a black box's output, where no net has it, the pin's. Null for
   * what has no name (a part of an expression, a constant).
   */
  nameOf(bit: Bit): string | null;
  /** As `nameOf`, after walking back through ports and plain assignments: the canonical name. */
  canonicalNameOf(bit: Bit): string | null;
}

/** Built once per netlist; holds an index of which nets operators drive. */
export function createBitNames(netlist: Netlist): BitNames {
  const { nodes } = netlist;
  const driven = indexDrivenNets(netlist);

  function nameOf(bit: Bit): string | null {
    const aux = nodes.aux[bit.node];
    switch (nodes.op[bit.node]) {
      case Op.constant:
        return null;
      case Op.input:
        return signalBitName(netlist.signals[aux], bit.bit);
      case Op.register:
        return heldBitName(netlist, netlist.registers[aux], bit.bit);
      case Op.latch:
        return heldBitName(netlist, netlist.latches[aux], bit.bit);
      case Op.net:
        return heldBitName(netlist, netlist.pieces[aux], bit.bit);
      default:
        return drivenNetName(bit) ?? ownName(netlist, bit);
    }
  }

  function drivenNetName(bit: Bit): string | null {
    const found = driven.get(bitKey(bit));
    return found === undefined ? null : heldBitName(netlist, found.piece, found.bit);
  }

  return {
    nameOf,
    canonicalNameOf: (bit) => nameOf(sourceBit(nodes, bit)),
  };
}

/** `u1.q[3]`: a bit of a signal, counted from its least significant bit, in declared indices. */
export function signalBitName(signal: Signal, bit: number): string {
  if (signal.packed !== undefined) return `${signal.name}${bitSuffix(signal.packed, bit)}`;
  return signal.scalar ? signal.name : `${signal.name}[${declaredIndex(signal, bit)}]`;
}

/**
 * `u1.q[3:0]`, `u1.q[3]` or, for a scalar, `u1.q`: bits [low + width - 1 : low] of a signal, low counted from its
 * least significant bit, in declared indices.
 */
export function signalSliceName(signal: Signal, low: number, width: number): string {
  if (signal.packed !== undefined) return packedSliceName(signal.name, signal.packed, low, width);
  if (signal.scalar || width === 1) return signalBitName(signal, low);
  return `${signal.name}[${declaredIndex(signal, low + width - 1)}:${declaredIndex(signal, low)}]`;
}

/** Of several parts, none of which holds the others, a concatenation. */
function packedSliceName(name: string, packed: PackedForm, low: number, width: number): string {
  const names = sliceSuffixes(packed, low, width).map((suffix) => `${name}${suffix}`);
  return names.length === 1 ? names[0] : `{${names.join(', ')}}`;
}

/** The index as declared of a bit counted from the least significant one. */
export function declaredIndex(signal: Signal, bit: number): number {
  return signal.msb >= signal.lsb ? signal.lsb + bit : signal.lsb - bit;
}

interface Held {
  readonly signal: Signal['id'];
  readonly low: number;
}

function heldBitName(netlist: Netlist, held: Held, bit: number): string {
  return signalBitName(netlist.signals[held.signal], held.low + bit);
}

/** What a source without a net is called. */
function ownName(netlist: Netlist, { node, bit }: Bit): string | null {
  const { nodes } = netlist;
  if (nodes.op[node] === Op.undriven) return signalBitName(netlist.signals[nodes.aux[node]], bit);
  if (nodes.op[node] !== Op.blackBox) return null;
  const { box, pin } = netlist.blackBoxOutputs[nodes.aux[node]];
  const name = `${netlist.blackBoxes[box].instance}.${netlist.blackBoxes[box].pins[pin].name}`;
  return nodes.width[node] === 1 ? name : `${name}[${bit}]`;
}

interface DrivenNet {
  readonly piece: NetPiece;
  readonly bit: number;
}

/** For each bit, by its key, the first piece bit that it drives through no other net. */
function indexDrivenNets(netlist: Netlist): ReadonlyMap<number, DrivenNet> {
  const { nodes } = netlist;
  const driven = new Map<number, DrivenNet>();
  for (const piece of netlist.pieces) {
    const driver = nodes.pool[nodes.first[piece.node]] as NodeId;
    for (let bit = 0; bit < piece.width; bit++) {
      const source = backToNet(netlist, { node: driver, bit });
      const key = bitKey(source);
      if (nodes.op[source.node] !== Op.net && !driven.has(key)) driven.set(key, { piece, bit });
    }
  }
  return driven;
}

function backToNet({ nodes }: Netlist, start: Bit): Bit {
  let bit = start;
  while (nodes.op[bit.node] !== Op.net) {
    const next = wiringStep(nodes, bit);
    if (next === null) break;
    bit = next;
  }
  return bit;
}
