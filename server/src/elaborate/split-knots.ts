// Splits words that only seem to feed themselves: `c[3:1] = c[2:0] & g` is no loop. Every net of a knot of nodes becomes
// a net per bit, its driver is made again bit by bit; what then still feeds itself does so in truth.

import type { Limits } from '../budget';
import type { Bit, NetPiece, NetPieceId, Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { createBitBlaster } from './bit-blast';
import { createGrowingNodes, type GrowingNodes } from '../netlist/growing-nodes';

type BitsOfNets = ReadonlyMap<NodeId, readonly NodeId[]>;

/** The same netlist where there is nothing to split. `knots`: sets of its nodes that feed each other. Yields now and then. */
export function* splitKnots(
  netlist: Netlist,
  knots: readonly (readonly NodeId[])[],
  limits: Limits,
): Generator<void, Netlist> {
  const { nodes } = netlist;
  const wide = knots.filter((knot) => knot.some((node) => nodes.width[node] > 1));
  const bitCount = wide.flat().reduce((sum, node) => sum + nodes.width[node], 0);
  if (wide.length === 0 || nodes.count + bitCount > limits.nodes) return netlist;
  const inKnot = new Uint8Array(nodes.count);
  for (const node of wide.flat()) inKnot[node] = 1;
  const grown = createGrowingNodes(nodes);
  const nets = splitNets(netlist, grown, wide.flat());
  const blaster = createBitBlaster(nodes, grown, nets, inKnot);
  for (const [net, bits] of nets) {
    const drivers = blaster.bitsOf(nodes.pool[nodes.first[net]] as NodeId);
    for (const [index, bit] of bits.entries()) grown.replace(bit, { op: Op.net, operands: [drivers[index]], aux: 0 });
    yield;
  }
  for (const [net, bits] of nets) {
    if (bits.length > 1) grown.replace(net, { op: Op.concat, operands: [...bits].reverse(), aux: 0 });
  }
  return withPieces(netlist, grown, nets);
}

/** A net of one bit stays itself; a wider one gets a net per bit, whose driver comes later. */
function splitNets({ nodes }: Netlist, grown: GrowingNodes, knot: readonly NodeId[]): BitsOfNets {
  const nets = new Map<NodeId, readonly NodeId[]>();
  for (const node of knot) {
    if (nodes.op[node] !== Op.net) continue;
    const place = nodes.place[node];
    const width = nodes.width[node];
    const newBit = () => grown.add({ op: Op.net, width: 1, operands: [node], aux: 0, place });
    nets.set(node, width === 1 ? [node] : Array.from({ length: width }, newBit));
  }
  return nets;
}

/** Pieces by bit where a net was split, all numbered anew. */
function withPieces(netlist: Netlist, grown: GrowingNodes, nets: BitsOfNets): Netlist {
  const pieces: NetPiece[] = [];
  const add = (piece: NetPiece): NetPieceId => {
    const id = pieces.length as NetPieceId;
    pieces.push({ ...piece, id });
    return id;
  };
  const signals = netlist.signals.map((signal) => {
    const own = signal.pieces.flatMap((id) => {
      const piece = netlist.pieces[id];
      const bits = nets.get(piece.node);
      if (bits === undefined || bits.length === 1) return [add(piece)];
      return bits.map((node, bit) => add({ ...piece, low: piece.low + bit, width: 1, node }));
    });
    if (own.length === signal.pieces.length) return { ...signal, pieces: own };
    const operands = own.map((id) => pieces[id].node).reverse();
    const place = netlist.nodes.place[signal.node];
    const node = grown.add({ op: Op.concat, width: signal.width, operands, aux: 0, place });
    return { ...signal, pieces: own, node };
  });
  const nodes = grown.columns();
  for (const { id, node } of pieces) nodes.aux[node] = id;
  const bit = ({ node, bit: index }: Bit): Bit => {
    const bits = nets.get(node);
    return bits === undefined || bits.length === 1 ? { node, bit: index } : { node: bits[index], bit: 0 };
  };
  const controls = ({ asynchronous }: Pick<Register, 'asynchronous'>) =>
    asynchronous.map((control) => ({ ...control, control: bit(control.control) }));
  return {
    ...netlist,
    nodes,
    signals,
    pieces,
    registers: netlist.registers.map((register) => ({
      ...register,
      clock: bit(register.clock),
      asynchronous: controls(register),
    })),
    latches: netlist.latches.map((latch) => ({
      ...latch,
      gate: bit(latch.gate),
      asynchronous: controls(latch),
    })),
  };
}
