// Which transitions of a signal have been judged, so that none is judged twice. A verdict follows from the levels of the
// scene's actors, or, where those do not tell what follows what, from everything that they sample as well; a transition
// is known again by the levels that its verdict hangs on.

import type { Transition } from './glitch-forest';
import { recordedOf } from './glitch-groups';
import type { Scene } from './glitch-scene';
import type { Judgement } from './glitch-verdict';

export interface KnownTransitions {
  has(transition: Transition): boolean;
  /** Whether whatever the actors sample. */
  hasByActors(transition: Transition): boolean;
  add(transition: Transition, hangsOn: Judgement['hangsOn']): void;
  count(): number;
}

export function createKnown(scene: Scene): KnownTransitions {
  const byActors = new Set<Key>();
  /** Actors' levels that do not decide. */
  const open = new Set<Key>();
  const bySamples = new Set<Key>();
  let recorded: readonly number[] | null = null;
  const sampled = (transition: Transition): Key => {
    recorded ??= recordedOf(scene);
    return keyOf(transition, recorded);
  };
  return {
    has(transition) {
      const key = keyOf(transition, scene.actors);
      return byActors.has(key) || (open.has(key) && bySamples.has(sampled(transition)));
    },
    hasByActors: (transition) => byActors.has(keyOf(transition, scene.actors)),
    add(transition, hangsOn) {
      const key = keyOf(transition, scene.actors);
      if (hangsOn === 'actors') byActors.add(key);
      else {
        open.add(key);
        bySamples.add(sampled(transition));
      }
    },
    count: () => byActors.size + bySamples.size,
  };
}

export type Key = number | string;

/** Levels take two bits each, before and after: as many variables as a whole number holds. */
const mostInNumber = 13;

/** Levels of these variables before and after, in their order. */
export function keyOf(transition: Transition, variables: readonly number[]): Key {
  const { before, after, restless } = transition;
  if (restless.size > 0 || variables.length > mostInNumber) return longKey(transition, variables);
  let key = 0;
  for (const variable of variables) key = key * 16 + before[variable] * 4 + after[variable];
  return key;
}

function longKey({ before, after, restless }: Transition, variables: readonly number[]): string {
  let key = '';
  for (const variable of variables) {
    key += digits[before[variable] * 4 + after[variable]];
    if (restless.has(variable)) key += '!';
  }
  return key;
}

const digits = '0123456789abcdef';
