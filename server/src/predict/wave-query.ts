// Questions to finished waves: a level or a value at an instant, the edges of a bit, and the chain of causes behind a
// change. `before` and `after` say which side of the changes that stand exactly at the instant is meant.

import { type Bits, fromLimbs, limbCount } from '../netlist/four-state';
import type { Bit, EdgeKind, Netlist, NodeId, Signal } from '../netlist/netlist';
import type { Level, Waves } from './waves';

export type Side = 'before' | 'after';

/** `time` in ps, from 0 on. At 0 nothing has changed yet, on either side. */
export function levelAt(waves: Waves, bit: Bit, time: number, side: Side): Level {
  const indices = waves.changesOf(bit);
  const count = countUntil(waves, indices, time, side);
  return count === 0 ? waves.startOf(bit) : (waves.changes.value[indices[count - 1]] as Level);
}

/** The value of a whole node, of the node's width. */
export function valueAt(netlist: Netlist, waves: Waves, node: NodeId, time: number, side: Side): Bits {
  const width = netlist.nodes.width[node];
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  for (let bit = 0; bit < width; bit++) {
    const level = levelAt(waves, { node, bit }, time, side);
    a[bit >>> 5] |= (level & 1) << (bit & 31);
    b[bit >>> 5] |= (level >>> 1) << (bit & 31);
  }
  return fromLimbs(width, a, b);
}

export function signalAt(netlist: Netlist, waves: Waves, signal: Signal, time: number, side: Side): Bits {
  return valueAt(netlist, waves, signal.node, time, side);
}

/** Indices of the changes of a bit that are certain edges of this kind: 0 to 1, or 1 to 0. */
export function edgesOf(waves: Waves, bit: Bit, edge: EdgeKind): number[] {
  const reached = edge === 'rising' ? 1 : 0;
  const indices = waves.changesOf(bit);
  const edges: number[] = [];
  let before = waves.startOf(bit);
  for (let index = 0; index < indices.length; index++) {
    const after = waves.changes.value[indices[index]] as Level;
    if (after === reached && before === 1 - reached) edges.push(indices[index]);
    before = after;
  }
  return edges;
}

/** The change, what caused it, and so on back to the drive, which comes last. */
export function causeChain(waves: Waves, change: number): number[] {
  const chain: number[] = [];
  for (let at = change; at >= 0; at = waves.changes.cause[at]) chain.push(at);
  return chain;
}

/** For every change, the change of the drive that it goes back to. */
export function originsOf({ changes: { cause, count } }: Pick<Waves, 'changes'>): Int32Array {
  const origin = new Int32Array(count);
  for (let change = 0; change < count; change += 1) origin[change] = cause[change] < 0 ? change : origin[cause[change]];
  return origin;
}

/** How many of a bit's changes stand before the instant, or up to and at it. */
function countUntil(waves: Waves, indices: ArrayLike<number>, time: number, side: Side): number {
  const { time: times } = waves.changes;
  let low = 0;
  let high = indices.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const at = times[indices[middle]];
    if (at < time || (at === time && side === 'after')) low = middle + 1;
    else high = middle;
  }
  return low;
}
