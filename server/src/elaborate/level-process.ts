// A process on levels becomes logic, and latches where some path leaves a target alone (definition 8, IEEE 1364.1):
// per slice, never more than what shares the condition under which it is assigned.

import { concatOf } from '../netlist/node-makers';
import { isCertain } from './conditions';
import type { Layer, Slice } from './environment';
import { assignedIn, finalStretches, signalsIn } from './final-slices';
import type { DriverDraft, LatchDraft } from './module-draft';
import { latchOf } from './latch-shape';
import { canRelease } from './release';
import { isAlwaysTrue } from './tautology';
import { firstAssignment, type Walk } from './walk';

export interface LevelResult {
  readonly drivers: readonly DriverDraft[];
  readonly latches: readonly LatchDraft[];
}

export function levelResult(walk: Walk, layer: Layer): LevelResult {
  const closed: TargetSlice[] = [];
  const open: TargetSlice[] = [];
  for (const signal of signalsIn([layer])) {
    for (const range of assignedIn(layer, signal)) {
      for (const { slice } of finalStretches(walk.draft, layer, signal, range)) {
        if (slice !== null) (isAssignedAlways(walk, slice) ? closed : open).push({ ...slice, signal });
      }
    }
  }
  return {
    drivers: neighbors(closed, () => true).map((slices) => driverOf(walk, slices)),
    latches: neighbors(open, (left, right) => left.assigned === right.assigned).map((slices) =>
      latchOf(walk, slices, closed.length > 0),
    ),
  };
}

export interface TargetSlice extends Slice {
  readonly signal: number;
}

function isAssignedAlways({ draft: { nodes } }: Walk, { assigned }: Slice): boolean {
  return isCertain(nodes, assigned, 1) || isAlwaysTrue(nodes, assigned);
}

/** Runs of slices that follow each other in one signal and belong together, lowest first. */
function neighbors(
  slices: readonly TargetSlice[],
  belong: (left: TargetSlice, right: TargetSlice) => boolean,
): TargetSlice[][] {
  const groups: TargetSlice[][] = [];
  for (const slice of slices) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    const follows = last !== undefined && last.signal === slice.signal && last.low + last.width === slice.low;
    if (group !== undefined && last !== undefined && follows && belong(last, slice)) group.push(slice);
    else groups.push([slice]);
  }
  return groups;
}

/** Neighboring slices have one driver: the process. */
function driverOf(walk: Walk, slices: readonly TargetSlice[]): DriverDraft {
  const { draft, process } = walk;
  const [{ signal, low }] = slices;
  const width = slices.reduce((sum, slice) => sum + slice.width, 0);
  const at = firstAssignment(walk, signal, { low, width });
  const parts = slices.map(({ value }) => value).reverse();
  const node = concatOf(draft.nodes, parts, draft.source.place(at));
  return {
    signal,
    low,
    width,
    value: { kind: 'node', node },
    process: process.index,
    at,
    canRelease: canRelease(draft.nodes, node),
    isContinuous: false,
  };
}
