// A process on levels becomes logic, and latches where some path leaves a target alone (definition 8, IEEE 1364.1):
// per slice, never more than what shares the condition under which it is assigned.

import type { NodeId } from '../netlist/netlist';
import { concatOf } from '../netlist/node-makers';
import { isCertain } from './conditions';
import type { BitRange } from './draft-nodes';
import type { Layer, Slice } from './environment';
import { assignedIn, finalStretches, signalsIn } from './final-slices';
import type { DriverDraft, LatchDraft } from './module-draft';
import { latchOf } from './latch-shape';
import { isAlwaysTrue } from './tautology';
import { firstAssignment, type Walk } from './walk';

export interface LevelResult {
  readonly drivers: readonly DriverDraft[];
  readonly latches: readonly LatchDraft[];
}

export function levelResult(walk: Walk, layer: Layer): LevelResult {
  const drivers: DriverDraft[] = [];
  const open: (Slice & { readonly signal: number })[] = [];
  for (const signal of signalsIn([layer])) {
    for (const range of assignedIn(layer, signal)) sortStretches(walk, layer, signal, range, drivers, open);
  }
  const latches = grouped(open).map((slices) => latchOf(walk, slices, drivers.length > 0));
  return { drivers: joinDrivers(walk, drivers), latches };
}

function sortStretches(
  walk: Walk,
  layer: Layer,
  signal: number,
  range: BitRange,
  drivers: DriverDraft[],
  open: (Slice & { readonly signal: number })[],
): void {
  const { draft } = walk;
  for (const { slice } of finalStretches(draft, layer, signal, range)) {
    if (slice === null) continue;
    if (!isCertain(draft.nodes, slice.assigned, 1) && !isAlwaysTrue(draft.nodes, slice.assigned)) {
      open.push({ ...slice, signal });
      continue;
    }
    drivers.push(driverOf(walk, signal, slice));
  }
}

function driverOf(walk: Walk, signal: number, { low, width, value }: Slice): DriverDraft {
  const { process } = walk;
  return {
    signal,
    low,
    width,
    value: { kind: 'node', node: value },
    process: process.index,
    at: firstAssignment(walk, signal, { low, width }),
    canRelease: false,
    isContinuous: false,
  };
}

/** Neighboring stretches of one signal are one driver: the process. */
function joinDrivers(walk: Walk, drivers: readonly DriverDraft[]): DriverDraft[] {
  const { nodes, source } = walk.draft;
  const groups: DriverDraft[][] = [];
  for (const driver of drivers) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && last.signal === driver.signal && last.low + last.width === driver.low)
      groups.at(-1)?.push(driver);
    else groups.push([driver]);
  }
  return groups.map((group) => {
    const [first] = group;
    if (group.length === 1) return first;
    const values = group.map(({ value }) => (value.kind === 'node' ? value.node : (0 as NodeId)));
    const node = concatOf(nodes, values.reverse(), source.place(first.at));
    const width = group.reduce((sum, driver) => sum + driver.width, 0);
    return { ...first, width, value: { kind: 'node', node } };
  });
}

/** Neighbors that are assigned under the same condition. */
function grouped(open: readonly (Slice & { readonly signal: number })[]) {
  const groups: (Slice & { readonly signal: number })[][] = [];
  for (const slice of open) {
    const last = groups.at(-1)?.at(-1);
    const follows = last !== undefined && last.signal === slice.signal && last.low + last.width === slice.low;
    if (follows && last.assigned === slice.assigned) groups.at(-1)?.push(slice);
    else groups.push([slice]);
  }
  return groups;
}
