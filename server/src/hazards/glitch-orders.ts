// Tries every order in which changes can follow one another (definition 21 of the project) and judges the wave that each
// makes of one signal. An order is taken as far as some choice of delays keeps it; changes at one instant are tried in
// every order, since equal times fix none (22). Certain: in every order and every choice of delays a level too many is
// seen. The work is limited; what was not tried makes nothing certain.

import type { Budget } from '../budget';
import type { DirectionalDelay } from '../delays/delay-set';
import type { DelayTriple } from '../netlist/netlist';
import { apart, earliestRun, follow, mostAfter, type Times } from './glitch-times';
import { judgeWave, type Level, type Verdict, type Wave } from './glitch-wave';

/**
 * A change that is on its way. `key`: what changes; a second one with the same key replaces the first. Its instant is
 * one that the world's times know already, or lies a delay after the change that sets it on its way.
 */
export interface Upcoming {
  readonly key: number;
  readonly when: number | DelayTriple;
}

/** What changes lead to. States are never changed after they are made. */
export interface World<State> {
  readonly start: State;
  /** Instants known from the beginning; at least the root edge. */
  readonly times: Times;
  readonly first: readonly Upcoming[];
  /** The change `key` happens: the new state, the changes that it sets on their way, and those it takes back. */
  fire(state: State, key: number): Consequence<State>;
  /** The signal judged; null where it may be either. */
  levelOf(state: State): Level | null;
  /** Whether it may pulse here although its level is known: an operator of unknown structure is moving. */
  mayPulse(state: State): boolean;
}

export interface Consequence<State> {
  readonly state: State;
  readonly upcoming: readonly Upcoming[];
  readonly cancelled: readonly number[];
}

export interface OrdersVerdict extends Verdict {
  /** In some order the level may be either. */
  readonly unknown: boolean;
  /** In some order an operator of unknown structure may pulse. */
  readonly vague: boolean;
  /** False where the budget ran out. */
  readonly complete: boolean;
  /** How many changes were tried. */
  readonly steps: number;
  /** The order with the widest wrong level: each change of the signal and a run in which it shows. */
  readonly example: { readonly wave: Wave; readonly at: readonly number[] } | null;
}

interface Pending {
  readonly key: number;
  readonly instant: number;
}

interface Trail<State> {
  readonly state: State;
  readonly times: Times;
  readonly pending: readonly Pending[];
  readonly wave: Wave;
  readonly unknown: boolean;
  readonly vague: boolean;
}

export function tryOrders<State>(world: World<State>, inertia: DirectionalDelay, budget: Budget): OrdersVerdict {
  const waiting: Trail<State>[] = [startOf(world)];
  let total: Totals | null = null;
  let steps = 0;
  for (let trail = waiting.pop(); trail !== undefined; trail = waiting.pop()) {
    if (!budget.spend(1)) return finish(total, 'cut', steps);
    steps += 1;
    if (trail.pending.length === 0) total = addOrder(total, trail, inertia);
    for (const next of [...trail.pending].reverse()) {
      const step = take(world, trail, next);
      if (step !== null) waiting.push(step);
    }
  }
  return finish(total, 'complete', steps);
}

function startOf<State>(world: World<State>): Trail<State> {
  const level = world.levelOf(world.start);
  return {
    state: world.start,
    ...withUpcoming({ times: world.times, pending: [] }, world.first, 0),
    wave: { first: level ?? 0, instants: [] },
    unknown: level === null,
    vague: false,
  };
}

type Schedule = Pick<Trail<unknown>, 'times' | 'pending'>;

function withUpcoming(schedule: Schedule, upcoming: readonly Upcoming[], cause: number): Schedule {
  let { times } = schedule;
  const pending = [...schedule.pending];
  for (const { key, when } of upcoming) {
    if (typeof when === 'number') {
      pending.push({ key, instant: when });
      continue;
    }
    pending.push({ key, instant: times.count });
    times = follow(times, cause, when.min, when.max);
  }
  return { times, pending };
}

/** The trail goes on with this change as the next one; null where no choice of delays allows that. */
function take<State>(world: World<State>, trail: Trail<State>, next: Pending): Trail<State> | null {
  let times: Times | null = trail.times;
  for (const other of trail.pending) {
    if (other !== next && times !== null) times = apart(times, next.instant, other.instant);
  }
  if (times === null) return null;
  const { state, upcoming, cancelled } = world.fire(trail.state, next.key);
  const gone = new Set([next.key, ...cancelled, ...upcoming.map(({ key }) => key)]);
  const pending = trail.pending.filter(({ key }) => !gone.has(key));
  const level = world.levelOf(state);
  return {
    state,
    ...withUpcoming({ times, pending }, upcoming, next.instant),
    wave: longer(trail.wave, level, next.instant),
    unknown: trail.unknown || level === null,
    vague: trail.vague || world.mayPulse(state),
  };
}

/** A level that may be either is read as no change; that it was met is kept apart. */
function longer(wave: Wave, level: Level | null, instant: number): Wave {
  const now = wave.instants.length % 2 === 0 ? wave.first : 1 - wave.first;
  if (level === null || level === now) return wave;
  return { first: wave.first, instants: [...wave.instants, instant] };
}

interface Totals {
  readonly possible: boolean;
  readonly certain: boolean;
  readonly unknown: boolean;
  readonly vague: boolean;
  readonly min: number;
  readonly max: number;
  readonly example: OrdersVerdict['example'];
}

function addOrder<State>(total: Totals | null, trail: Trail<State>, inertia: DirectionalDelay): Totals {
  const verdict = judgeWave(trail.wave, trail.times, inertia);
  const found: Totals = {
    possible: verdict.possible,
    certain: verdict.certain && !trail.unknown,
    unknown: trail.unknown,
    vague: trail.vague,
    min: verdict.width.min,
    max: verdict.width.max,
    example: verdict.possible ? exampleOf(trail) : null,
  };
  return total === null ? found : joined(total, found);
}

function joined(left: Totals, right: Totals): Totals {
  const isWider = right.example !== null && (left.example === null || right.max > left.max);
  return {
    possible: left.possible || right.possible,
    certain: left.certain && right.certain,
    unknown: left.unknown || right.unknown,
    vague: left.vague || right.vague,
    min: Math.min(left.min, right.min),
    max: Math.max(left.max, right.max),
    example: isWider ? right.example : left.example,
  };
}

/** A run of this order in which the first level too many lasts as long as it can. */
function exampleOf<State>({ wave, times }: Trail<State>): OrdersVerdict['example'] {
  const [from, until] = wave.instants;
  const widest = apart(times, from, until, mostAfter(times, from, until));
  return { wave, at: earliestRun(widest ?? times) };
}

function finish(total: Totals | null, end: 'complete' | 'cut', steps: number): OrdersVerdict {
  const certain = end === 'complete' && total !== null && total.certain;
  return {
    possible: total?.possible ?? false,
    certain,
    unknown: total?.unknown ?? false,
    vague: total?.vague ?? false,
    width: { min: certain ? (total?.min ?? 0) : 0, max: total?.max ?? 0 },
    complete: end === 'complete',
    steps,
    example: total?.example ?? null,
  };
}
