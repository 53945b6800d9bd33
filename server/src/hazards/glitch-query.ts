// Asks whether a signal could glitch in any state at all, reached or not: for signals whose states are too many to
// follow and of which nothing was found. No means that it cannot. Yes gives one transition to judge. Only for bits that
// all sample one edge of the root itself, and taking any order of their changes as possible.

import type { Transition } from './glitch-forest';
import {
  and,
  choose,
  coneOfLiterals,
  createGates,
  GateKind,
  gateOf,
  type Gates,
  type Literal,
  not,
  oneLiteral,
  operandsOfGate,
  rebuilt,
  unknownLiteral,
  variableOf,
  xor,
  zeroLiteral,
} from './glitch-gates';
import { coneOf, type StoredPart, type Workshop } from './glitch-parts';
import type { Scene } from './glitch-scene';
import { solve } from './glitch-solve';
import type { Journey } from './glitch-states';
import { May, mayBe, settledLevel } from './glitch-value';

export type Answer =
  | { readonly kind: 'cannot' }
  /** One transition in which it passes a wrong value in some order, and the levels that lead to it. */
  | { readonly kind: 'can'; readonly transition: Transition }
  | { readonly kind: 'open' };

/** `journey`: of a group that is followed in lockstep. */
export function askWhether(scene: Scene, journey: Journey, mostWork: number): Answer {
  const { gates, passes, order } = pose(scene, journey);
  const solution = solve(gates, passes, { order, mostWork });
  if (solution.kind === 'none') return { kind: 'cannot' };
  if (solution.kind === 'open') return { kind: 'open' };
  return { kind: 'can', transition: transitionOf(scene, journey, solution.levels) };
}

interface Question {
  readonly gates: Gates;
  /** The signal leaves its old value and comes back to it, in some order of the changes. */
  readonly passes: Literal;
  /** Variables in the order to try: what the signal hears, bit by bit; then the nearest. */
  readonly order: readonly number[];
}

/**
 * A new level is a variable of its own, bound to what the register samples: whether the signal passes a wrong value is
 * decided first, whether the registers can move so second.
 */
function pose(scene: Scene, journey: Journey): Question {
  const { workshop, target } = scene;
  const gates = createGates();
  const { group, extent } = journey;
  const old = oldLevels(gates, journey);
  const first = workshop.logic.variables.length;
  const order: number[] = [];
  const early = new Map<number, Literal>();
  const late = new Map<number, Literal>();
  let bound = oneLiteral;
  simplestFirst(scene, journey).forEach((variable, index) => {
    const [next, isEarly, isLate] = [0, 1, 2].map((offset) => first + 3 * index + offset);
    order.push(variable, next, isEarly, isLate);
    const before = old(variable);
    const after = newLevel(gates, journey, variable, next, before);
    if (extent.state.includes(variable)) {
      const sampled = rebuilt(workshop.logic.gates, gates, (group.part(variable) as StoredPart).data, old);
      bound = and(gates, bound, not(xor(gates, after, sampled)));
    }
    const soon = choose(gates, variableOf(gates, isEarly), after, before);
    early.set(variable, soon);
    late.set(variable, choose(gates, variableOf(gates, isLate), after, soon));
  });
  const at = (levels: (variable: number) => Literal) => rebuilt(workshop.logic.gates, gates, target, levels);
  const start = at(old);
  const left = xor(
    gates,
    at((variable) => early.get(variable) ?? unknownLiteral),
    start,
  );
  const back = not(
    xor(
      gates,
      at((variable) => late.get(variable) ?? unknownLiteral),
      start,
    ),
  );
  const passes = and(gates, and(gates, left, back), bound);
  return { gates, passes, order: [...order, ...byNearness(gates, passes)] };
}

/** By how much their next levels hang on: the low bits of a count before the high ones, which wait for their carry. */
function simplestFirst({ workshop, observed }: Scene, { group, extent }: Journey): readonly number[] {
  const size = (variable: number): number =>
    extent.state.includes(variable) ? coneOf(workshop, (group.part(variable) as StoredPart).data).length : 0;
  return [...observed].sort((left, right) => size(left) - size(right) || left - right);
}

function newLevel(gates: Gates, { group, extent }: Journey, variable: number, next: number, before: Literal): Literal {
  if (group.part(variable).kind === 'root') return not(before);
  return extent.state.includes(variable) ? variableOf(gates, next) : before;
}

/** Variables by how few gates lie between: what chooses among data is tried before the data it chooses from. */
function byNearness(gates: Gates, literal: Literal): number[] {
  const found: number[] = [];
  const seen = new Set<number>([gateOf(literal)]);
  for (const gate of seen) {
    if (gates.kind[gate] === GateKind.variable) found.push(gates.a[gate]);
    for (const operand of operandsOfGate(gates, gate)) seen.add(gateOf(operand));
  }
  return found;
}

/** Bits followed and inputs that may be chosen are free; all else is as at the start. */
function oldLevels(gates: Gates, { group, extent, inputs, levels, restLevel }: Journey): (variable: number) => Literal {
  const free = new Set([...extent.state, ...inputs.choices.map(({ variable }) => variable)]);
  return (variable) => {
    if (free.has(variable)) return variableOf(gates, variable);
    const level = group.part(variable).kind === 'root' ? restLevel : levels[variable];
    return level === 0 ? zeroLiteral : level === 1 ? oneLiteral : unknownLiteral;
  };
}

/** The levels on both sides of the edge. What the solution leaves open stands as at the start. */
function transitionOf({ workshop }: Scene, journey: Journey, found: ReadonlyMap<number, 0 | 1>): Transition {
  const { group, extent, inputs, levels, restLevel } = journey;
  const before = levels.slice();
  for (const variable of [...extent.state, ...inputs.choices.map((choice) => choice.variable)]) {
    before[variable] = found.get(variable) ?? before[variable];
  }
  const after = before.slice();
  for (const variable of extent.state) {
    const { data } = group.part(variable) as StoredPart;
    after[variable] = levelAt(workshop, data, before);
  }
  for (const variable of group.recorded) {
    if (group.part(variable).kind !== 'root') continue;
    before[variable] = restLevel;
    after[variable] = 1 - restLevel;
  }
  return { before, after, restless: new Set() };
}

function levelAt({ logic }: Workshop, literal: Literal, levels: Uint8Array): number {
  const may = (variable: number): number =>
    levels[variable] > 1 ? May.beZero | May.beOne : levels[variable] === 1 ? May.beOne : May.beZero;
  const cone = coneOfLiterals(logic.gates, [literal]);
  return settledLevel(mayBe(logic.gates, cone, literal, { may, marks: 'pass' })) ?? 3;
}
