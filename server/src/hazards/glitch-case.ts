// One transition whose changes form a forest, and what judging it comes to: shared by the ways of judging.

import type { Forest, Transition } from './glitch-forest';
import type { Scene } from './glitch-scene';
import { apart, createTimes, earliestRun, follow, type Times } from './glitch-times';
import type { Verdict, Wave } from './glitch-wave';

/** The instants of a forest's events: `times` instant of event i is i + 1. */
export interface TimedForest {
  readonly forest: Forest;
  readonly times: Times;
  /** ps after the root edge with typical delays, by event. */
  readonly typical: readonly number[];
}

export function timeForest(forest: Forest): TimedForest {
  let times = createTimes(forest.length + 1);
  const typical: number[] = [];
  for (const { cause, delay } of forest) {
    times = follow(times, cause === null ? 0 : cause + 1, delay.min, delay.max);
    typical.push((cause === null ? 0 : typical[cause]) + delay.typ);
  }
  return { forest, times, typical };
}

export interface ForestCase {
  readonly scene: Scene;
  readonly transition: Transition;
  readonly timed: TimedForest;
  /** Events of variables that the target hears. */
  readonly observed: readonly number[];
}

/** What a verdict rests on: one order of the changes, or why there is none. */
export type Basis = 'order' | 'open-order' | 'unknown-structure' | 'unknown-bits' | 'not-all-tried';

export interface Found extends Verdict {
  readonly basis: Basis;
  readonly example: Example | null;
}

/** Each change of the signal, and a run: ps of every instant. */
export interface Example {
  readonly wave: Wave;
  readonly at: readonly number[];
}

/** One order of changes, by the events after which the target has a new level. */
export interface Steps {
  readonly first: 0 | 1;
  readonly changes: readonly number[];
  /** All events in this order. */
  readonly order: readonly number[];
}

/** The events in this order, as far as their bounds let them, each as early as it can be. */
export function exampleOfSteps({ times }: TimedForest, { first, order, changes }: Steps): Example {
  let bounded: Times = times;
  order.forEach((event, index) => {
    if (index > 0) bounded = apart(bounded, order[index - 1] + 1, event + 1) ?? bounded;
  });
  return { wave: { first, instants: changes.map((event) => event + 1) }, at: earliestRun(bounded) };
}
