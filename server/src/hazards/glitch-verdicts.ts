// Verdicts kept for signals of one shape (`glitch-shape.ts`), so that what one of them was judged for is not judged
// again for the others. Kept as far as there is room; beyond that each is judged on its own.

import type { Limits } from '../budget';
import type { Transition } from './glitch-forest';
import { type Key, keyOf } from './glitch-key';
import type { LastTimed } from './glitch-last-timed';
import type { Scene } from './glitch-scene';
import { shapeOf } from './glitch-shape';
import { type Judgement, judgeTransition } from './glitch-verdict';

export interface Verdicts {
  /** By shape and limit, then by levels. */
  readonly byShape: Map<string, Map<Key, Judgement | null>>;
  room: number;
  readonly lastTimed: LastTimed;
}

const mostKept = 262_144;

export function createVerdicts(): Verdicts {
  return { byShape: new Map(), room: mostKept, lastTimed: { value: null } };
}

/** Judges the transitions of a scene. */
export function createVerdictOf(
  verdicts: Verdicts,
  scene: Scene,
  limits: Limits,
): (transition: Transition) => Judgement | null {
  let own: Map<Key, Judgement | null> | null = null;
  return (transition) => {
    own ??= verdictsOfShape(verdicts, scene, limits);
    const key = keyOf(transition, scene.actors);
    const known = own.get(key);
    if (known !== undefined) return known;
    const judgement = judgeTransition(scene, transition, limits, verdicts.lastTimed);
    const isShared = judgement === null || judgement.hangsOn === 'actors';
    if (isShared && transition.restless.size === 0 && verdicts.room > 0) {
      verdicts.room -= 1;
      own.set(key, judgement);
    }
    return judgement;
  };
}

/** How many orders are tried hangs on the limit on states. */
function verdictsOfShape({ byShape }: Verdicts, scene: Scene, { states }: Limits): Map<Key, Judgement | null> {
  const shape = `${states}\n${shapeOf(scene)}`;
  const known = byShape.get(shape) ?? new Map<Key, Judgement | null>();
  byShape.set(shape, known);
  return known;
}
