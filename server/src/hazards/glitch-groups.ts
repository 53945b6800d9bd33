// Which register bits decide what a signal can meet: everything that feeds the bits it hears, from edge to edge. Signals
// that hang on the same bits are followed together. Bits, not whole registers: the low bits of a counter have few states
// however wide it is.

import type { Candidate } from './glitch-candidates';
import { type Part, supportOf } from './glitch-parts';
import { controlsOf, type Scene, triggersOf } from './glitch-scene';
import { worldActors } from './glitch-world';

export interface Group {
  readonly root: number;
  readonly candidates: readonly Candidate[];
  readonly part: (variable: number) => Part;
  /** Register and latch variables of this root that make the state, ascending. */
  readonly state: readonly number[];
  /** What holds still around this root's edges: ports, other roots' registers, black box outputs, memory words. */
  readonly held: readonly number[];
  /** Variables whose levels a transition of some candidate needs. */
  readonly recorded: readonly number[];
}

/** In order of their first candidates. */
export function groupCandidates(candidates: readonly Candidate[]): readonly Group[] {
  const groups = new Map<string, Candidate[]>();
  const closures = candidates.map(({ scene }) => closureOf(scene));
  candidates.forEach((candidate, index) => {
    const key = `${candidate.scene.root} ${closures[index].state.join()}`;
    groups.set(key, [...(groups.get(key) ?? []), candidate]);
  });
  return [...groups.values()].map((members) => {
    const { scene } = members[0];
    const own = members.map((member) => closures[candidates.indexOf(member)]);
    return {
      root: scene.root,
      candidates: members,
      part: scene.part,
      state: own[0].state,
      held: union(own.map(({ held }) => held)),
      recorded: union(members.map((member) => recordedOf(member.scene))),
    };
  });
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

function closureOf({ workshop, part, observed }: Scene): { readonly state: number[]; readonly held: number[] } {
  const found = new Set<number>();
  const waiting = [...observed];
  for (let variable = waiting.pop(); variable !== undefined; variable = waiting.pop()) {
    if (found.has(variable)) continue;
    found.add(variable);
    const own = part(variable);
    waiting.push(...triggersOf(workshop, own), ...controlsOf(workshop, own));
    if (own.kind !== 'register' && own.kind !== 'latch') continue;
    for (const literal of [own.data, ...own.controls.map(({ value }) => value)]) {
      waiting.push(...supportOf(workshop, literal));
    }
  }
  const sorted = [...found].sort((left, right) => left - right);
  return {
    state: sorted.filter((variable) => ['register', 'latch'].includes(part(variable).kind)),
    held: sorted.filter((variable) => part(variable).kind === 'held'),
  };
}

function union(lists: readonly (readonly number[])[]): readonly number[] {
  return [...new Set(lists.flat())].sort((left, right) => left - right);
}
