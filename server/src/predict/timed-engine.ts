// The timed run: what every bit of a netlist does under a drive and a delay set, event by event, each change with its
// cause. Four-state, inertial where the hardware is, honest about races: a sample that hangs on an order which nothing
// fixes is unknown. Follows the project's definitions 13, 15, 16, 19, 22, 25, 28, 30 and 34. Words of memories are not
// followed: they read x. Typical delays unless asked otherwise; bounds over corners are not this engine's matter.

import type { Limits } from '../budget';
import type { ClockNetwork } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import type { Corner } from '../delays/triple';
import { type Netlist, type NodeId, withOwnContents } from '../netlist/netlist';
import type { Drive } from './drive';
import { createClockEdges } from './drive-edges';
import { createInputEdges, type InputEdges } from './drive-moves';
import { denseOf } from './engine-bits';
import { relationsOf } from './engine-crossing';
import { finishWaves } from './engine-log';
import { releaseSlot } from './engine-pending';
import { createPlan } from './engine-plan';
import { applyChange, settle } from './engine-settle';
import { computeStart } from './engine-start';
import { createState, type EngineState } from './engine-state';
import { reviewSamples, updateUnits } from './engine-storage';
import type { StartSetting } from './start-level';
import { ChangeKind, type Waves } from './waves';

export interface TimedRun {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly drive: Drive;
  readonly delaySet: DelaySet;
  /** ps, at most 2^53 - 1: everything before this instant is predicted. */
  readonly until: number;
  readonly limits: Limits;
  /** Which value of each triple all delays take; typ if not given. */
  readonly triple?: Corner;
  /** For stored bits whose start the text does not give. */
  readonly start: StartSetting;
  /** Decides samples between unrelated clocks whose order nothing fixes (definition 31); 1 if not given. */
  readonly seed?: number;
}

/** Yields after a fixed count of work, so that a caller can pause or leave. */
export function* predictWaves(asked: TimedRun): Generator<void, Waves> {
  const run = { ...asked, netlist: withOwnContents(asked.netlist) };
  const { netlist, until, limits, triple: corner = 'typ' } = run;
  const plan = yield* createPlan({ ...run, corner });
  const start = yield* computeStart(run, plan);
  const state = createState(netlist, plan, start, {
    relations: relationsOf(run.network, run.drive, plan.bits),
    seed: run.seed ?? 1,
  });
  yield;
  const driven = scheduleDrive(state, run.drive);
  let cut: Waves['cut'] = null;
  let yieldAt = changesPerTurn;
  while (cut === null) {
    const time = state.queue.nextTime();
    if (time < 0 || time >= until) break;
    cut = runInstant(state, time, driven, limits);
    if (state.work < yieldAt) continue;
    yieldAt = state.work + changesPerTurn;
    yield;
  }
  const { log, doubts } = state;
  return finishWaves({ netlist, end: cut?.at ?? until, log, bits: plan.bits, start, cut, doubts });
}

const changesPerTurn = 20_000;

/** What moves again and again, by its dense bit, which is also its slot. */
type Driven = ReadonlyMap<number, InputEdges>;

function scheduleDrive(state: EngineState, drive: Drive): Driven {
  const { bits } = state.plan;
  const driven = new Map<number, InputEdges>();
  for (const clock of drive.clocks) driven.set(denseOf(bits, clock.bit), createClockEdges(clock));
  const resets = new Set(drive.resets.map(({ bit }) => denseOf(bits, bit)));
  for (const { moves, signal, value } of drive.inputs) {
    const node = state.netlist.signals[signal].node;
    for (let bit = 0; moves !== null && bit < value.width; bit++) {
      const slot = denseOf(bits, { node, bit });
      // Of a vector some bits may be clocks or resets: they are driven as such.
      if (!driven.has(slot) && !resets.has(slot)) driven.set(slot, createInputEdges(moves, bit));
    }
  }
  for (const [slot, edges] of driven) scheduleNext(state, edges, slot);
  for (const { bit, active, release } of drive.resets) {
    if (release > 0) scheduleDriven(state, denseOf(bits, bit), active === 'high' ? 0 : 1, release);
  }
  return driven;
}

function scheduleNext(state: EngineState, edges: InputEdges, slot: number): void {
  if (edges.time !== null) scheduleDriven(state, slot, edges.level, edges.time);
}

function scheduleDriven(state: EngineState, bit: number, level: number, time: number): void {
  const { slots, queue } = state;
  slots.level[bit] = level;
  slots.cause[bit] = -1;
  slots.kind[bit] = ChangeKind.drive;
  queue.schedule(bit, time);
}

/** All steps of one instant; the limit that ended it, or null where it came to rest. */
function runInstant(state: EngineState, time: number, driven: Driven, limits: Limits): Waves['cut'] {
  state.now = time;
  state.instantStart = state.log.count;
  state.samples.length = 0;
  state.step++;
  const doubtCount = state.doubts.length;
  takeDue(state, driven);
  let steps = 0;
  do {
    steps += Math.max(1, settle(state, limits.instantSteps - steps));
    if (steps >= limits.instantSteps) return abandon(state, 'instantSteps', doubtCount);
    updateUnits(state);
    if (state.log.count > limits.changes) return abandon(state, 'changes', doubtCount);
    state.step++;
    if (state.immediate.count === 0) reviewSamples(state);
  } while (takeImmediate(state));
  closeInstant(state);
  return null;
}

/** Everything scheduled for now, at once. */
function takeDue(state: EngineState, driven: Driven): void {
  const { queue, slots, now } = state;
  const ownSlots = state.plan.bits.count;
  while (queue.nextTime() === now) {
    const slot = queue.take();
    applyChange(state, slots.bit[slot], slots.level[slot], slots.cause[slot], slots.kind[slot]);
    if (slot >= ownSlots) releaseSlot(state, slot);
    else if (slots.kind[slot] === ChangeKind.drive) scheduleNextEdge(state, driven, slot);
  }
}

function scheduleNextEdge(state: EngineState, driven: Driven, slot: number): void {
  const edges = driven.get(slot);
  if (edges === undefined) return;
  edges.advance();
  scheduleNext(state, edges, slot);
}

/** The changes without delay that the last step has made; false where there are none. */
function takeImmediate(state: EngineState): boolean {
  const { immediate } = state;
  const { count, bit, level, cause, kind } = immediate;
  immediate.count = 0;
  for (let index = 0; index < count; index++) {
    applyChange(state, bit[index], level[index], cause[index], kind[index]);
  }
  return count > 0;
}

function closeInstant(state: EngineState): void {
  const { log, level, prior, instantStart } = state;
  for (let change = instantStart; change < log.count; change++) prior[log.bit[change]] = level[log.bit[change]];
  state.work += 1 + log.count - instantStart;
}

/** Ends the run before this instant, which is not complete. */
function abandon(state: EngineState, limit: 'changes' | 'instantSteps', doubtCount: number): Waves['cut'] {
  const { log, instantStart, doubts } = state;
  const nodes = limit === 'instantSteps' ? movingNodes(state) : [];
  log.cutTo(instantStart);
  doubts.length = doubtCount;
  return { limit, at: state.now, nodes };
}

/** Nodes that changed again and again in the last steps of an instant that does not come to rest, ascending. */
function movingNodes(state: EngineState): NodeId[] {
  const { log, plan, instantStart } = state;
  const from = Math.max(instantStart, log.count - lastChangesShown);
  const seen = new Set<number>();
  const nodes = new Set<number>();
  for (let change = from; change < log.count; change++) {
    const bit = log.bit[change];
    if (seen.has(bit)) nodes.add(plan.bits.nodeOf[bit]);
    seen.add(bit);
  }
  return [...nodes].sort((left, right) => left - right) as NodeId[];
}

/** Changes looked at to say which nodes oscillate: enough to go round a loop. */
const lastChangesShown = 4096;
