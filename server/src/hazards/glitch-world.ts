// One transition where changes do more than follow one another: gates that take time and hear several changes, decoded
// clocks and clears, latches that pass. Every stored bit and cell reacts by its own rule, one change at a time
// (definition 34 of the project), so that every order can be tried. Two-valued: what becomes unknown on the way makes
// the signal unknown from there on.

import type { DelayTriple } from '../netlist/netlist';
import { zeroTriple } from '../delays/triple';
import type { Literal } from './glitch-gates';
import { mayOf, type Transition } from './glitch-forest';
import type { Consequence, Upcoming, World } from './glitch-orders';
import { columnsOf, type Part, type StoredPart, supportOf, type Workshop } from './glitch-parts';
import { controlsOf, type Scene, triggersOf } from './glitch-scene';
import { createTimes } from './glitch-times';
import { May, mayBe, settledLevel } from './glitch-value';

export interface WorldState {
  /** Level by variable, where it differs from the one before the edge. */
  readonly changed: ReadonlyMap<number, 0 | 1>;
  /** The level that a change on its way leads to. */
  readonly coming: ReadonlyMap<number, 0 | 1>;
  /** Something on the way was unknown. */
  readonly lost: boolean;
}

export function transitionWorld(scene: Scene, transition: Transition): World<WorldState> {
  const actors = worldActors(scene);
  const readers = readersOf(scene, actors);
  const roots = actors.filter((variable) => scene.part(variable).kind === 'root');
  const stage: Stage = { scene, transition, readers };
  const start: WorldState = {
    changed: new Map(),
    coming: new Map(roots.map((variable) => [variable, (1 - transition.before[variable]) as 0 | 1])),
    lost: false,
  };
  return {
    start,
    times: createTimes(8),
    first: roots.map((variable) => ({ key: variable, when: zeroTriple })),
    fire: (state, variable) => react(stage, state, variable),
    levelOf: (state) => (state.lost ? null : settledLevel(mayBeOf(stage, state, scene.target, 'pass'))),
    mayPulse: (state) => settledLevel(mayBeOf(stage, state, scene.target, 'blur')) === null,
  };
}

/** Everything that takes part: what the target hears, and what feeds that, but not what is sampled at the root edge. */
export function worldActors(scene: Scene): readonly number[] {
  const { workshop, part } = scene;
  const found = new Set<number>();
  const waiting = [...scene.observed];
  for (let variable = waiting.pop(); variable !== undefined; variable = waiting.pop()) {
    if (found.has(variable)) continue;
    found.add(variable);
    const own = part(variable);
    waiting.push(...triggersOf(workshop, own), ...controlsOf(workshop, own), ...loadedBy(workshop, own));
    if (own.kind === 'register' && !samplesAtEdge(scene, own)) waiting.push(...supportOf(workshop, own.data));
  }
  return [...found].sort((left, right) => left - right);
}

/** Clocked by the root itself, so that it samples what stood before the edge. */
function samplesAtEdge({ workshop, part }: Scene, { trigger }: StoredPart): boolean {
  return supportOf(workshop, trigger).every((variable) => ['root', 'held'].includes(part(variable).kind));
}

function loadedBy(workshop: Workshop, part: Part): readonly number[] {
  if (part.kind !== 'register' && part.kind !== 'latch') return [];
  return part.controls.flatMap(({ value }) => supportOf(workshop, value));
}

interface Stage {
  readonly scene: Scene;
  readonly transition: Transition;
  /** By variable: who reacts to it, ascending. */
  readonly readers: ReadonlyMap<number, readonly number[]>;
}

function readersOf(scene: Scene, actors: readonly number[]): ReadonlyMap<number, readonly number[]> {
  const readers = new Map<number, number[]>();
  for (const reader of actors) {
    const part = scene.part(reader);
    const { workshop } = scene;
    const heard = new Set([...triggersOf(workshop, part), ...controlsOf(workshop, part), ...loadedBy(workshop, part)]);
    for (const variable of heard) readers.set(variable, [...(readers.get(variable) ?? []), reader]);
  }
  return readers;
}

function react(stage: Stage, before: WorldState, variable: number): Consequence<WorldState> {
  const changed = new Map(before.changed).set(variable, before.coming.get(variable) ?? 0);
  const coming = new Map(before.coming);
  coming.delete(variable);
  const upcoming: Upcoming[] = [];
  const cancelled: number[] = [];
  let { lost } = before;
  const middle: WorldState = { changed, coming, lost };
  for (const reader of stage.readers.get(variable) ?? []) {
    const answer = answerOf(stage, before, middle, reader);
    if (answer === 'lost') lost = true;
    if (answer === 'none' || answer === 'lost') continue;
    const now = levelNow(stage, middle, reader);
    const expected = before.coming.get(reader) ?? now;
    if (answer.level === expected) continue;
    coming.delete(reader);
    if (answer.level === now) {
      cancelled.push(reader);
    } else {
      coming.set(reader, answer.level);
      upcoming.push({ key: reader, when: answer.delay });
    }
  }
  return { state: { changed, coming, lost }, upcoming, cancelled };
}

type Answer = { readonly level: 0 | 1; readonly delay: DelayTriple } | 'none' | 'lost';

function answerOf(stage: Stage, before: WorldState, after: WorldState, reader: number): Answer {
  const part = stage.scene.part(reader);
  if (part.kind === 'cell') return towards(levelOf(stage, after, part.follows), part.delay);
  return part.kind === 'register' || part.kind === 'latch' ? answerOfStored(stage, before, after, part) : 'none';
}

function answerOfStored(stage: Stage, before: WorldState, after: WorldState, part: StoredPart): Answer {
  for (const { active, value } of part.controls) {
    const isActive = levelOf(stage, after, active);
    if (isActive === null) return 'lost';
    if (isActive === 1) return towards(levelOf(stage, after, value), part.clear);
  }
  const trigger = levelOf(stage, after, part.trigger);
  const was = levelOf(stage, before, part.trigger);
  if (trigger === null || was === null) return 'lost';
  if (part.kind === 'latch') return trigger === 1 ? towards(levelOf(stage, after, part.data), part.delay) : 'none';
  // A register samples what stood before the change that is its edge.
  return trigger === 1 && was === 0 ? towards(levelOf(stage, before, part.data), part.delay) : 'none';
}

function towards(level: 0 | 1 | null, delay: { readonly rise: DelayTriple; readonly fall: DelayTriple }): Answer {
  return level === null ? 'lost' : { level, delay: level === 1 ? delay.rise : delay.fall };
}

function levelNow(stage: Stage, state: WorldState, variable: number): 0 | 1 | null {
  return state.changed.get(variable) ?? settledLevel(mayOf(stage.transition.before[variable]));
}

function levelOf(stage: Stage, state: WorldState, literal: Literal): 0 | 1 | null {
  return settledLevel(mayBeOf(stage, state, literal, 'pass'));
}

function mayBeOf({ scene, transition }: Stage, state: WorldState, literal: Literal, marks: 'pass' | 'blur'): number {
  const { workshop } = scene;
  const may = (variable: number): number => {
    if (scene.part(variable).kind === 'opaque') return opaqueMay(scene, transition, state, variable);
    const level = state.changed.get(variable);
    return level === undefined ? mayOf(transition.before[variable]) : mayOf(level) | May.haveMoved;
  };
  return mayBe(columnsOf(workshop, literal), { may, marks });
}

/** Known only before anything that it hears has changed; here nothing says when it has settled again. */
function opaqueMay({ workshop, part }: Scene, { before }: Transition, state: WorldState, variable: number): number {
  const opaque = part(variable);
  const hears = opaque.kind === 'opaque' ? opaque.hears : [];
  const isMoved = hears.some((literal) => supportOf(workshop, literal).some((heard) => state.changed.has(heard)));
  return isMoved ? May.beZero | May.beOne | May.haveMoved : mayOf(before[variable]);
}
