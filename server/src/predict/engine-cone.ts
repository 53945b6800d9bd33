// What a register's data and controls are computed from without delay, and that computation on a plane of levels with
// some of its leaves replaced. Used only where a sample is in question, so cones are found when first asked for.

import { evaluateCell } from './engine-evaluate';
import { listOf } from './engine-lists';
import type { Cone, EngineState } from './engine-state';

export function coneOf(state: EngineState, unit: number): Cone {
  const known = state.cones.get(unit);
  if (known !== undefined) return known;
  const cone = findCone(state, unit);
  state.cones.set(unit, cone);
  return cone;
}

/** The levels inside a cone with other leaves, written over a plane until `restore` is called. */
export interface Replaced {
  restore(): void;
}

export function replaceLeaves(
  state: EngineState,
  cone: Cone,
  plane: Uint8Array,
  leaves: readonly { readonly bit: number; readonly level: number }[],
): Replaced {
  const { cells } = state.plan;
  const bits: number[] = [];
  const old: number[] = [];
  const write = (bit: number, level: number): void => {
    if (plane[bit] === level) return;
    bits.push(bit);
    old.push(plane[bit]);
    plane[bit] = level;
  };
  for (const { bit, level } of leaves) write(bit, level);
  for (const cell of cone.cells) {
    evaluateCell(state.netlist, cells, cell, plane, state.scratch);
    for (let bit = 0; bit < cells.width[cell]; bit++) write(cells.out[cell] + bit, state.scratch[bit]);
  }
  return {
    restore() {
      for (let index = bits.length - 1; index >= 0; index--) plane[bits[index]] = old[index];
    },
  };
}

function findCone(state: EngineState, unit: number): Cone {
  const { cells, cellDelay, levels, units } = state.plan;
  const { data, controls } = units[unit];
  const leaves = new Set<number>();
  const found = new Set<number>();
  const pending = [...data, ...controls.flatMap(({ bit, value }) => [bit, ...value])];
  for (let bit = pending.pop(); bit !== undefined; bit = pending.pop()) {
    const driver = cells.driverOf[bit];
    if (driver < 0 || cellDelay[driver] !== 0) leaves.add(bit);
    else if (!found.has(driver)) {
      found.add(driver);
      for (const operand of listOf(cells, driver)) pending.push(operand);
    }
  }
  const inOrder = [...found].sort((left, right) => levels.of[left] - levels.of[right] || left - right);
  return { cells: inOrder, leaves };
}
