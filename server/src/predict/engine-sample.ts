// What a register or latch captures at its edge: the levels from before the instant (definition 34), unknown where they
// hang on a change that has no fixed order with the edge (28), or that fell inside the stated setup or recovery time (30).
// The reading is the safe one: x wherever some order of the changes could give something else.

import { coneOf, replaceLeaves } from './engine-cone';
import { mergeLevels } from './engine-evaluate';
import { unorderedLeaves } from './engine-race';
import type { EngineState } from './engine-state';
import { underControls } from './engine-storage-level';
import type { StorageUnit } from './engine-storage-plan';

export type SampleVerdict = 'clean' | 'race' | 'setup-hold';

/** Writes the captured levels into `out`, least significant first. `pinChange`: the edge, a change of this instant. */
export function captureLevels(
  state: EngineState,
  unitIndex: number,
  pinChange: number,
  out: Uint8Array,
): SampleVerdict {
  const unit = state.plan.units[unitIndex];
  const ownBits = feedbackBits(state, unitIndex);
  const moving = movingLeaves(state, unitIndex, pinChange, ownBits);
  if (ownBits.length === 0) readData(state, unit, out);
  else readReplaced(state, unitIndex, ownBits, [], out);
  let verdict: SampleVerdict = 'clean';
  if (moving.length > 0) {
    const settled = out.slice(0, unit.width);
    readReplaced(state, unitIndex, ownBits, moving, out);
    for (let bit = 0; bit < unit.width; bit++) if (out[bit] !== settled[bit]) verdict = 'race';
  }
  return spoilLate(state, unit, out) && verdict === 'clean' ? 'setup-hold' : verdict;
}

/** Leaves of the unit's cone that moved in no fixed order with its edge. */
function movingLeaves(state: EngineState, unitIndex: number, pinChange: number, ownBits: readonly number[]): number[] {
  const leaves = unorderedLeaves(state, pinChange);
  if (leaves.length === 0) return [];
  const cone = coneOf(state, unitIndex);
  return leaves.filter((leaf) => cone.leaves.has(leaf) && !ownBits.includes(leaf));
}

/**
 * The unit's own output bits where its feedback must be read from inside: in a part whose least clock period is
 * published, feedback to itself is ready after that period, however long its output takes.
 */
function feedbackBits(state: EngineState, unitIndex: number): readonly number[] {
  const { partPeriod, lastEdge, plan } = state;
  if (partPeriod === null || lastEdge[unitIndex] < 0 || state.now - lastEdge[unitIndex] < partPeriod) return [];
  const { base, width } = plan.units[unitIndex];
  const bits: number[] = [];
  for (let bit = base; bit < base + width; bit++) {
    const isLate = state.stored[bit] !== state.prior[bit] || state.latest[bit] >= state.instantStart;
    if (isLate && coneOf(state, unitIndex).leaves.has(bit)) bits.push(bit);
  }
  return bits;
}

function readData(state: EngineState, unit: StorageUnit, out: Uint8Array): void {
  const { prior } = state;
  for (let bit = 0; bit < unit.width; bit++) out[bit] = underControls(unit, bit, prior, prior[unit.data[bit]]);
}

/** With `ownBits` as stored inside and `moving` unknown. */
function readReplaced(
  state: EngineState,
  unitIndex: number,
  ownBits: readonly number[],
  moving: readonly number[],
  out: Uint8Array,
): void {
  const levels = [...ownBits.map((bit) => state.stored[bit]), ...moving.map(() => 3)];
  const replaced = replaceLeaves(state, coneOf(state, unitIndex), state.prior, [...ownBits, ...moving], levels);
  readData(state, state.plan.units[unitIndex], out);
  replaced.restore();
}

/** Data that moved less than the setup time before the edge, controls released less than the recovery time before it. */
function spoilLate(state: EngineState, unit: StorageUnit, out: Uint8Array): boolean {
  const { setup, recovery } = state.windows;
  if (setup === 0 && recovery === 0) return false;
  let spoiled = false;
  for (let bit = 0; bit < unit.width; bit++) {
    const data = unit.data[bit];
    let level = out[bit];
    if (movedWithin(state, data, setup))
      level = mergeLevels(level, underControls(unit, bit, state.level, state.before[data]));
    for (const { bit: control, activeLevel, value } of unit.controls) {
      const isReleased = state.level[control] === 1 - activeLevel && movedWithin(state, control, recovery);
      if (isReleased) level = mergeLevels(level, state.level[value[bit]]);
    }
    if (level !== out[bit]) spoiled = true;
    out[bit] = level;
  }
  return spoiled;
}

/** Strictly inside (now − window, now): both ends are no violation (IEEE 1364-2005 15.2.1). */
function movedWithin(state: EngineState, bit: number, window: number): boolean {
  const change = state.latest[bit];
  if (window === 0 || change < 0 || change >= state.instantStart) return false;
  return state.log.time[change] > state.now - window;
}
