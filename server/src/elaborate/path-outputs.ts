// The outputs that module paths lead to, bit by bit, and the delay that stands before one which follows its paths.

import type {
  Bit,
  DelayTriple,
  ExplicitDelay,
  NetPiece,
  Netlist,
  NodeId,
  PathDelay,
  SignalId,
} from '../netlist/netlist';
import type { LinkedPath } from './link-specified';
import { beyond, spanOf } from './triples';

/** A stretch of an output that one driver holds, with the paths to each of its bits. */
export interface PathOutput {
  readonly piece: NetPiece;
  /** What drives it. */
  readonly driver: NodeId;
  readonly paths: readonly (readonly PathDelay[])[];
  readonly instance: LinkedPath['instance'];
}

export function outputsOf({ nodes, pieces, signals }: Netlist, paths: readonly LinkedPath[]): readonly PathOutput[] {
  const bySignal = new Map<SignalId, LinkedPath[]>();
  for (const path of paths) {
    const known = bySignal.get(path.to.signal);
    if (known === undefined) bySignal.set(path.to.signal, [path]);
    else known.push(path);
  }
  // One list for all bits that a full connection leads to: there may be many of both.
  const sources = new Map(paths.map((path) => [path, bitsOf(path.from, nodes.width[path.from])] as const));
  return [...bySignal].flatMap(([signal, own]) =>
    signals[signal].pieces.map((id): PathOutput => {
      const piece = pieces[id];
      const byBit = Array.from({ length: piece.width }, (_, bit) =>
        own.flatMap((path) => pathTo(path, sources.get(path) ?? [], piece.low + bit)),
      );
      const driver = nodes.pool[nodes.first[piece.node]] as NodeId;
      return { piece, driver, paths: byBit, instance: own[0].instance };
    }),
  );
}

function bitsOf(node: NodeId, width: number): readonly Bit[] {
  return Array.from({ length: width }, (_, bit) => ({ node, bit }));
}

/** The path as it ends in one bit of its output. */
function pathTo(path: LinkedPath, sources: readonly Bit[], bit: number): PathDelay[] {
  const { condition, delays, edge, full, isFallback, place, pulse, pulseStyle, to } = path;
  const own = bit - to.low;
  if (own < 0 || own >= to.width) return [];
  return [
    {
      from: full ? sources : [sources[own]],
      edge,
      condition,
      isFallback,
      delays,
      pulse,
      pulseStyle,
      place,
    },
  ];
}

/** A delay that follows paths; the three values span what all of them have beyond the delays inside the module. */
export function delayOfPaths(paths: readonly (readonly PathDelay[])[], distributed: DelayTriple): ExplicitDelay | null {
  const all = paths.flat();
  if (all.length === 0) return null;
  const towards = (transitions: readonly number[]) =>
    beyond(spanOf(all.flatMap(({ delays }) => transitions.map((transition) => delays[transition]))), distributed);
  const [{ place }] = all;
  return { rise: towards([0]), fall: towards([1]), toZ: towards([2, 4]), place, paths };
}
