// Registers and latches at one step of an instant: which of them capture, what they hold afterwards, and when their
// outputs follow. Also the review at the end of an instant, for samples that a later step has put in doubt.

import { mergeLevels } from './engine-evaluate';
import { mergeUnit } from './engine-merge';
import { scheduleInertial, scheduleStored } from './engine-pending';
import { isCausedBy } from './engine-race';
import { captureLevels } from './engine-sample';
import type { EngineState, Sample } from './engine-state';
import { underControls } from './engine-storage-level';
import type { Control, StorageUnit } from './engine-storage-plan';
import { ChangeKind, type Doubt } from './waves';

/** Every register and latch that has heard something in this step. */
export function updateUnits(state: EngineState): void {
  const { marked } = state;
  for (const unitIndex of marked.list) {
    marked.isMarked[unitIndex] = 0;
    updateUnit(state, unitIndex);
  }
  marked.list.length = 0;
}

/** A pulse has come back to the level from before the instant: no width, so perhaps no edge. */
const Capture = { none: 0, certain: 1, perhaps: 2, pulse: 3 } as const;

function updateUnit(state: EngineState, unitIndex: number): void {
  const unit = state.plan.units[unitIndex];
  const capture = captureOf(state, unitIndex, unit);
  if (capture === Capture.none) holdOrPass(state, unitIndex, unit);
  else takeSample(state, unitIndex, unit, capture);
  for (const control of unit.controls) {
    if (!isReleased(state, control)) continue;
    holdLoaded(state, unit, control);
    spoilRemoved(state, unitIndex, control);
  }
}

function takeSample(state: EngineState, unitIndex: number, unit: StorageUnit, capture: number): void {
  const pinChange = state.latest[unit.pin];
  const { captured } = state;
  const verdict = captureLevels(state, unitIndex, pinChange, captured);
  // A latch has passed its data while its gate pulsed: what it held stands in its output from before the instant.
  const held = unit.isLatch ? state.prior : state.stored;
  const isMerged = capture !== Capture.certain && mergeUnit(unit, ownLevels(unit, held), captured);
  if (isMerged) addDoubt(state, unit, capture === Capture.pulse ? 'race' : 'perhaps-edge', pinChange);
  else if (verdict !== 'clean') addDoubt(state, unit, verdict, pinChange);
  state.lastEdge[unitIndex] = state.now;
  state.lastSample[unitIndex] = isRuled(state, unit) ? -1 : state.now;
  if (state.plan.mayStep) keepSample(state, unitIndex, unit, pinChange, isMerged || verdict !== 'clean');
  for (let bit = 0; bit < unit.width; bit++) store(state, unit, bit, captured[bit]);
}

/** A control is certainly active: whatever the data does around the edge, nothing of it is taken over. */
function isRuled({ level }: EngineState, { controls }: StorageUnit): boolean {
  return controls.some(({ activeLevel, bit }) => level[bit] === activeLevel);
}

function ownLevels({ base, width }: StorageUnit, plane: Uint8Array): Uint8Array {
  return plane.subarray(base, base + width);
}

/** From and to known levels an edge is certain; from or to an unknown one it is a perhaps (definition 16). */
function captureOf(state: EngineState, unitIndex: number, unit: StorageUnit): number {
  const { marked, level, step } = state;
  if (marked.pinStep[unitIndex] !== step) return Capture.none;
  const before = marked.pinBefore[unitIndex];
  const after = level[unit.pin];
  const open = 1 - unit.captureLevel;
  if (before === open && after === unit.captureLevel) {
    return state.prior[unit.pin] === open ? Capture.certain : Capture.pulse;
  }
  // A latch with an unknown gate already holds the merge of its value and its data.
  if (unit.isLatch) return Capture.none;
  const isPerhaps = (before === open && after >= 2) || (before >= 2 && after === unit.captureLevel);
  return isPerhaps ? Capture.perhaps : Capture.none;
}

/** No edge: controls rule, an open latch passes its data, a hold time may be violated. */
function holdOrPass(state: EngineState, unitIndex: number, unit: StorageUnit): void {
  const gate = unit.isLatch ? state.level[unit.pin] : unit.captureLevel;
  const isHolding = gate === unit.captureLevel;
  const isInHold = !unit.isLatch && isWithinHold(state, unitIndex);
  if (isHolding && !isInHold && unit.controls.length === 0) return;
  if (unit.contents !== null && (isInHold || gate >= 2)) {
    mergeContent(state, unit, isInHold);
    return;
  }
  let isSpoiled = false;
  for (let bit = 0; bit < unit.width; bit++) {
    const old = state.stored[unit.base + bit];
    const data = state.level[unit.data[bit]];
    let next = old;
    if (!isHolding) next = gate < 2 ? data : mergeLevels(old, data);
    else if (isInHold && state.latest[unit.data[bit]] >= state.instantStart && data !== old) {
      next = mergeLevels(old, data);
      isSpoiled = true;
    }
    store(state, unit, bit, next);
  }
  if (isSpoiled) addDoubt(state, unit, 'setup-hold', state.latest[unit.pin]);
}

/** A content that may have taken its data over after all, by an unknown gate or inside the hold time. */
function mergeContent(state: EngineState, unit: StorageUnit, isInHold: boolean): void {
  const hasMoved = unit.data.some((bit) => state.latest[bit] >= state.instantStart);
  const next = Uint8Array.from(unit.data, (bit) => state.level[bit]);
  const isMerged = (!isInHold || hasMoved) && mergeUnit(unit, ownLevels(unit, state.stored), next);
  for (let bit = 0; bit < unit.width; bit++) {
    store(state, unit, bit, isMerged ? next[bit] : state.stored[unit.base + bit]);
  }
  if (isMerged && isInHold) addDoubt(state, unit, 'setup-hold', state.latest[unit.pin]);
}

/** A control that was active before this instant and no longer is. */
function isReleased(state: EngineState, { bit, activeLevel }: Control): boolean {
  return state.prior[bit] === activeLevel && state.level[bit] !== activeLevel;
}

/** Let go too soon behind an edge, which may then have sampled after all (IEEE 1364-2005 15.2.4): old or new. */
function spoilRemoved(state: EngineState, unitIndex: number, control: Control): void {
  const unit = state.plan.units[unitIndex];
  const edge = state.lastEdge[unitIndex];
  if (edge < 0 || state.now <= edge || state.now >= edge + unit.windows.removal) return;
  state.lastSample[unitIndex] = edge;
  let isSpoiled = false;
  for (let bit = 0; bit < unit.width; bit++) {
    const data = unit.data[bit];
    const change = state.latest[data];
    const isSteady = change < 0 || state.log.time[change] < edge;
    const old = state.stored[unit.base + bit];
    if (isSteady && state.level[data] === old) continue;
    if (underControls(unit, bit, state.level, 3) !== 3) continue;
    store(state, unit, bit, 3);
    isSpoiled = true;
  }
  if (isSpoiled) addDoubt(state, unit, 'setup-hold', state.latest[control.bit]);
}

/** What a control loads and what moves as it lets go is old or new: a race, unless the letting go is what moves it. */
function holdLoaded(state: EngineState, unit: StorageUnit, control: Control): void {
  let isMerged = false;
  for (let bit = 0; bit < unit.width; bit++) {
    const value = control.value[bit];
    const at = unit.base + bit;
    if (state.prior[value] === state.level[value]) continue;
    // Holding what was loaded before, or unknown because the control now is.
    if (state.stored[at] !== state.prior[value] && state.stored[at] !== 3) continue;
    if (isCausedBy(state, state.latest[value], state.latest[control.bit])) continue;
    store(state, unit, bit, 3);
    isMerged = true;
  }
  if (isMerged) addDoubt(state, unit, 'race', state.latest[control.bit]);
}

/** Strictly less than the hold time after an edge that sampled; the edge's own instant is a race and judged there (15.2.2). */
function isWithinHold(state: EngineState, unitIndex: number): boolean {
  const edge = state.lastSample[unitIndex];
  return edge >= 0 && state.now > edge && state.now < edge + state.plan.units[unitIndex].windows.hold;
}

/** Takes `rest` under the controls as they are now into the unit, and plans the output. */
function store(state: EngineState, unit: StorageUnit, bit: number, rest: number): void {
  const at = unit.base + bit;
  const level = underControls(unit, bit, state.level, rest);
  if (level === state.stored[at]) return;
  state.stored[at] = level;
  const isControlled = level !== rest;
  const { delayPs } = state.plan;
  const delay = delayPs[4 * (isControlled ? unit.clearDelay : unit.delay) + level];
  const cause = isControlled ? controlCause(state, unit, bit) : dataCause(state, unit, bit);
  if (unit.isLatch)
    scheduleInertial(state, at, level, delay, cause, isControlled ? ChangeKind.asynchronous : ChangeKind.latch);
  else scheduleStored(state, at, level, delay, cause, isControlled ? ChangeKind.asynchronous : ChangeKind.sampled);
}

/** The change of the ruling control, or of what it loads. */
function controlCause(state: EngineState, unit: StorageUnit, bit: number): number {
  for (const { bit: control, activeLevel, value } of unit.controls) {
    if (state.level[control] === 1 - activeLevel) continue;
    return Math.max(state.latest[control], state.latest[value[bit]]);
  }
  return state.latest[unit.pin];
}

/** For a register its clock's change; for a latch whichever of gate and data changed last. */
function dataCause(state: EngineState, unit: StorageUnit, bit: number): number {
  if (!unit.isLatch) return state.latest[unit.pin];
  return Math.max(state.latest[unit.pin], state.latest[unit.data[bit]]);
}

function addDoubt(state: EngineState, unit: StorageUnit, kind: Doubt['kind'], cause: number): void {
  state.doubts.push({ time: state.now, node: unit.node, kind, cause });
}

function keepSample(
  state: EngineState,
  unitIndex: number,
  unit: StorageUnit,
  pinChange: number,
  isDoubted: boolean,
): void {
  const { samples, captured } = state;
  samples.push({
    unit: unitIndex,
    pinChange,
    changeCount: state.log.count,
    isDoubted,
    old: state.stored.slice(unit.base, unit.base + unit.width),
    taken: captured.slice(0, unit.width),
  });
}

/**
 * Samples taken earlier in this instant, judged again now that more of its changes are known: what changed afterwards
 * without a fixed order, or a clock pulse without width, makes the stored value a merge.
 */
export function reviewSamples(state: EngineState): void {
  for (const sample of state.samples) {
    if (sample.changeCount === state.log.count) continue;
    sample.changeCount = state.log.count;
    reviewSample(state, sample);
  }
}

function reviewSample(state: EngineState, sample: Sample): void {
  const { old, taken } = sample;
  const unit = state.plan.units[sample.unit];
  // The pin has left the level that captured in the same instant: a pulse without width, or an edge into the unknown.
  const isPulse = state.level[unit.pin] !== unit.captureLevel;
  const verdict = captureLevels(state, sample.unit, sample.pinChange, state.captured);
  let kind: Doubt['kind'] | null = verdict === 'crossing' && !isPulse ? verdict : null;
  if (unit.contents !== null && kind === null) {
    if (isPulse) state.captured.set(old);
    mergeUnit(unit, taken, state.captured);
  }
  for (let bit = 0; bit < unit.width; bit++) {
    const other = isPulse && unit.contents === null ? old[bit] : state.captured[bit];
    const isTaken = kind === 'crossing' || unit.contents !== null;
    const level = isTaken ? other : mergeLevels(taken[bit], other);
    if (level === taken[bit] || state.stored[unit.base + bit] !== taken[bit]) continue;
    taken[bit] = level;
    kind ??= 'race';
    store(state, unit, bit, level);
  }
  if (kind === null || sample.isDoubted) return;
  sample.isDoubted = true;
  addDoubt(state, unit, kind, sample.pinChange);
}
