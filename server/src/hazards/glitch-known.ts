// Which transitions of a signal have been judged, so that none is judged twice. A verdict follows from the levels of the
// scene's actors, or, where those do not tell what follows what, from everything that they sample as well; a transition
// is known again by the levels that its verdict hangs on.

import type { Transition } from './glitch-forest';
import { recordedOf } from './glitch-groups';
import type { Scene } from './glitch-scene';
import { type Key, keyOf } from './glitch-key';
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
