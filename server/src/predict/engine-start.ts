// Levels at time 0 (definition 16): the drive's first levels, the start values of what is stored, and all logic settled
// from them, as if they had held for ever. An active asynchronous control loads before any edge (13, 17).

import type { Netlist } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Drive } from './drive';
import { createClockEdges } from './drive-edges';
import { type DenseBits, denseOf, levelAtBit } from './engine-bits';
import { widestCell } from './engine-cells';
import { evaluateCell, mergeLevels } from './engine-evaluate';
import { levelCells } from './engine-levels';
import { packLists } from './engine-lists';
import type { Plan } from './engine-plan';
import type { StorageUnit } from './engine-storage-plan';
import { underControls } from './engine-storage-level';
import { type StartSetting, startBitsOf } from './start-level';

export interface StartInput {
  readonly netlist: Netlist;
  readonly drive: Drive;
  /** For stored bits whose start the text does not give. */
  readonly start: StartSetting;
}

/** Yields between the rounds that it takes for everything to hold. */
export function* computeStart(input: StartInput, plan: Plan): Generator<void, Uint8Array> {
  const levels = new Uint8Array(plan.bits.count).fill(3);
  levels.set([0, 1, 2, 3]);
  setSources(input, plan.bits, levels);
  setStored(input, plan, levels);
  for (let bit = 0; bit < levels.length; bit++) levels[bit] = pulled(plan, bit, levels[bit]);
  yield* settleFromStart(input.netlist, plan, levels);
  return levels;
}

/** A released bit with a pull-up reads 1. */
export function pulled(plan: Plan, bit: number, level: number): number {
  return level === 2 && plan.pulledUp[bit] === 1 ? 1 : level;
}

function setSources({ netlist, drive }: StartInput, bits: DenseBits, levels: Uint8Array): void {
  const { nodes, signals } = netlist;
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.undriven || signals[nodes.aux[node]]?.kind !== 'net') continue;
    levels.fill(2, bits.base[node], bits.base[node] + nodes.width[node]);
  }
  const values = new Map(drive.inputs.map(({ signal, value }) => [signal as number, value]));
  for (let node = 0; node < nodes.count; node++) {
    const value = nodes.op[node] === Op.input ? values.get(nodes.aux[node]) : undefined;
    if (value === undefined) continue;
    for (let bit = 0; bit < nodes.width[node]; bit++) levels[bits.base[node] + bit] = levelAtBit(value, bit);
  }
  for (const clock of drive.clocks) levels[denseOf(bits, clock.bit)] = createClockEdges(clock).startLevel;
  for (const reset of drive.resets)
    levels[denseOf(bits, reset.bit)] = (reset.active === 'high') === reset.release > 0 ? 1 : 0;
}

function setStored({ netlist, start }: StartInput, plan: Plan, levels: Uint8Array): void {
  [...netlist.registers, ...netlist.latches].forEach((stored, index) => {
    const unit = plan.units[index];
    const bits = startBitsOf(netlist, stored, start);
    for (let bit = 0; bit < unit.width; bit++) levels[unit.base + bit] = levelAtBit(bits, bit);
  });
}

/** How often stored values may change each other's start before what still changes is unknown. */
const settlingRounds = 32;

/**
 * Every round computes afresh from the start values what controls load and open latches pass, so that nothing is left
 * of a level that was not yet known in the round before.
 */
function* settleFromStart(netlist: Netlist, plan: Plan, levels: Uint8Array): Generator<void, void> {
  const order = orderForStart(plan);
  const scratch = new Uint8Array(widestCell(plan.cells));
  const initial = levels.slice();
  for (let round = 0; ; round++) {
    yield;
    settleLogic(netlist, plan, order, levels, scratch);
    if (!settleStored(plan, levels, initial, round >= settlingRounds)) return;
    forgetLogic(plan, levels);
  }
}

/** Loops begin unknown in every round. */
function forgetLogic({ cells }: Plan, levels: Uint8Array): void {
  for (let cell = 0; cell < cells.count; cell++) levels.fill(3, cells.out[cell], cells.out[cell] + cells.width[cell]);
}

/** Cells by depth, delays or not: at time 0 everything has had its time. */
function orderForStart({ cells, readers }: Plan): Uint32Array {
  const { of: level, top } = levelCells(cells, readers, new Uint8Array(cells.count));
  return packLists(top + 1, (add) => {
    for (let cell = 0; cell < cells.count; cell++) add(level[cell], cell);
  }).items;
}

/** How many passes a combinational loop may take before a bit that still changes is unknown. */
const settlingPasses = 64;

/** One pass settles what has no loop; loops start unknown, settle as far as they do, and stay unknown beyond. */
function settleLogic(netlist: Netlist, plan: Plan, order: Uint32Array, levels: Uint8Array, scratch: Uint8Array): void {
  const { cells } = plan;
  const givenUp = new Uint8Array(levels.length);
  let changed = true;
  for (let pass = 0; changed; pass++) {
    changed = false;
    for (const cell of order) {
      evaluateCell(netlist, cells, cell, levels, scratch);
      const out = cells.out[cell];
      for (let bit = 0; bit < cells.width[cell]; bit++) {
        const at = out + bit;
        const level = pulled(plan, at, scratch[bit]);
        if (levels[at] === level || givenUp[at] === 1) continue;
        if (pass > settlingPasses && levels[at] !== 3) givenUp[at] = 1;
        levels[at] = givenUp[at] === 1 ? 3 : level;
        changed = true;
      }
    }
  }
}

/** Active controls and open latches; true where something changed. `merging`: what still changes becomes unknown. */
function settleStored({ units }: Plan, levels: Uint8Array, initial: Uint8Array, merging: boolean): boolean {
  let changed = false;
  for (const unit of units) {
    for (let bit = 0; bit < unit.width; bit++) {
      const at = unit.base + bit;
      const level = underControls(unit, bit, levels, passedAtStart(unit, bit, levels, initial));
      if (level === levels[at] || (merging && levels[at] === 3)) continue;
      levels[at] = merging ? 3 : level;
      changed = true;
    }
  }
  return changed;
}

/** What an open latch passes; the start value of what is closed, or has no gate. */
function passedAtStart(unit: StorageUnit, bit: number, levels: Uint8Array, initial: Uint8Array): number {
  const start = initial[unit.base + bit];
  const pin = levels[unit.pin];
  if (!unit.isLatch || pin === unit.captureLevel) return start;
  const data = levels[unit.data[bit]];
  return pin < 2 ? data : mergeLevels(start, data);
}
