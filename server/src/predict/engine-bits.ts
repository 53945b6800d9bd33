// The bits of a netlist as dense numbers: one for every bit of every node that is not wiring, so that a run keeps its
// values in plain arrays. Wiring (nets, concatenations, slices, extensions) is looked through once, here. The first four
// numbers stand for the constant levels 0, 1, z and x themselves.

import type { Bits } from '../netlist/four-state';
import type { Bit, Netlist, NodeColumns } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import type { Level } from './waves';

export interface DenseBits {
  /** How many, the four constants included. */
  readonly count: number;
  /** Number of the bit that drives this one, wiring looked through. */
  of(node: number, bit: number): number;
  readonly nodeOf: Uint32Array;
  readonly bitOf: Uint32Array;
  /** First number of a node's own bits, least significant first; -1 for wiring and constants. */
  readonly base: Int32Array;
}

/** The dense numbers below this one are the constant levels: the level itself. */
export const constantBits = 4;

export function createDenseBits(netlist: Netlist): DenseBits {
  const { nodes, constants } = netlist;
  const { base, count } = numberOwnBits(nodes);
  const ownBit = (node: number, bit: number): number =>
    nodes.op[node] === Op.constant ? levelAtBit(constants[nodes.aux[node]], bit) : base[node] + bit;
  const wiring = resolveWiring(nodes, ownBit);
  const of = (node: number, bit: number): number =>
    wiring.first[node] < 0 ? ownBit(node, bit) : wiring.source[wiring.first[node] + bit];
  return { count, of, base, ...ownersOf(nodes, base, count) };
}

export function denseOf(bits: DenseBits, bit: Bit): number {
  return bits.of(bit.node, bit.bit);
}

/** A digit of a value as a level: a + 2·b of its planes. Outside the value: x. */
export function levelAtBit(bits: Bits, bit: number): Level {
  if (bit < 0 || bit >= bits.width) return 3;
  const limb = bit >>> 5;
  return (((bits.a[limb] >>> (bit & 31)) & 1) | (((bits.b[limb] >>> (bit & 31)) & 1) << 1)) as Level;
}

function numberOwnBits(nodes: NodeColumns): { readonly base: Int32Array; readonly count: number } {
  const base = new Int32Array(nodes.count).fill(-1);
  let count = constantBits;
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] === Op.constant || isWiring(nodes.op[node])) continue;
    base[node] = count;
    count += nodes.width[node];
  }
  return { base, count };
}

function ownersOf(nodes: NodeColumns, base: Int32Array, count: number) {
  const nodeOf = new Uint32Array(count);
  const bitOf = new Uint32Array(count);
  for (let node = 0; node < nodes.count; node++) {
    if (base[node] < 0) continue;
    nodeOf.fill(node, base[node], base[node] + nodes.width[node]);
    for (let bit = 0; bit < nodes.width[node]; bit++) bitOf[base[node] + bit] = bit;
  }
  return { nodeOf, bitOf };
}

interface Wiring {
  /** First entry of a wiring node's bits in `source`, else -1. */
  readonly first: Int32Array;
  /** Dense number of the driver. */
  readonly source: Int32Array;
}

type OwnBit = (node: number, bit: number) => number;

/** Bit by bit, since a vector whose bits feed other bits of itself is no ring; every bit is walked once. */
function resolveWiring(nodes: NodeColumns, ownBit: OwnBit): Wiring {
  const first = new Int32Array(nodes.count).fill(-1);
  let total = 0;
  for (let node = 0; node < nodes.count; node++) {
    if (!isWiring(nodes.op[node])) continue;
    first[node] = total;
    total += nodes.width[node];
  }
  const source = new Int32Array(total);
  const write = (entry: number, node: number, bit: number): void => {
    source[entry] = first[node] < 0 ? ownBit(node, bit) : stepTo(first[node] + bit);
  };
  for (let node = 0; node < nodes.count; node++) if (first[node] >= 0) stepBack(nodes, node, first[node], write);
  followSteps(source);
  return { first, source };
}

/** Until it is followed, an entry that repeats another wiring bit holds that one's index, told apart by its sign. */
const stepTo = (entry: number): number => -1 - entry;

/** Gives each bit of a wiring node, entries from `entry` on, the operand bit that it repeats. */
function stepBack(
  nodes: NodeColumns,
  node: number,
  entry: number,
  write: (entry: number, node: number, bit: number) => void,
): void {
  let next = entry;
  const end = entry + nodes.width[node];
  const first = nodes.first[node];
  const low = nodes.op[node] === Op.slice ? nodes.aux[node] : 0;
  // The parts of a concatenation stand most significant first.
  for (let index = nodes.arity[node] - 1; index >= 0; index--) {
    const operand = nodes.pool[first + index];
    for (let bit = low; bit < nodes.width[operand] && next < end; bit++) write(next++, operand, bit);
  }
  // What an extension adds is a copy of the sign, or the constant 0: the entries as they are.
  const operand = nodes.pool[first];
  if (nodes.op[node] !== Op.signExtend) return;
  while (next < end) write(next++, operand, nodes.width[operand] - 1);
}

/** Replaces every step by where it ends. Nets that only drive each other in a ring are driven by nothing: x. */
function followSteps(source: Int32Array): void {
  const ring = 3;
  const trail: number[] = [];
  for (let start = 0; start < source.length; start++) {
    let at = start;
    while (source[at] < 0) {
      trail.push(at);
      const next = -1 - source[at];
      source[at] = ring;
      at = next;
    }
    for (const entry of trail) source[entry] = source[at];
    trail.length = 0;
  }
}
