// Module paths by cell and dense bit, for one corner: the tables that a timed run asks at every change of an output.

import type { DelayTriple, Netlist, PathDelay } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Corner } from '../delays/triple';
import { type DenseBits, denseOf } from './engine-bits';
import type { Cells } from './engine-cells';

export interface EnginePath {
  readonly from: readonly number[];
  readonly edge: PathDelay['edge'];
  /** Dense bit, -1 for none. */
  readonly condition: number;
  readonly isFallback: boolean;
  /** ps, by old and new level (0, 1, z, x): 4 × old + new. */
  readonly ps: readonly number[];
  /** ps; null: the delay itself. */
  readonly pulse: { readonly reject: number; readonly error: number } | null;
  readonly isShownAtOnce: boolean;
}

/** By cell; empty where no module states paths. */
export type CellPaths = ReadonlyMap<number, readonly EnginePath[]>;

export function pathsOfCells(netlist: Netlist, bits: DenseBits, cells: Cells, corner: Corner): CellPaths {
  const found = new Map<number, readonly EnginePath[]>();
  const { explicitDelays, nodes } = netlist;
  if (!explicitDelays.some(({ paths }) => paths !== undefined)) return found;
  const known = new Map<PathDelay['from'], readonly number[]>();
  for (let cell = 0; cell < cells.count; cell++) {
    const node = cells.node[cell];
    const paths = nodes.op[node] === Op.delay ? explicitDelays[nodes.aux[node]].paths : undefined;
    if (paths === undefined) continue;
    const bit = cells.out[cell] - bits.base[node];
    found.set(
      cell,
      paths[bit].map((path) => ({ ...enginePath(bits, path, corner), from: sourcesOf(bits, path, known) })),
    );
  }
  return found;
}

/** Bits that share a list of inputs share the dense one. */
function sourcesOf(
  bits: DenseBits,
  { from }: PathDelay,
  known: Map<PathDelay['from'], readonly number[]>,
): readonly number[] {
  const dense = known.get(from) ?? [...new Set(from.map((bit) => denseOf(bits, bit)))];
  known.set(from, dense);
  return dense;
}

function enginePath(bits: DenseBits, path: PathDelay, corner: Corner): Omit<EnginePath, 'from'> {
  const { condition, delays, edge, isFallback, pulse, pulseStyle } = path;
  return {
    edge,
    condition: condition === null ? -1 : denseOf(bits, condition),
    isFallback,
    ps: byLevels(delays, corner),
    pulse: pulse && { reject: pulse.reject[corner], error: pulse.error[corner] },
    isShownAtOnce: pulseStyle === 'ondetect',
  };
}

/** From the order of 14.3.1 (01, 10, 0z, z1, 1z, z0, 0x, x1, 1x, x0, xz, zx). */
function byLevels(delays: readonly DelayTriple[], corner: Corner): readonly number[] {
  const ps = new Array<number>(16).fill(0);
  order.forEach((at, index) => {
    ps[at] = delays[index][corner];
  });
  return ps;
}

const [zero, one, z, x] = [0, 1, 2, 3];
const order = [
  [zero, one],
  [one, zero],
  [zero, z],
  [z, one],
  [one, z],
  [z, zero],
  [zero, x],
  [x, one],
  [one, x],
  [x, zero],
  [x, z],
  [z, x],
].map(([old, reached]) => 4 * old + reached);
