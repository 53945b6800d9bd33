// One transition of a scene as a forest: each change follows exactly one other, or the root edge itself, after a delay
// of its own (definition 21 of the project). Null where it is not so simple: something changes twice, or has two causes
// that could make it pulse in between. Those go to `glitch-world.ts`.

import type { DelayTriple } from '../netlist/netlist';
import { zeroTriple } from '../delays/triple';
import { columnsOf, type Part, type StoredPart, supportOf } from './glitch-parts';
import { controlsOf, type Scene } from './glitch-scene';
import { May, mayBe, settledLevel } from './glitch-value';
import type { Literal } from './glitch-gates';

/** Levels around one root edge, by variable: 0, 1; 2 and 3 unknown. */
export interface Transition {
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  /** Register and latch variables that changed more than once on the way. */
  readonly restless: ReadonlySet<number>;
}

export interface ForestEvent {
  readonly variable: number;
  /** Index of the event that it follows; null: the root edge. */
  readonly cause: number | null;
  readonly delay: DelayTriple;
}

/** Causes stand before what follows them. */
export type Forest = readonly ForestEvent[];

export function forestOf(scene: Scene, transition: Transition): Forest | null {
  if (scene.isKnotted) return null;
  const events: ForestEvent[] = [];
  const eventOf = new Map<number, number>();
  for (const variable of scene.actors) {
    const isMoving = moves(transition, variable);
    const cause = causeOf(scene, transition, variable);
    if (cause === 'unclear') return null;
    if (!isMoving || scene.part(variable).kind === 'opaque') continue;
    if (cause === 'none') return null;
    const delay = delayOf(scene.part(variable), transition, variable);
    const follows = cause === 'edge' ? null : eventOf.get(cause);
    if (follows === undefined) return null;
    eventOf.set(variable, events.length);
    events.push({ variable, cause: follows, delay });
  }
  return events;
}

export function moves({ before, after }: Transition, variable: number): boolean {
  return before[variable] !== after[variable];
}

/** What the literal settles at before or after the edge. */
export function settledAt({ workshop }: Scene, levels: Uint8Array, literal: Literal): 0 | 1 | null {
  const may = (variable: number) => mayOf(levels[variable]);
  return settledLevel(mayBe(columnsOf(workshop, literal), { may, marks: 'pass' }));
}

export function mayOf(level: number): number {
  return level === 0 ? May.beZero : level === 1 ? May.beOne : May.beZero | May.beOne;
}

/** The variable whose change this one follows if it changes; `none`: nothing can change it. */
type Cause = number | 'edge' | 'none' | 'unclear';

function causeOf(scene: Scene, transition: Transition, variable: number): Cause {
  const part = scene.part(variable);
  switch (part.kind) {
    case 'root':
      return 'edge';
    case 'cell':
      return onlyMover(scene, transition, part.follows);
    case 'register':
    case 'latch':
      return causeOfStored(scene, transition, variable, part);
    case 'opaque':
      // Its settled values are known, what lies between is not: it is no event, and is unknown while its operands move.
      return 'none';
    default:
      return moves(transition, variable) ? 'unclear' : 'none';
  }
}

function causeOfStored(scene: Scene, transition: Transition, variable: number, part: StoredPart): Cause {
  if (transition.restless.has(variable) || !controlsAreQuiet(scene, transition, variable, part)) return 'unclear';
  const trigger = onlyMover(scene, transition, part.trigger);
  if (part.kind === 'register' || trigger === 'unclear') return trigger;
  const data = onlyMover(scene, transition, part.data);
  if (trigger !== 'none') return data === 'none' ? trigger : 'unclear';
  return settledAt(scene, transition.before, part.trigger) === 0 ? 'none' : data;
}

function onlyMover(scene: Scene, transition: Transition, literal: Literal): Cause {
  let mover: Cause = 'none';
  let hearsOpaque = false;
  for (const variable of supportOf(scene.workshop, literal)) {
    hearsOpaque ||= scene.part(variable).kind === 'opaque';
    if (!moves(transition, variable)) continue;
    if (mover !== 'none') return 'unclear';
    mover = variable;
  }
  return hearsOpaque && mover !== 'none' ? 'unclear' : mover;
}

/** No control becomes active, not even for a moment: at most one of its variables moves, and leaves it inactive. */
function controlsAreQuiet(scene: Scene, transition: Transition, variable: number, part: StoredPart): boolean {
  const isHeard = controlsOf(scene.workshop, part).some((control) => moves(transition, control));
  if (!isHeard && !moves(transition, variable)) return true;
  return part.controls.every(({ active }) => {
    const isAlone = onlyMover(scene, transition, active) !== 'unclear';
    return (
      isAlone && settledAt(scene, transition.before, active) === 0 && settledAt(scene, transition.after, active) === 0
    );
  });
}

function delayOf(part: Part, transition: Transition, variable: number): DelayTriple {
  if (part.kind !== 'cell' && part.kind !== 'register' && part.kind !== 'latch') return zeroTriple;
  return transition.after[variable] === 1 ? part.delay.rise : part.delay.fall;
}
