// Module paths in a timed run (IEEE 1364-2005 14.3, 14.4, 14.6): the delay of an output's change is that of the path whose
// input changed last, the least where several did; it counts from that input, so a longer delay inside the module holds.
// A pulse narrower than its limits is taken away or becomes x.

import type { DelayTriple, Netlist, PathDelay } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Corner } from '../delays/triple';
import { type DenseBits, denseOf } from './engine-bits';
import type { Cells } from './engine-cells';
import { addImmediate, dropLastSlot, dropSlotsFrom, pushSlot } from './engine-pending';
import type { EngineState } from './engine-state';

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
  for (let cell = 0; cell < cells.count; cell++) {
    const node = cells.node[cell];
    const paths = nodes.op[node] === Op.delay ? explicitDelays[nodes.aux[node]].paths : undefined;
    if (paths === undefined) continue;
    const bit = cells.out[cell] - bits.base[node];
    found.set(
      cell,
      paths[bit].map((path) => enginePath(bits, path, corner)),
    );
  }
  return found;
}

function enginePath(bits: DenseBits, path: PathDelay, corner: Corner): EnginePath {
  const { condition, delays, edge, from, isFallback, pulse, pulseStyle } = path;
  return {
    from: [...new Set(from.map((bit) => denseOf(bits, bit)))],
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

/** Plans that `bit`, which the paths lead to, becomes `level`. */
export function schedulePath(
  state: EngineState,
  paths: readonly EnginePath[],
  change: { readonly bit: number; readonly level: number; readonly cause: number; readonly kind: number },
): void {
  const { bit, level, cause, kind } = change;
  if (level === plannedLevel(state, bit)) return;
  const { delay, path, start } = choosePath(state, paths, 4 * plannedLevel(state, bit) + level);
  const time = Math.max(state.now, start + delay);
  dropSlotsFrom(state, bit, time);
  const leading = state.lastSlot[bit];
  if (leading >= 0) {
    const width = time - state.queue.timeOf(leading);
    const { reject, error } = path?.pulse ?? { reject: delay, error: delay };
    if (width < reject) dropLastSlot(state, bit);
    else if (width < error && path !== null) blur(state, path, bit, leading);
  }
  if (level === plannedLevel(state, bit)) return;
  if (time === state.now) addImmediate(state, bit, level, cause, kind);
  else pushSlot(state, { bit, level, cause, kind, time });
}

/** What the bit will be once everything planned has come. */
function plannedLevel({ lastSlot, level, slots }: EngineState, bit: number): number {
  return lastSlot[bit] >= 0 ? slots.level[lastSlot[bit]] : level[bit];
}

/** The pulse that begins with a planned change becomes x: there, or from now on. */
function blur(state: EngineState, { isShownAtOnce }: EnginePath, bit: number, leading: number): void {
  const { slots } = state;
  slots.level[leading] = x;
  if (!isShownAtOnce) return;
  const [cause, kind] = [slots.cause[leading], slots.kind[leading]];
  dropLastSlot(state, bit);
  pushSlot(state, { bit, level: x, cause, kind, time: state.now });
}

interface Chosen {
  readonly path: EnginePath | null;
  readonly delay: number;
  /** ps: when its input changed. */
  readonly start: number;
}

function choosePath(state: EngineState, paths: readonly EnginePath[], transition: number): Chosen {
  let chosen: Chosen = { path: null, delay: 0, start: state.now };
  let latest = -1;
  for (const path of paths) {
    if (!isEnabled(state, paths, path)) continue;
    const start = startOf(state, path);
    const delay = path.ps[transition];
    if (start < 0 || start < latest || (start === latest && delay >= chosen.delay)) continue;
    latest = start;
    chosen = { path, delay, start };
  }
  return chosen;
}

/** An unknown condition counts as met (14.2.4.1). */
function isEnabled(state: EngineState, paths: readonly EnginePath[], path: EnginePath): boolean {
  if (!path.isFallback) return isMet(state, path);
  return !paths.some(
    (other) => other.condition >= 0 && other.from.some((bit) => path.from.includes(bit)) && isMet(state, other),
  );
}

function isMet({ level }: EngineState, { condition }: EnginePath): boolean {
  return condition < 0 || level[condition] !== 0;
}

/** ps of the latest change of the path's inputs, -1 where there was none, or none with its edge. */
function startOf(state: EngineState, { edge, from }: EnginePath): number {
  let start = -1;
  for (const bit of from) {
    const change = state.latest[bit];
    if (change < 0 || !isEdge(edge, state.before[bit], state.level[bit])) continue;
    start = Math.max(start, state.log.time[change]);
  }
  return start;
}

function isEdge(edge: PathDelay['edge'], before: number, after: number): boolean {
  if (edge === null) return true;
  const [open, closed] = edge === 'posedge' ? [0, 1] : [1, 0];
  return before === open ? after !== open : before >= 2 && after === closed;
}
