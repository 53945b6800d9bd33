// What the movements of a cell's operands make of its outputs. Operands whose order is fixed are taken in that order, all
// others in every order (definitions 21 to 23): an output that no order moves is still, one that goes over once in every
// order has a window whose ends are reached, and all else is a smear. Operators whose structure nobody knows smear
// whenever an operand moves (definition 24).

import { Op } from '../netlist/operators';
import { CellKind } from './engine-cells';
import { evaluateCell } from './engine-evaluate';
import { distanceOf, forkOfAll, isBefore } from './window-events';
import { goOver, latestMove, type Move, type MoveState, movedNow, smearOver, smear, unknown } from './window-moves';
import type { Netlist } from '../netlist/netlist';

/** One way an operand goes on: over to its level, or of a smear first into the unknown and then out of it. */
interface Turn {
  readonly bit: number;
  readonly event: number;
  readonly level: number;
  readonly isExact: boolean;
  /** Of the operand: until its last turn it is not there. */
  readonly isLast: boolean;
}

export function moveCell(state: MoveState, netlist: Netlist, cell: number): void {
  const { cells } = state.plan;
  const moving = movingOperands(state, cell);
  if (moving.length === 0) return;
  const turns = moving.flatMap(([bit, move]) => turnsOf(state, bit, move));
  const view: CellView = { state, netlist, cell, turns, out: new Uint8Array(cells.width[cell]) };
  const kept = moving.map(([bit]) => state.level[bit]);
  for (const [bit, { from }] of moving) state.level[bit] = from;
  const before = evaluated(view);
  if (turns.length === 1 && isOfKnownStructure(netlist, view)) {
    state.level[turns[0].bit] = turns[0].level;
    const after = evaluated(view);
    state.level[turns[0].bit] = kept[0];
    if (moveAlone(view, before, after)) return;
    state.level[turns[0].bit] = moving[0][1].from;
  }
  const orders = isOfKnownStructure(netlist, view) ? ordersOf(view) : null;
  for (const [bit] of moving) state.level[bit] = unknown;
  const between = evaluated(view);
  for (const [bit, { to }] of moving) state.level[bit] = to;
  const after = evaluated(view);
  for (const [index, [bit]] of moving.entries()) state.level[bit] = kept[index];
  for (let bit = lowestHeard(view, before); bit < cells.width[cell]; bit++) {
    if (between[bit] !== unknown) continue;
    const [from, to] = [before[bit], after[bit]];
    if (orders === null) smearOver(state, cells.out[cell] + bit, to, eventsOf(turns), state.plan.cellDelays(cell));
    else moveOutput(view, orders, { bit, from, to });
  }
}

/** Most cells have one operand that moves, once: false where a level is unknown and more has to be looked at. */
function moveAlone({ cell, state, turns }: CellView, before: Uint8Array, after: Uint8Array): boolean {
  const { cells, paths } = state.plan;
  if (before.some((level) => level >= unknown) || after.some((level) => level >= unknown)) return false;
  const [{ event, isExact }] = turns;
  const step = { cause: event, delay: state.plan.cellDelays(cell), isExact: isExact && !paths.has(cell) };
  for (const [bit, to] of after.entries()) if (to !== before[bit]) goOver(state, cells.out[cell] + bit, to, step);
  return true;
}

interface CellView {
  readonly state: MoveState;
  readonly netlist: Netlist;
  readonly cell: number;
  readonly turns: readonly Turn[];
  readonly out: Uint8Array;
}

function evaluated({ cell, netlist, out, state }: CellView): Uint8Array {
  evaluateCell(netlist, state.plan.cells, cell, state.level, out);
  return out.slice();
}

/** What this root edge moves, and what an earlier one has begun to move and may not have ended. */
function movingOperands(state: MoveState, cell: number): [number, Move][] {
  const { arity, first, pool } = state.plan.cells;
  const { max, min } = state.events;
  const end = first[cell] + arity[cell];
  let earliest = Number.POSITIVE_INFINITY;
  for (let entry = first[cell]; entry < end; entry++) {
    const move = movedNow(state, pool[entry]);
    if (move !== null) earliest = Math.min(earliest, min[move.first]);
  }
  const found = new Map<number, Move>();
  for (let entry = first[cell]; entry < end; entry++) {
    const move = latestMove(state, pool[entry]);
    if (move !== null && (move.edge === state.edge || max[move.last] >= earliest)) found.set(pool[entry], move);
  }
  return [...found];
}

function turnsOf(state: MoveState, bit: number, { edge, first, isExact, isSmear, last, to }: Move): Turn[] {
  const end = { bit, event: last, level: to, isExact: isExact && edge === state.edge, isLast: true };
  return isSmear ? [{ bit, event: first, level: unknown, isExact: false, isLast: false }, end] : [end];
}

function eventsOf(turns: readonly Turn[]): number[] {
  return turns.map(({ event }) => event);
}

/** Equality and reductions are gates, as a case is; what adds, compares by size, shifts or looks up is not. */
function isOfKnownStructure({ nodes }: Netlist, { cell, state }: CellView): boolean {
  const { cells } = state.plan;
  if (cells.kind[cell] !== CellKind.word) return true;
  const op = nodes.op[cells.node[cell]];
  return op <= Op.notEqual;
}

/** A sum's lower bits do not hear its operands' higher ones, but that one of them is unknown they do. */
function lowestHeard({ cell, netlist, state, turns }: CellView, before: Uint8Array): number {
  const { arity, first, kind, node, pool, width } = state.plan.cells;
  const op = netlist.nodes.op[node[cell]];
  if (kind[cell] !== CellKind.word || op < Op.add || op > Op.multiply) return 0;
  if (before.some((level) => level >= 2) || turns.some(({ isLast, level }) => !isLast || level >= 2)) return 0;
  const moved = new Set(turns.map(({ bit }) => bit));
  let lowest = width[cell];
  for (let entry = 0; entry < arity[cell]; entry++)
    if (moved.has(pool[first[cell] + entry])) lowest = Math.min(lowest, entry % width[cell]);
  return lowest;
}

/** Sets of turns that some order has behind it at some instant, with the outputs then. */
interface Orders {
  readonly sets: readonly { readonly done: number; readonly out: Uint8Array }[];
  readonly byDone: ReadonlyMap<number, Uint8Array>;
}

const mostTurns = 20;
const mostSets = 256;

/** From none done to all; null where there are too many. The operands stand before their movements when called. */
function ordersOf(view: CellView): Orders | null {
  const { state, turns } = view;
  if (turns.length > mostTurns) return null;
  const needed = turns.map((turn) => earlierTurns(state, turns, turn));
  const byDone = new Map<number, Uint8Array>();
  const pending = [0];
  byDone.set(0, evaluated(view));
  for (let done = pending.pop(); done !== undefined; done = pending.pop()) {
    for (let turn = 0; turn < turns.length; turn++) {
      const next: number = done | (1 << turn);
      if (next === done || (needed[turn] & done) !== needed[turn] || byDone.has(next)) continue;
      if (byDone.size >= mostSets) return null;
      byDone.set(next, outputsWith(view, next));
      pending.push(next);
    }
  }
  return { byDone, sets: [...byDone].map(([done, out]) => ({ done, out })) };
}

function outputsWith(view: CellView, done: number): Uint8Array {
  const { level } = view.state;
  const kept = view.turns.map(({ bit }) => level[bit]);
  for (const [index, turn] of view.turns.entries()) if ((done >> index) & 1) level[turn.bit] = turn.level;
  const out = evaluated(view);
  for (const [index, turn] of view.turns.entries()) level[turn.bit] = kept[index];
  return out;
}

/** Turns that are sure to come before this one. */
function earlierTurns({ events }: MoveState, turns: readonly Turn[], turn: Turn): number {
  let earlier = 0;
  for (const [index, other] of turns.entries()) {
    if (other === turn) continue;
    const isOwnStart = other.bit === turn.bit && turn.isLast;
    if (isOwnStart || (other.bit !== turn.bit && isBefore(events, other.event, turn.event))) earlier |= 1 << index;
  }
  return earlier;
}

interface Output {
  readonly bit: number;
  readonly from: number;
  readonly to: number;
}

function moveOutput(view: CellView, orders: Orders, output: Output): void {
  const { bit, from, to } = output;
  if (orders.sets.every(({ out }) => out[bit] === from) && from < unknown) return;
  const relevant = relevantTurns(view, orders, output);
  if (relevant.length === 0 && from < unknown) return;
  const taking = relevant.length === 0 ? view.turns : relevant;
  if (from !== to && from < unknown && to < unknown && goesOverOnce(view, orders, output)) {
    overOnce(view, orders, output, taking);
    return;
  }
  const { cell, state } = view;
  const delay = state.plan.cellDelays(cell);
  if (from === to && from < 2 && isRemoved(view, taking, delay.min[1 - from])) return;
  smear(state, state.plan.cells.out[cell] + bit, to, {
    from: eventsOf(taking),
    // An unknown level may be any, and moves unseen.
    min: firstWith(view, orders, (out) => out[bit] !== from || from >= unknown),
    max: lastWith(view, orders, (out) => out[bit] !== to || to >= unknown),
    delay,
  });
}

/** Turns that change the output after some others. */
function relevantTurns({ turns }: CellView, { byDone, sets }: Orders, { bit }: Output): Turn[] {
  return turns.filter((_, turn) =>
    sets.some(({ done, out }) => {
      const next = (done >> turn) & 1 ? undefined : byDone.get(done | (1 << turn));
      return next !== undefined && (next[bit] !== out[bit] || out[bit] >= unknown);
    }),
  );
}

function goesOverOnce({ turns }: CellView, { byDone, sets }: Orders, { bit, from, to }: Output): boolean {
  return sets.every(({ done, out }) => {
    if (out[bit] !== from && out[bit] !== to) return false;
    if (out[bit] === from) return true;
    return turns.every((_, turn) => (byDone.get(done | (1 << turn)) ?? out)[bit] === to);
  });
}

/** The output is there with the first set that gives its new level: both bounds are those of all delays together. */
function overOnce(view: CellView, orders: Orders, { bit, to }: Output, relevant: readonly Turn[]): void {
  const { cell, state, turns } = view;
  const { cells } = state.plan;
  const { events } = state;
  const isExact = relevant.every((turn) => turn.isExact) && !state.plan.paths.has(cell);
  const delay = state.plan.cellDelays(cell);
  const step = (cause: number) => ({ cause, delay, isExact });
  if (relevant.length === 1) {
    goOver(state, cells.out[cell] + bit, to, step(relevant[0].event));
    return;
  }
  const there = orders.sets.filter(({ out }) => out[bit] === to);
  const bound = (times: readonly number[]) =>
    Math.min(
      ...there.map(({ done }) =>
        Math.max(...turns.map((turn, index) => ((done >> index) & 1 ? times[turn.event] : Number.NEGATIVE_INFINITY))),
      ),
    );
  const fork = forkOfAll(events, eventsOf(relevant));
  goOver(state, cells.out[cell] + bit, to, { ...step(fork), between: [bound(events.min), bound(events.max)] });
}

/** The earliest instant at which a set with these outputs is done. */
function firstWith({ state, turns }: CellView, { sets }: Orders, isMeant: (out: Uint8Array) => boolean): number {
  const times = sets
    .filter(({ out }) => isMeant(out))
    .map(({ done }) =>
      Math.max(...turns.flatMap(({ event }, turn) => ((done >> turn) & 1 ? [state.events.min[event]] : []))),
    );
  const earliest = Math.min(...turns.map(({ event }) => state.events.min[event]));
  return times.length === 0 ? earliest : Math.max(earliest, Math.min(...times));
}

/** The latest instant until which a set with these outputs may be all that is done. */
function lastWith({ state, turns }: CellView, { sets }: Orders, isMeant: (out: Uint8Array) => boolean): number {
  const times = sets
    .filter(({ out }) => isMeant(out))
    .map(({ done }) =>
      Math.min(...turns.flatMap(({ event }, turn) => ((done >> turn) & 1 ? [] : [state.events.max[event]]))),
    );
  const latest = Math.max(...turns.map(({ event }) => state.events.max[event]));
  return times.length === 0 ? latest : Math.min(latest, Math.max(...times));
}

/** A pulse that is surely shorter than the cell's delay does not come out (definition 25). */
function isRemoved({ cell, state }: CellView, taking: readonly Turn[], delay: number): boolean {
  if (state.plan.paths.has(cell)) return false;
  return taking.every((one) =>
    taking.every((other) => one === other || distanceOf(state.events, one.event, other.event).max < delay),
  );
}
