// What the movements of a register's clock and controls, or of a latch's gate and data, make of its output. What it takes
// is what the typical run took; whether that holds in every order is looked at when all data of the root edge is known,
// and where it does not, the stored value is unknown from there (definitions 28, 30 and 32).

import type { StorageUnit } from './engine-storage-plan';
import { distanceOf, forkOf, isBefore } from './window-events';
import {
  type Capture,
  goOver,
  latestMove,
  type Move,
  type MoveState,
  movedNow,
  smear,
  smearOver,
  unknown,
} from './window-moves';

/** What is known of the root edge beside what moves. */
export interface EdgeFacts {
  /** By dense bit: the level that the typical run leaves it at; missing where it does not move there. */
  readonly typical: ReadonlyMap<number, number>;
  /** By dense bit: what every order agrees on where that is not what the typical run took; 3 where they do not agree. */
  readonly forced: ReadonlyMap<number, number>;
}

export function moveUnit(state: MoveState, index: number, facts: EdgeFacts): void {
  const unit = state.plan.units[index];
  const controls = unit.controls.map(({ activeLevel, bit }) => ({ activeLevel, bit, move: movedNow(state, bit) }));
  const isControlled = controls.some(
    ({ activeLevel, bit, move }) => move !== null || (state.level[bit] !== 1 - activeLevel && state.level[bit] !== 2),
  );
  if (isControlled) moveControlled(state, index, facts);
  else if (unit.isLatch) moveLatch(state, index);
  else captureAll(state, index, facts);
}

/** Whether the clock, as it moves now, makes the register sample; a smear or an unknown level perhaps. */
function capturing({ captureLevel }: StorageUnit, pin: Move | null): 'no' | 'once' | 'perhaps' {
  if (pin === null) return 'no';
  if (pin.isSmear || pin.from > 1 || pin.to > 1) return 'perhaps';
  return pin.to === captureLevel ? 'once' : 'no';
}

function captureAll(state: MoveState, index: number, { forced, typical }: EdgeFacts): void {
  const unit = state.plan.units[index];
  const pin = movedNow(state, unit.pin);
  const captures = capturing(unit, pin);
  if (captures === 'no' || pin === null) return;
  if (captures === 'once') keepCapture(state, index, typical, pin.first);
  const delay = state.plan.unitDelays(index);
  for (let at = 0; at < unit.width; at++) {
    const bit = unit.base + at;
    const from = state.level[bit];
    const data = unit.data[at];
    if (captures === 'perhaps') {
      const isSame = movedNow(state, data) === null && state.level[data] === from && from < unknown;
      if (!isSame) smearOver(state, bit, unknown, [pin.first, pin.last], delay);
      continue;
    }
    const to = forced.get(bit) ?? (state.level[data] === unknown ? unknown : (typical.get(bit) ?? from));
    if (to === unknown || from === unknown) {
      // Data that moves within the hold time makes it unknown only then.
      const { max, min } = state.events;
      const until = max[pin.first] + state.plan.limits[index].hold;
      smear(state, bit, to, { from: [pin.first], min: min[pin.first], max: until, delay });
    } else if (to !== from) goOver(state, bit, to, { cause: pin.first, delay, isExact: pin.isExact });
  }
}

/** To be looked at again once the data's movements are known. */
function keepCapture(state: MoveState, index: number, typical: EdgeFacts['typical'], clock: number): void {
  const { base, data } = state.plan.units[index];
  const taken = Array.from(data, (bit, at) =>
    state.level[bit] === unknown ? unknown : (typical.get(base + at) ?? state.level[base + at]),
  );
  state.captures.push({ edge: state.edge, unit: index, clock, taken });
}

/** Controls that move or hold: their last word is the typical run's, unless an unknown has a say. */
function moveControlled(state: MoveState, index: number, { forced, typical }: EdgeFacts): void {
  const { clearDelays, unitDelays, units } = state.plan;
  const unit = units[index];
  const moves = unit.controls.flatMap(({ bit }) => movedNow(state, bit) ?? []);
  const ruling = unit.controls.find(
    ({ activeLevel, bit }) => (movedNow(state, bit)?.to ?? state.level[bit]) === activeLevel,
  );
  const pin = movedNow(state, unit.pin);
  const isSure = [...moves, ...(pin === null ? [] : [pin])].every(({ isSmear, to }) => !isSmear && to < unknown);
  const captures = capturing(unit, pin) !== 'no' && !isHeldThrough(state, unit);
  const causes = [...moves, ...(captures && pin !== null ? [pin] : [])];
  for (let at = 0; at < unit.width; at++) {
    const bit = unit.base + at;
    const value = ruling === undefined ? null : ruling.value[at];
    const moved = value === null ? null : movedNow(state, value);
    const all = moved === null ? causes : [...causes, moved];
    if (all.length === 0) continue;
    const from = state.level[bit];
    const to = forced.get(bit) ?? (isSure ? (typical.get(bit) ?? from) : unknown);
    const [only] = all;
    const isLoad = all.length === 1 && isSure && only !== pin;
    if (to === from && from < unknown && (isLoad || !typical.has(bit)) && isSure && isQuiet(state, unit, { at, from }))
      continue;
    const delay = isLoad ? clearDelays(index) : spanned(unitDelays(index), clearDelays(index));
    if (isLoad && from < unknown && to < unknown)
      goOver(state, bit, to, { cause: only.first, delay, isExact: only.isExact });
    else
      smearOver(
        state,
        bit,
        to,
        all.flatMap(({ first, last }) => [first, last]),
        delay,
      );
  }
}

/** Some control holds the unit before, during and after the root edge. */
function isHeldThrough(state: MoveState, { controls }: StorageUnit): boolean {
  return controls.some(({ activeLevel, bit }) => state.level[bit] === activeLevel && movedNow(state, bit) === null);
}

/** Neither what it would load nor what it would sample differs from what it holds. */
function isQuiet(
  state: MoveState,
  unit: StorageUnit,
  { at, from }: { readonly at: number; readonly from: number },
): boolean {
  const isActive = unit.controls.some(
    ({ activeLevel, bit, value }) =>
      (state.level[bit] === activeLevel || movedNow(state, bit)?.to === activeLevel) && state.level[value[at]] !== from,
  );
  const pin = movedNow(state, unit.pin);
  return !isActive && (capturing(unit, pin) === 'no' || state.level[unit.data[at]] === from);
}

function spanned(
  left: { readonly min: readonly number[]; readonly max: readonly number[] },
  right: { readonly min: readonly number[]; readonly max: readonly number[] },
) {
  return {
    min: left.min.map((ps, level) => Math.min(ps, right.min[level])),
    max: left.max.map((ps, level) => Math.max(ps, right.max[level])),
  };
}

/** Open, a latch passes what its data does; shut, it keeps. */
function moveLatch(state: MoveState, index: number): void {
  const unit = state.plan.units[index];
  const delay = state.plan.unitDelays(index);
  const gate = movedNow(state, unit.pin);
  const open = 1 - unit.captureLevel;
  for (let at = 0; at < unit.width; at++) {
    const bit = unit.base + at;
    const from = state.level[bit];
    const data = movedNow(state, unit.data[at]);
    const passes = data === null ? [] : [data.first, data.last];
    if (gate === null) {
      if (state.level[unit.pin] === open && data !== null) passOn(state, bit, data, delay);
      else if (state.level[unit.pin] === unknown && data !== null) smearOver(state, bit, unknown, passes, delay);
      continue;
    }
    const through = [gate.first, gate.last, ...passes];
    if (gate.isSmear || gate.to > 1 || gate.from > 1) smearOver(state, bit, unknown, through, delay);
    else if (gate.to === open) {
      const to = data?.to ?? state.level[unit.data[at]];
      if (data !== null || to === unknown || from === unknown) smearOver(state, bit, to, through, delay);
      else if (to !== from) goOver(state, bit, to, { cause: gate.first, delay, isExact: gate.isExact });
    } else if (data !== null && !isBefore(state.events, gate.first, data.first)) {
      if (isBefore(state.events, data.last, gate.first)) passOn(state, bit, data, delay);
      else smearOver(state, bit, unknown, through, delay);
    }
  }
}

function passOn(state: MoveState, bit: number, data: Move, delay: ReturnType<MoveState['plan']['unitDelays']>): void {
  const from = state.level[bit];
  if (data.isSmear || data.to > 1 || from > 1) smearOver(state, bit, data.to, [data.first, data.last], delay);
  else if (data.to !== from) goOver(state, bit, data.to, { cause: data.first, delay, isExact: data.isExact });
}

/** Bits whose sample is another in some order than the one taken, with what all orders agree on; 3 where they do not. */
export function samplesToForce(state: MoveState, { clock, taken, unit }: Capture): [number, number][] {
  const { base, data } = state.plan.units[unit];
  return taken.flatMap((level, at): [number, number][] => {
    const sampled = sampledLevel(state, data[at], clock, state.plan.limits[unit]);
    const real = sampled === 2 ? unknown : sampled;
    return real === level ? [] : [[base + at, real]];
  });
}

/** What every order of a data bit's movements and a clock edge gives; 3 where they do not agree. */
export function sampledLevel(
  state: MoveState,
  bit: number,
  clock: number,
  { hold, setup }: { readonly hold: number; readonly setup: number },
): number {
  const own = state.moves[bit] ?? [];
  for (let index = own.length - 1; index >= 0; index--) {
    const { first, from, last } = own[index];
    const behind = distanceOf(state.events, clock, first).min;
    const isAfter = behind >= hold && (behind > 0 || forkOf(state.events, clock, first) === clock);
    if (isAfter) {
      if (index === 0) return from;
      continue;
    }
    const ahead = distanceOf(state.events, last, clock).min;
    const isThere = ahead >= setup && (ahead > 0 || forkOf(state.events, last, clock) === last);
    if (isThere) return index === own.length - 1 ? own[index].to : own[index + 1].from;
    return unknown;
  }
  return latestMove(state, bit)?.to ?? state.level[bit];
}
