// What must be known to time one signal after one root clock's edges: its function, the variables it hears, and
// everything that triggers them, causes first. Found once per signal; `glitch-forest.ts` then times each transition.

import type { DirectionalDelay } from '../delays/delay-set';
import { zeroDelay } from '../delays/triple';
import { GateKind, gateOf, type Literal, not } from './glitch-gates';
import type { Cone } from './glitch-cone';
import { columnsOf, type Part, supportOf, type Workshop } from './glitch-parts';

export interface Scene {
  readonly workshop: Workshop;
  readonly root: number;
  readonly part: (variable: number) => Part;
  /** The signal, or what its last cell follows. */
  readonly target: Literal;
  /** Delay of that last cell, none where there is none. */
  readonly inertia: DirectionalDelay;
  /** Variables of the target. */
  readonly observed: readonly number[];
  /** `observed` and all that triggers them: causes before what follows them. */
  readonly actors: readonly number[];
  /** A trigger hangs on its own output, or an actor is a latch that is fed by itself: no order of actors exists. */
  readonly isKnotted: boolean;
}

/** `literal`: the signal's. `root`: index in the network's roots. */
export function createScene(
  workshop: Workshop,
  root: number,
  part: (variable: number) => Part,
  literal: Literal,
): Scene {
  const { target, inertia } = behindLastCell(workshop, part, literal);
  const observed = supportOf(workshop, target);
  return { workshop, root, part, target, inertia, observed, ...orderActors(workshop, part, observed) };
}

/** What a variable follows: a change of one of these can change it. Controls are told apart by `controlsOf`. */
export function triggersOf(workshop: Workshop, part: Part): readonly number[] {
  switch (part.kind) {
    case 'cell':
      return supportOf(workshop, part.follows);
    case 'register':
      return supportOf(workshop, part.trigger);
    case 'latch':
      return joined(supportOf(workshop, part.trigger), supportOf(workshop, part.data));
    default:
      return [];
  }
}

export function controlsOf(workshop: Workshop, part: Part): readonly number[] {
  if (part.kind !== 'register' && part.kind !== 'latch') return [];
  return part.controls.map(({ active }) => supportOf(workshop, active)).reduce(joined, []);
}

function behindLastCell(
  { logic }: Workshop,
  part: (variable: number) => Part,
  literal: Literal,
): Pick<Scene, 'target' | 'inertia'> {
  const gate = gateOf(literal);
  const last = logic.gates.kind[gate] === GateKind.variable ? part(logic.gates.a[gate]) : null;
  if (last === null || last.kind !== 'cell') return { target: literal, inertia: zeroDelay };
  if ((literal & 1) === 0) return { target: last.follows, inertia: last.delay };
  return { target: not(last.follows), inertia: { rise: last.delay.fall, fall: last.delay.rise } };
}

function orderActors(
  workshop: Workshop,
  part: (variable: number) => Part,
  observed: readonly number[],
): Pick<Scene, 'actors' | 'isKnotted'> {
  const actors: number[] = [];
  const state = new Map<number, 'open' | 'done'>();
  const waiting = [...observed].reverse();
  let isKnotted = false;
  for (let variable = waiting.at(-1); variable !== undefined; variable = waiting.at(-1)) {
    const known = state.get(variable);
    if (known !== undefined) {
      waiting.pop();
      if (known === 'open') {
        state.set(variable, 'done');
        actors.push(variable);
        // Controls need no order: those that change are not timed here.
        waiting.unshift(...controlsOf(workshop, part(variable)).filter((control) => !state.has(control)));
      }
      continue;
    }
    state.set(variable, 'open');
    for (const trigger of triggersOf(workshop, part(variable))) {
      if (state.get(trigger) === 'open') isKnotted = true;
      else if (!state.has(trigger)) waiting.push(trigger);
    }
  }
  return { actors, isKnotted };
}

function joined(left: readonly number[], right: readonly number[]): readonly number[] {
  if (left.length === 0) return right;
  return right.length === 0 ? left : [...new Set([...left, ...right])].sort((one, other) => one - other);
}

/** Whether even a single change can make it pulse: it comes out of an operator of unknown structure. */
export function isVague(scene: Scene): boolean {
  if (scene.observed.some((variable) => scene.part(variable).kind === 'opaque')) return true;
  return targetCone(scene).hasMarks;
}

/** How many of a scene's sources move at least where it can pulse. */
export function leastMoving(scene: Scene): number {
  return isVague(scene) ? 1 : 2;
}

export function targetCone({ workshop, target }: Scene): Cone {
  return columnsOf(workshop, target);
}
