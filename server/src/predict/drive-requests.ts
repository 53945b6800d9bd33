// Which port bits must stand at which level for an inner bit to stand at a wanted one: walks back through wiring, buffers,
// inverters and gates as far as the wish is plain (all inputs of an and at 1, all of an or at 0). Where a gate leaves a
// choice, or the bit comes from something else, it asks for nothing. A register that only repeats is passed on request.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { operandsOf } from './drive-spots';

export interface PortRequest {
  readonly bit: Bit;
  readonly level: 0 | 1;
}

export interface Wish extends PortRequest {
  /** Whether a gate that leaves a choice (an or wanted at 1) passes the wish to all its inputs, or ends it. */
  readonly choices: 'all' | 'none';
  /** Whether a register or latch passes the wish to its data, or ends it. */
  readonly storage: 'passes' | 'ends';
}

export function requestsFor(netlist: Netlist, wish: Wish): PortRequest[] {
  const { nodes } = netlist;
  const found: PortRequest[] = [];
  const seen = new Set<number>();
  const pending: PortRequest[] = [wish];
  for (let request = pending.pop(); request !== undefined && seen.size < largestWalk; request = pending.pop()) {
    const bit = sourceBit(nodes, request.bit);
    if (seen.has(bitKey(bit))) continue;
    seen.add(bitKey(bit));
    if (nodes.op[bit.node] === Op.input) found.push({ bit, level: request.level });
    else pending.push(...stepBack(netlist, { ...wish, bit, level: request.level }).reverse());
  }
  return found;
}

/** Bits walked over for one wish; a port behind more than that is not asked. */
const largestWalk = 256;

function stepBack(netlist: Netlist, { bit, level, choices, storage }: Wish): PortRequest[] {
  const { nodes } = netlist;
  const opposite = level === 1 ? 0 : 1;
  const isPlain = (plainLevel: 0 | 1) => level === plainLevel || choices === 'all' || isOnlyVarying(netlist, bit);
  switch (nodes.op[bit.node]) {
    case Op.buf:
    case Op.delay:
      return sameBits(netlist, bit, level);
    case Op.not:
      return sameBits(netlist, bit, opposite);
    case Op.and:
      return isPlain(1) ? sameBits(netlist, bit, level) : [];
    case Op.or:
      return isPlain(0) ? sameBits(netlist, bit, level) : [];
    case Op.nand:
      return isPlain(0) ? sameBits(netlist, bit, opposite) : [];
    case Op.nor:
      return isPlain(1) ? sameBits(netlist, bit, opposite) : [];
    case Op.reduceAnd:
      return isPlain(1) ? allBits(netlist, bit.node, level) : [];
    case Op.reduceOr:
      return isPlain(0) ? allBits(netlist, bit.node, level) : [];
    case Op.equal:
      return level === 1 ? equalTo(netlist, bit.node) : [];
    case Op.notEqual:
      return level === 0 ? equalTo(netlist, bit.node) : [];
    case Op.register:
    case Op.latch:
      return storage === 'passes' ? [dataOf(netlist, bit, level)] : [];
    default:
      return [];
  }
}

/** With all other inputs of the gate at constants that do not decide it, there is no choice. */
function isOnlyVarying(netlist: Netlist, { node, bit }: Bit): boolean {
  if (netlist.nodes.arity[node] < 2) return false;
  const varying = operandsOf(netlist, node).filter(
    (operand) => netlist.nodes.op[sourceBit(netlist.nodes, { node: operand, bit }).node] !== Op.constant,
  );
  return varying.length === 1;
}

/** The bit of every operand that stands where this one does. */
function sameBits(netlist: Netlist, { node, bit }: Bit, level: 0 | 1): PortRequest[] {
  return operandsOf(netlist, node).map((operand) => ({ bit: { node: operand, bit }, level }));
}

/** Every bit of the only operand. */
function allBits(netlist: Netlist, node: NodeId, level: 0 | 1): PortRequest[] {
  const [operand] = operandsOf(netlist, node);
  return Array.from({ length: netlist.nodes.width[operand] }, (_, bit) => ({ bit: { node: operand, bit }, level }));
}

function dataOf({ nodes, registers, latches }: Netlist, { node, bit }: Bit, level: 0 | 1): PortRequest {
  const { data } = (nodes.op[node] === Op.register ? registers : latches)[nodes.aux[node]];
  return { bit: { node: data, bit }, level };
}

/** One side a constant: the other side's bits at its digits. */
function equalTo(netlist: Netlist, node: NodeId): PortRequest[] {
  const { nodes, constants } = netlist;
  const [left, right] = operandsOf(netlist, node);
  const [constant, compared] = nodes.op[right] === Op.constant ? [right, left] : [left, right];
  if (nodes.op[constant] !== Op.constant) return [];
  const { a, b } = constants[nodes.aux[constant]];
  const requests: PortRequest[] = [];
  for (let bit = 0; bit < nodes.width[compared]; bit++) {
    if (((b[bit >>> 5] >>> (bit & 31)) & 1) === 1) continue;
    requests.push({ bit: { node: compared, bit }, level: ((a[bit >>> 5] >>> (bit & 31)) & 1) as 0 | 1 });
  }
  return requests;
}
