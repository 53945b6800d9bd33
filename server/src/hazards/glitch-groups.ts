// Which register bits decide what a signal can meet: everything that feeds the bits it hears, from edge to edge. Signals
// that hang on the same bits are followed together. Bits, not whole registers: the low bits of a counter have few states
// however wide it is.
//
// Where that is too much, only the nearest bits are followed, and what feeds them may be anything: then more is reached
// than can be. Silence still holds; what is found is no more than possible.

import type { Candidate } from './glitch-candidates';
import { GateKind, gateOf } from './glitch-gates';
import { type Part, supportOf } from './glitch-parts';
import { controlsOf, type Scene, triggersOf } from './glitch-scene';
import { worldActors } from './glitch-world';

/** A set of bits to follow. */
export interface Extent {
  /** Register and latch variables of this root that make the state, ascending. */
  readonly state: readonly number[];
  /** What those hear besides: ports, other roots' registers, black box outputs, words of memories; and bits cut off. */
  readonly held: readonly number[];
  /** Register and latch variables of this root among `held`: bits that are not followed. */
  readonly cut: readonly number[];
}

export interface Group {
  readonly root: number;
  readonly candidates: readonly Candidate[];
  readonly part: (variable: number) => Part;
  /** Variables whose levels a transition of some candidate needs. */
  readonly recorded: readonly number[];
  /** All bits that matter; null where they are too many. */
  readonly whole: Extent | null;
  /** The bits that time the signals, and no more. */
  readonly nearest: Extent;
  /** More than the nearest, as many as can be followed in every way; null where that is none or all. */
  readonly nearer: Extent | null;
}

/** Bits followed at most, and bits followed beside the nearest where all are too many. */
const mostFollowed = 64;
const mostNear = 24;

/** In order of their first candidates. `isFixed`: a register bit that never leaves its start value. */
export function* groupCandidates(
  candidates: readonly Candidate[],
  isFixed: (variable: number) => boolean,
): Generator<void, readonly Group[]> {
  const groups = new Map<string, { readonly layers: Layers; readonly heard: Heard; readonly members: Candidate[] }>();
  const heardByRoot = new Map<number, Heard>();
  let pace = 0;
  for (const candidate of candidates) {
    const { root } = candidate.scene;
    const heard: Heard = heardByRoot.get(root) ?? new Map();
    heardByRoot.set(root, heard);
    const layers = layersOf(candidate.scene, heard, isFixed);
    const key = `${root} ${layers.isComplete ? '' : 'part '}${layers.state.join()}`;
    const group = groups.get(key) ?? { layers, heard, members: [] };
    groups.set(key, group);
    group.members.push(candidate);
    pace += 1;
    if (pace % candidatesPerTurn === 0) yield;
  }
  return [...groups.values()].map(({ layers, heard, members }) => groupOf(members, layers, heard));
}

const candidatesPerTurn = 64;

type Heard = Map<number, readonly number[]>;

function groupOf(members: readonly Candidate[], { isComplete, state, near }: Layers, heard: Heard): Group {
  const { scene } = members[0];
  const scenes = members.map((member) => member.scene);
  const extent = (bits: readonly number[]) => extentOf(scenes, bits, heard);
  // Where all can be followed, the members may differ in their nearest bits.
  const nearest = isComplete ? union(scenes.map((one) => coreOf(one).filter((bit) => state.includes(bit)))) : state;
  return {
    root: scene.root,
    candidates: members,
    part: scene.part,
    recorded: union(scenes.map(recordedOf)),
    whole: isComplete ? extent(state) : null,
    nearest: extent(nearest),
    nearer: !isComplete && near.length > nearest.length ? extent(near) : null,
  };
}

/** Levels that timing this scene can ask for. */
export function recordedOf(scene: Scene): readonly number[] {
  const { workshop, part } = scene;
  const actors = worldActors(scene);
  const sampled = actors.flatMap((variable) => {
    const own = part(variable);
    return own.kind === 'register' ? supportOf(workshop, own.data) : [];
  });
  return union([actors, scene.actors, sampled]);
}

interface Layers {
  readonly isComplete: boolean;
  /** All that feeds the signal where that is complete, else its core. */
  readonly state: readonly number[];
  /** Core and whole layers around it, as far as there is room. */
  readonly near: readonly number[];
}

/** The core, then what feeds it, then what feeds that, until there is no more or there are too many. */
function layersOf(scene: Scene, heard: Heard, isFixed: (variable: number) => boolean): Layers {
  const core = coreOf(scene).filter((variable) => !isFixed(variable));
  const found = new Set(core);
  let near: readonly number[] = core;
  let layer: readonly number[] = core;
  while (layer.length > 0) {
    const next = new Set<number>();
    for (const variable of layer) {
      for (const source of heardBy(scene, heard, variable)) {
        if (isStored(scene, source) && !isFixed(source) && !found.has(source)) next.add(source);
      }
    }
    for (const variable of next) found.add(variable);
    if (found.size <= mostNear) near = [...found];
    if (found.size > mostFollowed) return { isComplete: false, state: ascending(core), near: ascending(near) };
    layer = [...next];
  }
  return { isComplete: true, state: ascending([...found]), near: [] };
}

/** Register and latch bits that take part in timing the signal. */
function coreOf(scene: Scene): readonly number[] {
  return worldActors(scene).filter((variable) => isStored(scene, variable));
}

function isStored({ part }: Scene, variable: number): boolean {
  const { kind } = part(variable);
  return kind === 'register' || kind === 'latch';
}

/** What a stored bit's next value and its moment hang on, with cells looked through. */
function heardBy(scene: Scene, heard: Heard, variable: number): readonly number[] {
  const known = heard.get(variable);
  if (known !== undefined) return known;
  const { workshop, part } = scene;
  const own = part(variable);
  const first = [...triggersOf(workshop, own), ...controlsOf(workshop, own)];
  if (own.kind === 'register' || own.kind === 'latch') {
    for (const literal of [own.data, ...own.controls.map(({ value }) => value)]) {
      first.push(...supportOf(workshop, literal));
    }
  }
  const found = throughCells(scene, first);
  heard.set(variable, found);
  return found;
}

function throughCells({ workshop, part }: Scene, variables: readonly number[]): readonly number[] {
  const found = new Set<number>();
  const waiting = [...variables];
  for (let variable = waiting.pop(); variable !== undefined; variable = waiting.pop()) {
    if (found.has(variable)) continue;
    found.add(variable);
    const own = part(variable);
    if (own.kind === 'cell') waiting.push(...supportOf(workshop, own.follows));
  }
  return [...found];
}

function extentOf(scenes: readonly Scene[], state: readonly number[], heard: Heard): Extent {
  const [scene] = scenes;
  const followed = new Set(state);
  const sources = [
    ...state.map((variable) => heardBy(scene, heard, variable)),
    ...scenes.map((one) => throughCells(one, one.observed)),
  ];
  const others = union(sources).filter((variable) => !followed.has(variable));
  const cut = others.filter((variable) => isStored(scene, variable));
  const words = new Set(scenes.flatMap(wordsThatDecide));
  const held = others.filter(
    (variable) => isStored(scene, variable) || scene.part(variable).kind === 'held' || words.has(variable),
  );
  return { state, held, cut };
}

/** Bits read from memories that go into logic. One that is the signal itself passes what it passes, whatever it is. */
function wordsThatDecide({ observed, target, workshop: { logic } }: Scene): readonly number[] {
  if (logic.gates.kind[gateOf(target)] === GateKind.variable) return [];
  return observed.filter((variable) => logic.variables[variable].kind === 'memory');
}

function union(lists: readonly (readonly number[])[]): readonly number[] {
  return ascending([...new Set(lists.flat())]);
}

function ascending(numbers: readonly number[]): readonly number[] {
  return [...numbers].sort((left, right) => left - right);
}
