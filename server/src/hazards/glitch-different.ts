// How many different transitions a signal can be shown at most while register bits are followed in lockstep: once it
// has been shown them all, following on tells nothing new.

import type { Scene } from './glitch-scene';
import { leastMoving } from './glitch-scene';
import { sourcesOf } from './glitch-sources';
import type { Journey } from './glitch-states';

/** Counted by the levels of the scene's actors: bits that are followed take both levels before and after, chosen ones stay. */
export function mostDifferent({ extent, inputs }: Journey, scene: Scene): number {
  const followed = new Set(extent.state);
  const chosen = new Set(inputs.choices.map(({ variable }) => variable));
  const sources = sourcesOf(scene);
  const moving = sources.filter((variable) => followed.has(variable)).length;
  const beside = scene.actors.filter((variable) => followed.has(variable) && !sources.includes(variable)).length;
  const still = scene.actors.filter((variable) => chosen.has(variable)).length;
  const clocks = sources.filter((variable) => scene.part(variable).kind === 'root').length;
  return movesOf(moving, leastMoving(scene) - clocks) * 4 ** beside * 2 ** still;
}

/** Ways in which so many bits change, at least `fewest` of them: each stays at one of two levels or leaves it. */
function movesOf(bits: number, fewest: number): number {
  let ways = 0;
  let chosen = 1;
  for (let count = 0; count <= bits; count++) {
    if (count >= fewest) ways += chosen;
    chosen = (chosen * (bits - count)) / (count + 1);
  }
  return ways * 2 ** bits;
}
