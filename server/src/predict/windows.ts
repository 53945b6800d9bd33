// Windows: for every bit after every root edge of a run the earliest and the latest instant at which it may change with
// any choice of delays inside the triples, and whether it can change more than once (definitions 21 and 32). Each cell
// has one delay per direction; what two ways share cancels. Where a bit goes over once in every order, both ends are
// reached (`exact`); else the window contains every run and may be wider than needed. The drive, and what registers take
// where the order is fixed, are the typical run's; where some order takes another value, it is unknown from there.
// Left out: where a root edge comes before all that an earlier one moves has closed, no window is called exact, and not
// every choice of delays is proven to lie inside; what late clocks and data of different edges do is followed in part.

import type { Bit } from '../netlist/netlist';
import { denseOf } from './engine-bits';
import type { PlanInput } from './engine-plan';
import { addEvent, createEvents } from './window-events';
import { moveCell } from './window-cell';
import { changeBounds, type ChangeBounds, moveByRun } from './window-loop';
import { closeEdge, type Move, type MoveState, movesOf, openEdge, takeBack } from './window-moves';
import { createWindowPlan, type DelayBounds, heardAtOnce, type WindowPlan } from './window-plan';
import { createRankQueue } from './window-queue';
import { moveUnit, samplesToForce } from './window-unit';
import { ChangeKind, type Level, type Waves } from './waves';
import { originsOf } from './wave-query';

export interface Window {
  /** ps: the earliest and the latest instant of a change. */
  readonly from: number;
  readonly to: number;
  /** ps: the root edge, or the change of an input, that it follows. */
  readonly rootEdge: number;
  readonly before: Level;
  readonly after: Level;
  /** `many`: it may also come and go, or not move at all. */
  readonly moves: 'once' | 'many';
  readonly exact: boolean;
}

export interface Windows {
  /** In the order of the root edges; empty where it never moves. */
  of(bit: Bit): readonly Window[];
}

export interface WindowsInput extends Omit<PlanInput, 'corner'> {
  /** Of the typical run. */
  readonly waves: Waves;
}

/** Yields after a fixed count of work. */
export function* findWindows(asked: WindowsInput): Generator<void, Windows> {
  const { waves } = asked;
  const input = { ...asked, netlist: waves.netlist };
  const plan = yield* createWindowPlan(input);
  const state = startOf(plan, waves);
  const edges = edgesOf(waves);
  const follow = { input, state, bounds: changeBounds(waves, delayOfChange(plan)), edges, forced: new Map() };
  let work = 0;
  while (state.edge + 1 < edges.length) {
    work += followEdge(follow);
    if (work < workPerTurn) continue;
    work = 0;
    yield;
  }
  const { events, moves } = state;
  const isCalm = calmEdges(state, edges);
  const known = new Map<number, readonly Window[]>();
  return {
    of(bit) {
      const dense = denseOf(plan.bits, bit);
      const found = known.get(dense) ?? (moves[dense] ?? []).map((move) => windowOf(move));
      known.set(dense, found);
      return found;
    },
  };

  function windowOf({ edge, first, from, isExact, isSmear, last, to }: Move): Window {
    return {
      from: events.min[first],
      to: events.max[last],
      rootEdge: edges[edge].time,
      before: from,
      after: to,
      moves: isSmear ? 'many' : 'once',
      exact: isExact && isCalm[edge],
    };
  }
}

/** Root edges that begin after everything before has closed, and close before the next one begins. */
function calmEdges({ events, moves }: MoveState, edges: readonly RootEdge[]): readonly boolean[] {
  const closes = edges.map(({ time }) => time);
  for (const own of moves)
    for (const { edge, last } of own ?? []) closes[edge] = Math.max(closes[edge], events.max[last]);
  let before = 0;
  return edges.map(({ time }, edge) => {
    const next = edges[edge + 1]?.time ?? Number.POSITIVE_INFINITY;
    const isCalm = (edge === 0 || before < time) && closes[edge] < next;
    before = Math.max(before, closes[edge]);
    return isCalm;
  });
}

const workPerTurn = 2_000;

interface Follow {
  readonly input: WindowsInput;
  readonly state: MoveState;
  readonly bounds: ChangeBounds;
  readonly edges: readonly RootEdge[];
  /** By root edge and dense bit: samples that are not what the typical run took. */
  readonly forced: Map<number, Map<number, number>>;
}

function startOf(plan: WindowPlan, waves: Waves): MoveState {
  const { bits } = plan;
  const level = new Uint8Array(bits.count);
  for (let dense = 0; dense < bits.count; dense++)
    level[dense] =
      dense < 4 ? dense : waves.startOf({ node: bits.nodeOf[dense] as Bit['node'], bit: bits.bitOf[dense] });
  return { plan, events: createEvents(), moves: [], level, edge: -1, touched: [], captures: [] };
}

function delayOfChange(plan: WindowPlan): (node: number, bit: number, kind: number) => DelayBounds {
  const unitOf = new Map(plan.units.map(({ node }, unit) => [node as number, unit] as const));
  return (node, bit, kind) => {
    const unit = unitOf.get(node);
    if (unit !== undefined) return kind === ChangeKind.asynchronous ? plan.clearDelays(unit) : plan.unitDelays(unit);
    return plan.cellDelays(plan.cells.driverOf[plan.bits.base[node] + bit]);
  };
}

/** Everything that one instant of the drive sets off. */
interface RootEdge {
  readonly time: number;
  readonly changes: number[];
}

function edgesOf(waves: Waves): readonly RootEdge[] {
  const { count, time } = waves.changes;
  const origins = originsOf(waves);
  const byTime = new Map<number, RootEdge>();
  for (let change = 0; change < count; change++) {
    const at = time[origins[change]];
    const edge = byTime.get(at) ?? { time: at, changes: [] };
    byTime.set(at, edge);
    edge.changes.push(change);
  }
  return [...byTime.values()].sort((left, right) => left.time - right.time);
}

/** Follows the next root edge, or goes back to one whose samples turn out to hang on an order. Gives how much was done. */
function followEdge({ bounds, edges, forced, input, state }: Follow): number {
  openEdge(state);
  const edge = edges[state.edge];
  const typical = new Map<number, number>();
  const byBit = new Map<number, number[]>();
  const { bit, node, value } = input.waves.changes;
  for (const change of edge.changes) {
    const dense = state.plan.bits.base[node[change]] + bit[change];
    typical.set(dense, value[change]);
    const own = byBit.get(dense) ?? [];
    byBit.set(dense, own);
    own.push(change);
  }
  const own = forced.get(state.edge) ?? new Map<number, number>();
  const moved = moveAll({ bounds, input, state }, edge, { typical, byBit, forced: own });
  closeEdge(state);
  reviewCaptures(state, edge.time, forced);
  return edge.changes.length + moved;
}

/** Data may move before a late clock, or within its hold time, by a root edge that comes after the clock's own. */
function reviewCaptures(state: MoveState, now: number, forced: Follow['forced']): void {
  const { events, plan } = state;
  let back = Number.POSITIVE_INFINITY;
  for (const capture of state.captures) {
    const known = forced.get(capture.edge) ?? new Map<number, number>();
    for (const [bit, level] of samplesToForce(state, capture)) {
      const before = known.get(bit);
      if (before === level || before === 3) continue;
      forced.set(capture.edge, known.set(bit, before === undefined ? level : 3));
      back = Math.min(back, capture.edge);
    }
  }
  state.captures = state.captures.filter(({ clock, unit }) => events.max[clock] + plan.limits[unit].hold >= now);
  if (back <= state.edge) takeBack(state, back);
}

interface EdgeRun {
  readonly typical: ReadonlyMap<number, number>;
  readonly byBit: ReadonlyMap<number, readonly number[]>;
  readonly forced: ReadonlyMap<number, number>;
}

/** Element after element in their order; gives how many. */
function moveAll(
  { bounds, input, state }: Pick<Follow, 'bounds' | 'input' | 'state'>,
  edge: RootEdge,
  { byBit, forced, typical }: EdgeRun,
): number {
  const { plan } = state;
  const { cells } = plan;
  const { waves } = input;
  const root = addEvent(state.events, 0, edge.time, edge.time);
  const queue = createRankQueue(plan.rank);
  const touched = state.touched[state.edge];
  let seen = 0;
  let done = 0;
  for (const change of edge.changes) {
    if (waves.changes.cause[change] >= 0) continue;
    const dense = plan.bits.base[waves.changes.node[change]] + waves.changes.bit[change];
    movesOf(state, dense).push(driven(state, dense, waves.changes.value[change] as Level, root));
    touched.push(dense);
  }
  pushReaders();
  for (let element = queue.take(); element >= 0; element = queue.take()) {
    const unit = element - cells.count;
    done++;
    if (plan.isLooped[element] === 1) followLoop(element);
    else if (unit < 0) moveCell(state, input.netlist, element);
    else moveUnit(state, unit, { typical, forced });
    pushReaders();
  }
  return done;

  function pushReaders(): void {
    for (; seen < touched.length; seen++) {
      const dense = touched[seen];
      const { first, items } = plan.readers;
      for (let entry = first[dense]; entry < first[dense + 1]; entry++) queue.add(items[entry]);
      for (const unit of heardAtOnce(plan, dense)) queue.add(cells.count + unit);
    }
  }

  function followLoop(element: number): void {
    const unit = element - cells.count;
    const { base, width } = unit < 0 ? { base: cells.out[element], width: cells.width[element] } : plan.units[unit];
    for (let dense = base; dense < base + width; dense++)
      moveByRun(state, dense, byBit.get(dense) ?? [], { bounds, waves, root });
  }
}

function driven({ edge, level }: MoveState, bit: number, to: Level, root: number): Move {
  return { edge, from: level[bit] as Level, to, first: root, last: root, isSmear: false, isExact: true };
}
