// Module paths in a timed run (IEEE 1364-2005 14.3, 14.4, 14.6): the delay of an output's change is that of the path whose
// input changed last, the least where several did; it counts from that input, so a longer delay inside the module holds.
// A pulse narrower than its limits is taken away or becomes x.

import type { PathDelay } from '../netlist/netlist';
import type { EnginePath } from './engine-paths';
import { addImmediate, dropLastSlot, dropSlotsFrom, pushSlot } from './engine-pending';
import type { EngineState } from './engine-state';

const unknown = 3;

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
  slots.level[leading] = unknown;
  if (!isShownAtOnce) return;
  const [cause, kind] = [slots.cause[leading], slots.kind[leading]];
  dropLastSlot(state, bit);
  pushSlot(state, { bit, level: unknown, cause, kind, time: state.now });
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
