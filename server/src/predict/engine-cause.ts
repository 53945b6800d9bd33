// Which change made a cell's output what it is: the latest among the operands that decide it. For a gate held by its
// ruling level these are the operands at that level; for a choice, the select and the arm taken.

import { CellKind } from './engine-cells';
import { findArm } from './engine-evaluate';
import type { EngineState } from './engine-state';

/** Index of the change, -1 where no operand has ever changed. `bit`: which of the cell's output bits. */
export function findCause(state: EngineState, cell: number, bit: number): number {
  const { cells } = state.plan;
  const first = cells.first[cell];
  const end = first + cells.arity[cell];
  switch (cells.kind[cell]) {
    case CellKind.and:
    case CellKind.nand:
      return latestAt(state, first, end, 0);
    case CellKind.or:
    case CellKind.nor:
      return latestAt(state, first, end, 1);
    case CellKind.mux:
      return latestOfChoice(state, first);
    case CellKind.select:
      return latestOfCase(state, cell, bit);
    default:
      return latestIn(state, first, end);
  }
}

function latestIn(state: EngineState, first: number, end: number): number {
  const { pool } = state.plan.cells;
  let latest = -1;
  for (let entry = first; entry < end; entry++) latest = Math.max(latest, state.latest[pool[entry]]);
  return latest;
}

/** Among the operands at the ruling level, or among all where none is. */
function latestAt(state: EngineState, first: number, end: number, ruling: number): number {
  const { pool } = state.plan.cells;
  let latest = -1;
  for (let entry = first; entry < end; entry++) {
    if (state.level[pool[entry]] === ruling) latest = Math.max(latest, state.latest[pool[entry]]);
  }
  return latest >= 0 ? latest : latestIn(state, first, end);
}

function latestOfChoice(state: EngineState, first: number): number {
  const { pool } = state.plan.cells;
  const select = state.level[pool[first]];
  if (select >= 2) return latestIn(state, first, first + 3);
  return Math.max(state.latest[pool[first]], state.latest[pool[first + (select === 1 ? 1 : 2)]]);
}

function latestOfCase(state: EngineState, cell: number, bit: number): number {
  const { cells } = state.plan;
  const { nodes } = state.netlist;
  const first = cells.first[cell];
  const arm = findArm(state.netlist, cells, cell, state.level);
  if (arm < 0) return latestIn(state, first, first + cells.arity[cell]);
  const selectorWidth = nodes.width[nodes.pool[nodes.first[cells.node[cell]]]];
  return Math.max(latestIn(state, first, first + selectorWidth), state.latest[cells.pool[arm + bit]]);
}
