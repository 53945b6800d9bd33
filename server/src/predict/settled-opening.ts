// What the drive does before it comes to rest: resets that are released, inputs that move as a person states. The clock
// ticks on meanwhile. What never comes to rest, or so late that a run cannot wait for it, has no sequence of its own.

import type { Limits } from '../budget';
import type { Why } from '../clocks/network';
import type { Drive, DriveClock } from './drive';
import { createClockEdges } from './drive-edges';
import { advance, setSource } from './settled';
import { type InputNodes, isHeard, setReset, tick } from './settled-drive';
import type { SettledMachine } from './settled-machine';
import type { SettledPlan } from './settled-plan';

export interface OpeningContext {
  readonly drive: Drive;
  readonly inputs: InputNodes;
  readonly limits: Limits;
}

/** One thing that the drive does, at ps. */
export interface OpeningEvent {
  readonly at: number;
  apply(machine: SettledMachine): void;
}

/** In the order in which they happen, of what the plan hears; else why there is no end of them. */
export function openingOf(
  { drive, inputs, limits }: OpeningContext,
  plan: SettledPlan,
  clock: DriveClock,
): readonly OpeningEvent[] | Why {
  const resets = drive.resets.filter(({ bit }) => isHeard(plan, bit));
  const events: OpeningEvent[] = resets.map((reset) => ({
    at: reset.release,
    apply: (machine) => setReset(machine, reset, 'released'),
  }));
  for (const { moves, name, signal } of drive.inputs) {
    const node = inputs.get(signal);
    if (moves === null || node === undefined || plan.positionOf[node] < 0) continue;
    if (moves.everyPs !== null) return { reason: 'input-repeats', args: { input: name } };
    for (const { at, value } of moves.changes) events.push({ at, apply: (machine) => setSource(machine, node, value) });
  }
  events.sort((left, right) => left.at - right.at);
  const periods = (events[events.length - 1]?.at ?? 0) / clock.period;
  return periods > limits.period ? { reason: 'input-late', args: { limit: limits.period } } : events;
}

/** Lets the clock tick while the drive is not at rest; the level at which the clock then rests. */
export function* playOpening(
  machine: SettledMachine,
  events: readonly OpeningEvent[],
  clock: DriveClock,
): Generator<void, 0 | 1> {
  const edges = createClockEdges(clock);
  let level = edges.startLevel;
  for (const { at, apply } of events) {
    for (; edges.time < at; edges.advance()) {
      level = edges.level;
      tick(machine, clock, level);
      yield;
    }
    apply(machine);
    advance(machine);
  }
  return level;
}
