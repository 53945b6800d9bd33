// One step inside an instant: changes of bits, and the logic without delay that settles from them in order of depth.
// Cells with delay are evaluated last and only plan their changes. What registers and latches hear is marked for later.

import { findCause } from './engine-cause';
import { evaluateCell } from './engine-evaluate';
import { schedulePath } from './engine-path-changes';
import { scheduleInertial } from './engine-pending';
import { SinkRole } from './engine-plan';
import type { EngineState } from './engine-state';
import { ChangeKind } from './waves';

/** Makes the change, if it is one: records it and marks everything that reads the bit. */
export function applyChange(state: EngineState, bit: number, wanted: number, cause: number, kind: number): void {
  const { plan, level, log } = state;
  const reached = wanted === 2 && plan.pulledUp[bit] === 1 ? 1 : wanted;
  const old = level[bit];
  if (old === reached) return;
  state.before[bit] = old;
  level[bit] = reached;
  state.latest[bit] = log.push(state.now, bit, reached, cause, kind);
  const { readers, sinks } = plan;
  for (let entry = readers.first[bit]; entry < readers.first[bit + 1]; entry++) queueCell(state, readers.items[entry]);
  for (let entry = sinks.first[bit]; entry < sinks.first[bit + 1]; entry++) markUnit(state, sinks.items[entry], old);
}

/** Evaluates queued cells until none is left, or until `passes` passes are used up; returns how many it took. */
export function settle(state: EngineState, passes: number): number {
  const { cellQueue, plan } = state;
  const { top } = plan.levels;
  let used = 0;
  while (cellQueue.size > 0 && used < passes) {
    used++;
    const from = cellQueue.lowest;
    cellQueue.lowest = top + 1;
    for (let level = from; level <= top && cellQueue.size > 0; level++) evaluateLevel(state, level);
  }
  return used;
}

function queueCell(state: EngineState, cell: number): void {
  const { cellQueue, plan } = state;
  if (cellQueue.queued[cell] === 1) return;
  const level = plan.levels.of[cell];
  cellQueue.queued[cell] = 1;
  cellQueue.next[cell] = cellQueue.head[level];
  cellQueue.head[level] = cell;
  cellQueue.size++;
  if (level < cellQueue.lowest) cellQueue.lowest = level;
}

/** `old`: the level of the bit before the change. A clock that goes to a level that captures nothing need not be asked. */
function markUnit(state: EngineState, sink: number, old: number): void {
  const { marked, plan } = state;
  const index = sink >>> 2;
  if ((sink & 3) === SinkRole.pin) {
    if (marked.pinStep[index] !== state.step) {
      marked.pinStep[index] = state.step;
      marked.pinBefore[index] = old;
    }
    const { isLatch, pin, captureLevel } = plan.units[index];
    if (!isLatch && state.level[pin] === 1 - captureLevel) return;
  }
  if (marked.isMarked[index] === 1) return;
  marked.isMarked[index] = 1;
  marked.list.push(index);
}

function evaluateLevel(state: EngineState, level: number): void {
  const { cellQueue } = state;
  let cell = cellQueue.head[level];
  cellQueue.head[level] = -1;
  while (cell >= 0) {
    const next = cellQueue.next[cell];
    cellQueue.queued[cell] = 0;
    cellQueue.size--;
    updateCell(state, cell);
    cell = next;
  }
}

function updateCell(state: EngineState, cell: number): void {
  const { plan, scratch, level, queue } = state;
  const { cells } = plan;
  evaluateCell(state.netlist, cells, cell, level, scratch);
  const out = cells.out[cell];
  const width = cells.width[cell];
  const delayClass = plan.cellDelay[cell];
  const paths = delayClass === 0 ? undefined : plan.paths.get(cell);
  if (paths !== undefined) {
    const cause = findCause(state, cell, 0);
    schedulePath(state, paths, { bit: out, level: scratch[0], cause, kind: ChangeKind.logic });
    return;
  }
  for (let index = 0; index < width; index++) {
    const bit = out + index;
    const reached = scratch[index] === 2 && plan.pulledUp[bit] === 1 ? 1 : scratch[index];
    if (reached === level[bit] && (delayClass === 0 || queue.timeOf(bit) < 0)) continue;
    const cause = findCause(state, cell, index);
    if (delayClass === 0) applyChange(state, bit, reached, cause, ChangeKind.logic);
    else scheduleInertial(state, bit, reached, plan.delayPs[4 * delayClass + reached], cause, ChangeKind.logic);
  }
}
