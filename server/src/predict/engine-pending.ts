// Scheduling of changes. Logic and latches are inertial: one pending change per bit, taken back when the inputs return
// first (IEEE 1364-2005 6.1.3, 7.14; definition 25). A register's output is not: what it has stored will come out, so a
// clock faster than the clock-to-output delay still toggles; only changes overtaken by an earlier one fall away.

import type { EngineState, Slots } from './engine-state';

/** Plans that `bit` becomes `level` after `delay` ps (0: in the next step), unless it does so already. */
export function scheduleInertial(
  state: EngineState,
  bit: number,
  level: number,
  delay: number,
  cause: number,
  kind: number,
): void {
  const { queue, slots } = state;
  const isPending = queue.timeOf(bit) >= 0;
  if (isPending && slots.level[bit] === level) return;
  if (isPending) queue.cancel(bit);
  if (level === state.level[bit]) return;
  if (delay === 0) {
    addImmediate(state, bit, level, cause, kind);
    return;
  }
  slots.level[bit] = level;
  slots.cause[bit] = cause;
  slots.kind[bit] = kind;
  queue.schedule(bit, state.now + delay);
}

/** As `scheduleInertial`, without taking back what was planned for earlier. */
export function scheduleStored(
  state: EngineState,
  bit: number,
  level: number,
  delay: number,
  cause: number,
  kind: number,
): void {
  const { slots, lastSlot } = state;
  const time = state.now + delay;
  dropSlotsFrom(state, bit, time);
  const last = lastSlot[bit];
  if (level === (last >= 0 ? slots.level[last] : state.level[bit])) return;
  if (delay === 0) addImmediate(state, bit, level, cause, kind);
  else pushSlot(state, { bit, level, cause, kind, time });
}

/** Takes back what is planned for the bit at `time` or later. */
export function dropSlotsFrom(state: EngineState, bit: number, time: number): void {
  const { lastSlot, queue } = state;
  while (lastSlot[bit] >= 0 && queue.timeOf(lastSlot[bit]) >= time) dropLastSlot(state, bit);
}

/** Takes back the last change planned for the bit. There is one. */
export function dropLastSlot(state: EngineState, bit: number): void {
  const { lastSlot, queue, slots } = state;
  const last = lastSlot[bit];
  const earlier = slots.earlier[last];
  queue.cancel(last);
  freeSlot(slots, last);
  lastSlot[bit] = earlier;
  if (earlier >= 0) slots.later[earlier] = -1;
}

interface PlannedChange {
  readonly bit: number;
  readonly level: number;
  readonly cause: number;
  readonly kind: number;
  /** ps */
  readonly time: number;
}

/** Plans a change behind all that is planned for the bit. */
export function pushSlot(state: EngineState, { bit, cause, kind, level, time }: PlannedChange): void {
  const { slots, queue, lastSlot } = state;
  const last = lastSlot[bit];
  const slot = takeSlot(slots);
  slots.bit[slot] = bit;
  slots.level[slot] = level;
  slots.cause[slot] = cause;
  slots.kind[slot] = kind;
  slots.earlier[slot] = last;
  slots.later[slot] = -1;
  if (last >= 0) slots.later[last] = slot;
  lastSlot[bit] = slot;
  queue.schedule(slot, time);
}

/** To be called when a slot above the dense bits has come: it is its bit's earliest. */
export function releaseSlot(state: EngineState, slot: number): void {
  const { slots, lastSlot } = state;
  const bit = slots.bit[slot];
  const later = slots.later[slot];
  if (later >= 0) slots.earlier[later] = -1;
  if (lastSlot[bit] === slot) lastSlot[bit] = -1;
  freeSlot(slots, slot);
}

export function addImmediate(state: EngineState, bit: number, level: number, cause: number, kind: number): void {
  const { immediate } = state;
  const index = immediate.count++;
  immediate.bit[index] = bit;
  immediate.level[index] = level;
  immediate.cause[index] = cause;
  immediate.kind[index] = kind;
}

function freeSlot(slots: Slots, slot: number): void {
  slots.free.push(slot);
}

function takeSlot(slots: Slots): number {
  const slot = slots.free.pop() ?? slots.count++;
  if (slot === slots.bit.length) growSlots(slots);
  return slot;
}

function growSlots(slots: Slots): void {
  const length = 2 * slots.bit.length + 16;
  slots.bit = copied(slots.bit, new Uint32Array(length));
  slots.level = copied(slots.level, new Uint8Array(length));
  slots.cause = copied(slots.cause, new Int32Array(length));
  slots.kind = copied(slots.kind, new Uint8Array(length));
  slots.earlier = copied(slots.earlier, new Int32Array(length));
  slots.later = copied(slots.later, new Int32Array(length));
}

function copied<Column extends Uint8Array | Uint32Array | Int32Array>(from: Column, to: Column): Column {
  to.set(from);
  return to;
}
