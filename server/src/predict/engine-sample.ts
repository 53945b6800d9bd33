// What a register or latch captures at its edge: the levels from before the instant (definition 34), unknown where they
// hang on a change that has no fixed order with the edge (28), or that fell inside the stated setup or recovery time (30).
// The reading is the safe one: x wherever some order of the changes could give something else.

import type { Doubt } from './waves';
import { coneOf, replaceLeaves } from './engine-cone';
import { mergeLevels } from './engine-evaluate';
import { mergeUnit } from './engine-merge';
import { areUnrelated, takesNew } from './engine-crossing';
import { unorderedLeaves } from './engine-race';
import type { EngineState } from './engine-state';
import { underControls } from './engine-storage-level';
import type { StorageUnit } from './engine-storage-plan';

export type SampleVerdict = 'clean' | Exclude<Doubt['kind'], 'perhaps-edge'>;

/** Writes the captured levels into `out`, least significant first. `pinChange`: the edge, a change of this instant. */
export function captureLevels(
  state: EngineState,
  unitIndex: number,
  pinChange: number,
  out: Uint8Array,
): SampleVerdict {
  const ownBits = feedbackBits(state, unitIndex);
  const sample: SampleView = { unitIndex, pinChange, ownBits };
  const moving = movingLeaves(state, sample);
  if (ownBits.length === 0) readData(state, state.plan.units[unitIndex], out);
  else readReplaced(state, sample, [], out);
  const verdict = moving.length === 0 ? 'clean' : readMoving(state, sample, moving, out);
  const spoiled = spoilLate(state, sample, out);
  return verdict === 'clean' ? spoiled : verdict;
}

interface SampleView {
  readonly unitIndex: number;
  readonly pinChange: number;
  /** Own output bits that are read as stored inside. */
  readonly ownBits: readonly number[];
}

interface LeafLevel {
  readonly bit: number;
  readonly level: number;
}

/** Reads again with the moving leaves unknown; those that an unrelated clock has moved are old or new by the seed. */
function readMoving(state: EngineState, sample: SampleView, moving: readonly number[], out: Uint8Array): SampleVerdict {
  if (!dependsOn(state, sample, moving, out)) return 'clean';
  const isCrossing = moving.map((bit) => areUnrelated(state, state.latest[bit], sample.pinChange));
  const levels = moving.map((bit, index): LeafLevel => {
    if (!isCrossing[index]) return { bit, level: 3 };
    return { bit, level: takesNew(state, sample.unitIndex, bit) ? state.level[bit] : state.prior[bit] };
  });
  readReplaced(state, sample, levels, out);
  return isCrossing.includes(false) ? 'race' : 'crossing';
}

/** Whether the sample in `out` is another with the moving leaves unknown or at their new levels. Writes over `out`. */
function dependsOn(state: EngineState, sample: SampleView, moving: readonly number[], out: Uint8Array): boolean {
  const old = out.slice(0, state.plan.units[sample.unitIndex].width);
  const differs = (levelOf: (bit: number) => number): boolean => {
    readReplaced(
      state,
      sample,
      moving.map((bit) => ({ bit, level: levelOf(bit) })),
      out,
    );
    return old.some((level, bit) => level !== out[bit]);
  };
  if (differs(() => 3) || differs((bit) => state.level[bit])) return true;
  out.set(old);
  return false;
}

/** Leaves of the unit's cone that moved in no fixed order with its edge. */
function movingLeaves(state: EngineState, { unitIndex, pinChange, ownBits }: SampleView): readonly number[] {
  const leaves = unorderedLeaves(state, pinChange);
  if (leaves.length === 0) return noBits;
  const cone = coneOf(state, unitIndex);
  let moving: number[] | null = null;
  for (const leaf of leaves) {
    if (!cone.leaves.has(leaf) || ownBits.includes(leaf)) continue;
    moving ??= [];
    moving.push(leaf);
  }
  return moving ?? noBits;
}

const noBits: readonly number[] = [];

/**
 * The unit's own output bits where its feedback must be read from inside: in a part whose least clock period is
 * published, feedback to itself is ready after that period, however long its output takes.
 */
function feedbackBits(state: EngineState, unitIndex: number): readonly number[] {
  const { lastEdge, plan } = state;
  const { base, width, isLatch, windows } = plan.units[unitIndex];
  if (windows.period === null || lastEdge[unitIndex] < 0) return noBits;
  if (state.now - lastEdge[unitIndex] < windows.period) return noBits;
  if (isLatch) return noBits;
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

/** With `ownBits` as stored inside and the moving leaves as told. */
function readReplaced(
  state: EngineState,
  { unitIndex, ownBits }: SampleView,
  moving: readonly LeafLevel[],
  out: Uint8Array,
): void {
  const own = ownBits.map((bit): LeafLevel => ({ bit, level: state.stored[bit] }));
  const replaced = replaceLeaves(state, coneOf(state, unitIndex), state.prior, [...own, ...moving]);
  readData(state, state.plan.units[unitIndex], out);
  replaced.restore();
}

/** Data that moved less than the setup time before the edge, controls released less than the recovery time before it. */
function spoilLate(state: EngineState, { unitIndex, pinChange }: SampleView, out: Uint8Array): SampleVerdict {
  const unit = state.plan.units[unitIndex];
  if (unit.windows.setup === 0 && unit.windows.recovery === 0) return 'clean';
  if (unit.contents !== null) return spoilContent(state, { unitIndex, pinChange }, out);
  let verdict: SampleVerdict = 'clean';
  for (let bit = 0; bit < unit.width; bit++) {
    const old = lateLevel(state, unit, bit, out[bit]);
    if (old === out[bit]) continue;
    const isCrossing = areUnrelated(state, state.latest[unit.data[bit]], pinChange);
    if (!isCrossing) out[bit] = mergeLevels(old, out[bit]);
    else if (!takesNew(state, unitIndex, unit.data[bit])) out[bit] = old;
    if (verdict !== 'setup-hold') verdict = isCrossing ? 'crossing' : 'setup-hold';
  }
  return verdict;
}

/** The same for a memory's content, which is old or new as a whole. */
function spoilContent(
  state: EngineState,
  { unitIndex, pinChange }: Pick<SampleView, 'unitIndex' | 'pinChange'>,
  out: Uint8Array,
): SampleVerdict {
  const unit = state.plan.units[unitIndex];
  const old = Uint8Array.from({ length: unit.width }, (_, bit) => lateLevel(state, unit, bit, out[bit]));
  const late = old.findIndex((level, bit) => level !== out[bit]);
  if (late < 0) return 'clean';
  if (!areUnrelated(state, state.latest[unit.data[late]], pinChange)) {
    mergeUnit(unit, old, out);
    return 'setup-hold';
  }
  if (!takesNew(state, unitIndex, unit.data[late])) out.set(old);
  return 'crossing';
}

/** What the bit would have captured before the late change; the same level where there is none. */
function lateLevel(state: EngineState, unit: StorageUnit, bit: number, captured: number): number {
  const { setup, recovery } = unit.windows;
  const data = unit.data[bit];
  for (const { bit: control, activeLevel, value } of unit.controls) {
    const isReleased = state.level[control] === 1 - activeLevel && movedWithin(state, control, recovery);
    if (isReleased) return state.level[value[bit]];
  }
  return movedWithin(state, data, setup) ? underControls(unit, bit, state.level, state.before[data]) : captured;
}

/** Strictly inside (now − window, now): both ends are no violation (IEEE 1364-2005 15.2.1). */
function movedWithin(state: EngineState, bit: number, window: number): boolean {
  const change = state.latest[bit];
  if (window === 0 || change < 0 || change >= state.instantStart) return false;
  return state.log.time[change] > state.now - window;
}
