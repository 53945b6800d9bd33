// What is known of the movements of every bit while windows are followed: per root edge at most one, which either goes
// over once between its earliest and latest instant, or is a smear: until its last instant any level may be seen.

import { addEvent, type EventForest, forkOfAll, isBefore } from './window-events';
import type { DelayBounds, WindowPlan } from './window-plan';
import type { Level } from './waves';

export interface Move {
  /** Index of the root edge. */
  readonly edge: number;
  readonly from: Level;
  readonly to: Level;
  /** One event where it goes over once; of a smear two, which share their bounds. */
  readonly first: number;
  readonly last: number;
  readonly isSmear: boolean;
  /** Both bounds are reached, with all delays least and with all delays largest. */
  readonly isExact: boolean;
}

export interface MoveState {
  readonly plan: WindowPlan;
  readonly events: EventForest;
  /** By dense bit, in the order of the root edges. */
  readonly moves: (Move[] | undefined)[];
  /** Level by dense bit, before this root edge. */
  readonly level: Uint8Array;
  /** The root edge that is followed. */
  edge: number;
  /** By root edge: the bits that it has moved. */
  readonly touched: number[][];
  /** Samples whose clock, or the hold time behind it, may still be to come. */
  captures: Capture[];
}

/** What a register takes at one root edge. */
export interface Capture {
  readonly edge: number;
  readonly unit: number;
  /** Event of its clock. */
  readonly clock: number;
  /** By bit of the unit: what was taken, as the data stood. */
  readonly taken: readonly number[];
}

export const unknown = 3;

export function latestMove({ moves }: MoveState, bit: number): Move | null {
  const own = moves[bit];
  return own === undefined || own.length === 0 ? null : own[own.length - 1];
}

/** To be added to. */
export function movesOf({ moves }: MoveState, bit: number): Move[] {
  const own = moves[bit] ?? [];
  moves[bit] = own;
  return own;
}

export function movedNow(state: MoveState, bit: number): Move | null {
  const move = latestMove(state, bit);
  return move !== null && move.edge === state.edge ? move : null;
}

/** `bit` goes over once, after `cause` and one of its own delays. */
export function goOver(state: MoveState, bit: number, to: number, { between, cause, delay, isExact }: Step): void {
  const { events } = state;
  const [earliest, latest] = between ?? [events.min[cause], events.max[cause]];
  addMove(state, bit, to, {
    first: addEvent(events, cause, earliest + delay.min[to], latest + delay.max[to]),
    isExact,
  });
}

export interface Step {
  /** What all ways to it lead through. */
  readonly cause: number;
  /** When the delay begins, ps, where that is not at the cause itself. */
  readonly between?: readonly [earliest: number, latest: number];
  readonly delay: DelayBounds;
  readonly isExact: boolean;
}

/** `bit` may move again and again between the earliest of `from` and the latest of `until`, with its own delay. */
export function smear(state: MoveState, bit: number, to: number, { delay, from, min, max }: Smear): void {
  const { events } = state;
  const fork = forkOfAll(events, from);
  // On its way it may pass the unknown, which comes after the least of the delays (IEEE 1364-2005 7.14).
  const bounds = [min + Math.min(...delay.min), max + (to > 1 ? Math.max(...delay.max) : delay.max[to])] as const;
  const first = addEvent(events, fork, ...bounds);
  addMove(state, bit, to, { first, last: addEvent(events, fork, ...bounds), isExact: false });
}

export interface Smear {
  /** All events that take part. */
  readonly from: readonly number[];
  readonly min: number;
  readonly max: number;
  readonly delay: DelayBounds;
}

/** From the earliest of some events to their latest. */
export function smearOver(
  state: MoveState,
  bit: number,
  to: number,
  from: readonly number[],
  delay: DelayBounds,
): void {
  const { events } = state;
  const min = Math.min(...from.map((event) => events.min[event]));
  const max = Math.max(...from.map((event) => events.max[event]));
  smear(state, bit, to, { from, min, max, delay });
}

function addMove(
  state: MoveState,
  bit: number,
  to: number,
  { first, isExact, last = first }: { readonly first: number; readonly last?: number; readonly isExact: boolean },
): void {
  const own = movesOf(state, bit);
  const before = own[own.length - 1] as Move | undefined;
  const found: Move = {
    edge: state.edge,
    from: state.level[bit] as Level,
    to: to as Level,
    first,
    last,
    isSmear: last !== first,
    isExact,
  };
  const isOpen = before !== undefined && !isBefore(state.events, before.last, first);
  own.push(isOpen ? joined(state, before, found) : found);
  state.touched[state.edge].push(bit);
}

/** What the root edge before has begun may not have ended: both are one smear. */
function joined({ events }: MoveState, before: Move, found: Move): Move {
  const fork = forkOfAll(events, [before.first, found.first]);
  const min = Math.min(events.min[before.first], events.min[found.first]);
  const max = Math.max(events.max[before.last], events.max[found.last]);
  const first = addEvent(events, fork, min, max);
  return {
    ...found,
    from: before.from,
    first,
    last: addEvent(events, fork, min, max),
    isSmear: true,
    isExact: false,
  };
}

export function openEdge(state: MoveState): void {
  state.edge += 1;
  state.touched[state.edge] = [];
}

/** This root edge is done: what it has moved holds its new level. */
export function closeEdge({ edge, level, moves, touched }: MoveState): void {
  for (const bit of touched[edge]) {
    const own = moves[bit] as Move[];
    level[bit] = own[own.length - 1].to;
  }
}

/** Takes back everything from a root edge on, so that it can be followed again. */
export function takeBack(state: MoveState, edge: number): void {
  const { level, moves, touched } = state;
  for (; state.edge >= edge; state.edge--) {
    for (const bit of touched[state.edge]) {
      const own = moves[bit] as Move[];
      const { from } = own.pop() as Move;
      level[bit] = own.length === 0 ? from : own[own.length - 1].to;
    }
    touched.pop();
  }
  state.captures = state.captures.filter((capture) => capture.edge < edge);
}
