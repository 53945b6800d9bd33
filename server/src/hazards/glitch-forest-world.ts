// The orders of a forest's changes (`glitch-forest.ts`) as a world to try (`glitch-orders.ts`): the changes that the
// signal hears happen one by one; those in between only bind their times.

import type { TimedForest } from './glitch-case';
import { mayOf, type Transition } from './glitch-forest';
import type { Upcoming, World } from './glitch-orders';
import { supportOf } from './glitch-parts';
import { type Scene, targetCone } from './glitch-scene';
import { May, mayBe, settledLevel } from './glitch-value';

/** Which of the observed events have happened, in ascending order. */
export type Happened = readonly number[];

/** `observed`: events that the target hears, as indices of the forest. */
export function forestWorld(
  scene: Scene,
  transition: Transition,
  timed: TimedForest,
  observed: readonly number[],
): World<Happened> {
  const following = new Map<number | null, Upcoming[]>();
  for (const event of observed) {
    const cause = observedCause(timed, new Set(observed), event);
    following.set(cause, [...(following.get(cause) ?? []), { key: event, when: event + 1 }]);
  }
  const known = new Map<string, number>();
  const mayAt = (happened: Happened, marks: 'pass' | 'blur'): number => {
    const key = `${marks}${happened.join()}`;
    const found = known.get(key) ?? valueAt(scene, transition, timed, happened, marks);
    known.set(key, found);
    return found;
  };
  return {
    start: [],
    times: timed.times,
    first: following.get(null) ?? [],
    fire: (happened, event) => ({
      state: [...happened, event].sort((left, right) => left - right),
      upcoming: following.get(event) ?? [],
      cancelled: [],
    }),
    levelOf: (happened) => settledLevel(mayAt(happened, 'pass')),
    mayPulse: (happened) => happened.length > 0 && settledLevel(mayAt(happened, 'blur')) === null,
  };
}

function observedCause({ forest }: TimedForest, observed: ReadonlySet<number>, event: number): number | null {
  let { cause } = forest[event];
  while (cause !== null && !observed.has(cause)) cause = forest[cause].cause;
  return cause;
}

function valueAt(
  scene: Scene,
  transition: Transition,
  { forest }: TimedForest,
  happened: Happened,
  marks: 'pass' | 'blur',
): number {
  const changed = new Set(happened.map((event) => forest[event].variable));
  const may = (variable: number): number => {
    const part = scene.part(variable);
    if (part.kind === 'opaque') {
      const heard = part.hears.flatMap((literal) => supportOf(scene.workshop, literal));
      return mayOfOpaque(transition, variable, movedShare(transition, heard, changed), marks);
    }
    return changed.has(variable)
      ? mayOf(transition.after[variable]) | May.haveMoved
      : mayOf(transition.before[variable]);
  };
  return mayBe(targetCone(scene), { may, marks });
}

/** How much of what an opaque operator hears has changed already. */
function movedShare({ before, after }: Transition, heard: readonly number[], changed: ReadonlySet<number>) {
  const movers = heard.filter((variable) => before[variable] !== after[variable]);
  const done = movers.filter((variable) => changed.has(variable));
  return done.length === 0 ? 'none' : done.length === movers.length ? 'all' : 'some';
}

function mayOfOpaque(
  { before, after }: Transition,
  variable: number,
  share: 'none' | 'some' | 'all',
  marks: 'pass' | 'blur',
): number {
  if (share === 'none') return mayOf(before[variable]);
  const isSettled = share === 'all' && marks === 'pass';
  return (isSettled ? mayOf(after[variable]) : May.beZero | May.beOne) | May.haveMoved;
}
