// The one run in which every delay is typical. Changes at one instant are taken together: what lies between them has no
// width and is not shown.

import type { DirectionalDelay } from '../delays/delay-set';
import type { Upcoming, World } from './glitch-orders';
import { type Level, runThrough, type Wave } from './glitch-wave';

export interface Pass {
  /** ps after the root edge */
  readonly at: number;
  readonly level: Level;
}

/** Changes of the signal behind its inertial delay. `typicalAt`: when the world's own instants come. */
export function typicalRun<State>(
  world: World<State>,
  typicalAt: (instant: number) => number,
  inertia: DirectionalDelay,
): readonly Pass[] {
  let { start: state } = world;
  let coming = withUpcoming([], world.first, 0, typicalAt);
  const first = world.levelOf(state) ?? 0;
  let level: Level = first;
  const changes: number[] = [];
  for (let steps = 0; coming.length > 0 && steps < mostSteps; steps++) {
    const next = coming.reduce((first, other) => (other.at < first.at ? other : first));
    const now = next.at;
    const { state: after, upcoming, cancelled } = world.fire(state, next.key);
    const gone = new Set([next.key, ...cancelled, ...upcoming.map(({ key }) => key)]);
    state = after;
    coming = withUpcoming(
      coming.filter(({ key }) => !gone.has(key)),
      upcoming,
      now,
      typicalAt,
    );
    if (coming.some(({ at }) => at === now)) continue;
    const settled = world.levelOf(state) ?? level;
    if (settled !== level) changes.push(now);
    level = settled;
  }
  return shown(first, changes, inertia);
}

/** An oscillation ends here; what it has shown so far is shown. */
const mostSteps = 1000;

interface Coming {
  readonly key: number;
  readonly at: number;
}

function withUpcoming(
  coming: readonly Coming[],
  upcoming: readonly Upcoming[],
  now: number,
  typicalAt: (instant: number) => number,
): readonly Coming[] {
  const added = upcoming.map(({ key, when }) => ({
    key,
    at: typeof when === 'number' ? typicalAt(when) : now + when.typ,
  }));
  return [...coming, ...added];
}

function shown(first: Level, at: readonly number[], { rise, fall }: DirectionalDelay): readonly Pass[] {
  const wave: Wave = { first, instants: at.map((_, index) => index) };
  return runThrough(wave, at, { rise: rise.typ, fall: fall.typ });
}

/** The widest level that is one too many, ps; 0 where none is. */
export function widestExtra(passes: readonly Pass[]): number {
  let widest = 0;
  for (let index = 1; index < passes.length; index++) {
    const isExtra = passes.length % 2 === 1 || index % 2 === 1;
    if (isExtra) widest = Math.max(widest, passes[index].at - passes[index - 1].at);
  }
  return widest;
}
