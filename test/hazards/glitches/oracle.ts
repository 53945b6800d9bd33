// What a decode does under every choice of delays, tried one by one: the plain reading of definitions 21, 22 and 25.

import type { RandomCircuit } from './random-ripple';
import { decoded } from './random-ripple';

export type Outcome = 'clean' | 'possible' | 'certain';

/** `from>to` → the strongest outcome, for every step that can be reached from state 0, inputs free before each edge. */
export function outcomesOf(circuit: RandomCircuit): Map<string, Outcome> {
  return outcomesFrom(circuit, [0]);
}

/** As `outcomesOf`, from several states. */
export function outcomesFrom(circuit: RandomCircuit, starts: readonly number[]): Map<string, Outcome> {
  const outcomes = new Map<string, Outcome>();
  const reached = new Set(starts);
  for (const state of reached) {
    for (let inputs = 0; inputs < 2 ** circuit.inputs; inputs++) {
      const whole = state | (inputs << circuit.bits.length);
      const next = nextState(circuit, state, inputs);
      const key = `${state}>${next}`;
      const outcome = outcomeOf(circuit, whole, changesFrom(circuit, whole));
      if (outcomes.get(key) !== 'certain' && (outcome !== 'clean' || !outcomes.has(key))) outcomes.set(key, outcome);
      reached.add(next);
    }
  }
  return outcomes;
}

export function nextState(circuit: RandomCircuit, state: number, inputs: number): number {
  const changes = changesFrom(circuit, state | (inputs << circuit.bits.length));
  return changes.reduce((value, { bit }) => value ^ (1 << bit), state);
}

interface Change {
  readonly bit: number;
  /** Index of the change that it follows; null: the root edge. */
  readonly cause: number | null;
  readonly min: number;
  readonly max: number;
}

/** Registers of the root sample the old state; each other one follows its clock bit. `state` has the inputs on top. */
function changesFrom({ bits }: RandomCircuit, state: number): Change[] {
  const changes: Change[] = [];
  const add = (bit: number, cause: number | null): void => {
    const { rise, fall, next } = bits[bit];
    const old = (state >>> bit) & 1;
    const now = next === null ? 1 - old : decoded(next, state);
    if (now === old) return;
    const { min, max } = now === 1 ? rise : fall;
    const index = changes.push({ bit, cause, min, max }) - 1;
    bits.forEach((follower, other) => {
      if (follower.clock === bit && (follower.edge === 'rising') === (now === 1)) add(other, index);
    });
  };
  bits.forEach(({ clock }, bit) => {
    if (clock === null) add(bit, null);
  });
  return changes;
}

function outcomeOf(circuit: RandomCircuit, state: number, changes: readonly Change[]): Outcome {
  const ranges = [...changes.map(({ min, max }) => [min, max] as const), ...lastRanges(circuit)];
  let some = false;
  let every = true;
  for (const delays of choicesOf(ranges)) {
    const times: number[] = [];
    changes.forEach(({ cause }, index) => {
      times.push((cause === null ? 0 : times[cause]) + delays[index]);
    });
    const [rise, fall] = circuit.last === null ? [0, 0] : delays.slice(changes.length);
    const last = { rise, fall };
    every &&= isDirty(sure(circuit, state, changes, times), last, 'sure');
    some ||= orders(changes, times).some((order) =>
      isDirty(levelsAlong(circuit, state, changes, times, order), last, 'perhaps'),
    );
  }
  return every ? 'certain' : some ? 'possible' : 'clean';
}

function lastRanges({ last }: RandomCircuit): readonly (readonly [number, number])[] {
  if (last === null) return [];
  return [
    [last.rise.min, last.rise.max],
    [last.fall.min, last.fall.max],
  ];
}

function* choicesOf(ranges: readonly (readonly [number, number])[]): Generator<number[]> {
  if (ranges.length === 0) {
    yield [];
    return;
  }
  const [[min, max], ...rest] = ranges;
  for (let first = min; first <= max; first++) for (const others of choicesOf(rest)) yield [first, ...others];
}

interface Stretch {
  readonly at: number;
  readonly level: 0 | 1;
}

/** Changes at one instant taken together: what lies between has no width. */
function sure(circuit: RandomCircuit, state: number, changes: readonly Change[], times: readonly number[]): Stretch[] {
  const instants = [...new Set(times)].sort((left, right) => left - right);
  return compact([
    { at: -1, level: decoded(circuit.decode, state) },
    ...instants.map((at): Stretch => {
      const now = changes.reduce((value, { bit }, index) => (times[index] <= at ? value ^ (1 << bit) : value), state);
      return { at, level: decoded(circuit.decode, now) };
    }),
  ]);
}

/** Every order that the times allow; a change follows its cause. */
function orders(changes: readonly Change[], times: readonly number[]): number[][] {
  const found: number[][] = [];
  const extend = (order: number[]): void => {
    if (order.length === changes.length) found.push(order);
    const left = Array.from(changes.keys()).filter((index) => !order.includes(index));
    const soonest = Math.min(...left.map((index) => times[index]));
    for (const index of left) {
      const { cause } = changes[index];
      if (times[index] === soonest && (cause === null || order.includes(cause))) extend([...order, index]);
    }
  };
  extend([]);
  return found;
}

function levelsAlong(
  circuit: RandomCircuit,
  state: number,
  changes: readonly Change[],
  times: readonly number[],
  order: readonly number[],
): Stretch[] {
  const stretches: Stretch[] = [{ at: -1, level: decoded(circuit.decode, state) }];
  let now = state;
  for (const index of order) {
    now ^= 1 << changes[index].bit;
    stretches.push({ at: times[index], level: decoded(circuit.decode, now) });
  }
  return compact(stretches);
}

function compact(stretches: readonly Stretch[]): Stretch[] {
  return stretches.filter(({ level }, index) => index === 0 || stretches[index - 1].level !== level);
}

/**
 * Whether more changes come through the last delay than needed. A pulse exactly as wide as the delay may come through
 * or not; so may one of no width without a delay.
 */
function isDirty(
  stretches: readonly Stretch[],
  last: { readonly rise: number; readonly fall: number },
  mode: 'sure' | 'perhaps',
): boolean {
  const shown = stretches.filter(({ at, level }, index) => {
    if (index === 0 || index === stretches.length - 1) return true;
    const width = stretches[index + 1].at - at;
    const delay = level === 1 ? last.rise : last.fall;
    return mode === 'sure' ? width > delay : width >= delay;
  });
  const changes = compact(shown).length - 1;
  return changes > (stretches[0].level === stretches[stretches.length - 1].level ? 0 : 1);
}

/** `from>to` → the widest level too many, over all choices of delays in which one shows: at least, at most. */
export function widthsOf(circuit: RandomCircuit): Map<string, { readonly min: number; readonly max: number }> {
  const widths = new Map<string, { readonly min: number; readonly max: number }>();
  const reached = new Set([0]);
  for (const state of reached) {
    const changes = changesFrom(circuit, state);
    const next = nextState(circuit, state, 0);
    for (const delays of choicesOf([...changes.map(({ min, max }) => [min, max] as const), ...lastRanges(circuit)])) {
      const times: number[] = [];
      changes.forEach(({ cause }, index) => {
        times.push((cause === null ? 0 : times[cause]) + delays[index]);
      });
      const [rise, fall] = circuit.last === null ? [0, 0] : delays.slice(changes.length);
      const width = widestExtra(sure(circuit, state, changes, times), { rise, fall });
      if (width === null) continue;
      const known = widths.get(`${state}>${next}`) ?? { min: width, max: width };
      widths.set(`${state}>${next}`, { min: Math.min(known.min, width), max: Math.max(known.max, width) });
    }
    reached.add(next);
  }
  return widths;
}

/** Of single pulses: a level that comes through and should not be there; null where there is none. */
function widestExtra(
  stretches: readonly Stretch[],
  last: { readonly rise: number; readonly fall: number },
): number | null {
  if (!isDirty(stretches, last, 'sure') || stretches.length !== 3) return null;
  const [, pulse, end] = stretches;
  const [begins, ends] = pulse.level === 1 ? [last.rise, last.fall] : [last.fall, last.rise];
  return end.at - pulse.at + ends - begins;
}
