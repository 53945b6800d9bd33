// Sets of root edges, and how a path turns them. A clock bit has two: the root edges it rises on and those it falls on.

import type { EdgeKind } from '../netlist/netlist';
import type { RootEdge } from './network';

/** Bits: 1 = rising, 2 = falling. */
export type EdgeSet = number;

export const noEdge: EdgeSet = 0;
export const bothEdges: EdgeSet = 3;

export function edgeSet(edge: EdgeKind): EdgeSet {
  return edge === 'rising' ? 1 : 2;
}

/** Null for the empty set: not known. */
export function rootEdgeOf(set: EdgeSet): RootEdge | null {
  if (set === noEdge) return null;
  return set === bothEdges ? 'either' : set === 1 ? 'rising' : 'falling';
}

export function turned(edge: EdgeKind): EdgeKind {
  return edge === 'rising' ? 'falling' : 'rising';
}
