// Every state that a chooser's registers are seen in from a start, with the steps between them; and what becomes of the
// states that are not seen: whether they come back into them, by themselves or by some choice, or never do.

import type { Chooser, Literal, NextState } from './states-choice';

export interface Step {
  readonly to: bigint;
  /** One of these holds; each is a list that holds together. `[[]]`: always. */
  readonly when: readonly (readonly Literal[])[];
}

export type Steps = ReadonlyMap<bigint, readonly Step[]>;

export interface StatesBudget {
  readonly states: number;
  /** Nodes evaluated, shared by all that are explored. */
  readonly purse: { left: number };
}

export type Explored = { readonly kind: 'all'; readonly steps: Steps } | { readonly kind: 'states' | 'work' | 'data' };

/** Breadth first from these. Yields after a fixed amount of work. */
export function* exploreFrom(
  chooser: Chooser,
  starts: readonly bigint[],
  budget: StatesBudget,
): Generator<void, Explored> {
  const steps = new Map<bigint, readonly Step[]>();
  const seen = new Set(starts);
  const spent = chooser.work();
  let pause = spent + workPerTurn;
  try {
    for (const state of seen) {
      if (seen.size > budget.states) return { kind: 'states' };
      const ways = chooser.nextOf(state);
      if (ways === null) return { kind: 'data' };
      const merged = mergedSteps(ways);
      steps.set(state, merged);
      for (const { to } of merged) seen.add(to);
      if (chooser.work() - spent > budget.purse.left) return { kind: 'work' };
      if (chooser.work() > pause) {
        pause = chooser.work() + workPerTurn;
        yield;
      }
    }
    return { kind: 'all', steps };
  } finally {
    budget.purse.left -= chooser.work() - spent;
  }
}

/** Nodes evaluated between two pauses. */
const workPerTurn = 2_000;

/** One step per state it leads to, in the order of the choices; conditions that differ in one literal alone are joined. */
export function mergedSteps(ways: readonly NextState[]): readonly Step[] {
  const byTarget = new Map<bigint, (readonly Literal[])[]>();
  for (const { to, when } of ways) byTarget.set(to, [...(byTarget.get(to) ?? []), when]);
  return Array.from(byTarget, ([to, when]) => ({ to, when: joined(when) }));
}

type Cube = readonly Literal[];

/** The same conditions with what the others say already left out: `a, or not a and b` is `a, or b`. */
function joined(conditions: readonly Cube[]): readonly Cube[] {
  let rest = conditions;
  for (;;) {
    const shorter = shortened(rest);
    if (shorter === null) return rest;
    rest = shorter;
  }
}

function shortened(conditions: readonly Cube[]): readonly Cube[] | null {
  for (const one of conditions)
    for (const other of conditions) {
      if (one === other) continue;
      if (holdsAll(one, other)) return conditions.filter((each) => each !== one);
      const spare = one.find(({ atom, level }) => {
        const isTurned = other.some((literal) => literal.atom === atom && literal.level !== level);
        return (
          isTurned &&
          holdsAll(
            one,
            other.filter((literal) => literal.atom !== atom),
          )
        );
      });
      if (spare !== undefined)
        return conditions.map((each) => (each === one ? one.filter((literal) => literal !== spare) : each));
    }
  return null;
}

/** Whether every literal of the second is in the first. */
function holdsAll(one: Cube, other: Cube): boolean {
  return other.every(({ atom, level }) => one.some((literal) => literal.atom === atom && literal.level === level));
}

export interface Fate {
  readonly value: bigint;
  /** returns: whatever is chosen; may-return: by some choice; trapped: never. */
  readonly fate: 'returns' | 'may-return' | 'trapped';
  /** Of one that returns: edges until it has, at most. */
  readonly within: number | null;
  /** The states that it goes to next. */
  readonly to: readonly bigint[];
}

/** `steps` holds the used states and, besides, every unused one. */
export function fatesOf(used: ReadonlySet<bigint>, steps: Steps): readonly Fate[] {
  const unused = [...steps.keys()].filter((state) => !used.has(state));
  const within = edgesBack(unused, used, steps);
  const back = comingBack(unused, used, steps);
  return unused.map((value) => {
    const edges = within.get(value) ?? null;
    const fate = edges !== null ? 'returns' : back.has(value) ? 'may-return' : 'trapped';
    return { value, fate, within: edges, to: targetsOf(steps, value) };
  });
}

function targetsOf(steps: Steps, state: bigint): readonly bigint[] {
  return (steps.get(state) ?? []).map(({ to }) => to);
}

/** By state: the most edges until a used state, where no choice can keep it away. */
function edgesBack(unused: readonly bigint[], used: ReadonlySet<bigint>, steps: Steps): ReadonlyMap<bigint, number> {
  const found = new Map<bigint, number>();
  const before = sourcesOf(unused, steps);
  const missing = new Map(unused.map((state) => [state, targetsOf(steps, state).filter((to) => !used.has(to)).length]));
  const waiting = unused.filter((state) => missing.get(state) === 0);
  for (const state of waiting) {
    const most = targetsOf(steps, state).reduce((longest, to) => Math.max(longest, found.get(to) ?? 0), 0);
    found.set(state, most + 1);
    for (const source of before.get(state) ?? []) {
      const left = (missing.get(source) ?? 0) - 1;
      missing.set(source, left);
      if (left === 0) waiting.push(source);
    }
  }
  return found;
}

function comingBack(unused: readonly bigint[], used: ReadonlySet<bigint>, steps: Steps): ReadonlySet<bigint> {
  const before = sourcesOf(unused, steps);
  const found = new Set(unused.filter((state) => targetsOf(steps, state).some((to) => used.has(to))));
  for (const state of found) for (const source of before.get(state) ?? []) found.add(source);
  return found;
}

function sourcesOf(states: readonly bigint[], steps: Steps): ReadonlyMap<bigint, readonly bigint[]> {
  const before = new Map<bigint, bigint[]>();
  for (const state of states)
    for (const to of targetsOf(steps, state)) {
      const known = before.get(to);
      if (known === undefined) before.set(to, [state]);
      else known.push(state);
    }
  return before;
}
