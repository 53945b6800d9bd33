// Asks whether a signal could glitch in any state at all, reached or not: for signals whose states are too many to
// follow and of which nothing was found. No means that it cannot. Yes gives one transition to judge. Any order of
// changes is taken as possible that lets an effect follow its cause. What the bits may not do stands at `causesOf`.

import type { Transition } from './glitch-forest';
import {
  and,
  choose,
  createGates,
  GateKind,
  gateOf,
  type Gates,
  type Literal,
  not,
  oneLiteral,
  operandsOfGate,
  or,
  rebuilt,
  unknownLiteral,
  variableOf,
  xor,
  zeroLiteral,
} from './glitch-gates';
import { causesOf, type Cause } from './glitch-causes';
import { columnsOf, coneOf, type StoredPart, type Workshop } from './glitch-parts';
import { isVague, type Scene } from './glitch-scene';
import { solveInSteps } from './glitch-solve';
import type { Journey } from './glitch-states';
import { May, mayBe, settledLevel } from './glitch-value';

export type Answer =
  | { readonly kind: 'cannot' }
  /** One transition in which it passes a wrong value in some order, and the levels that lead to it. */
  | { readonly kind: 'can'; readonly transition: Transition }
  | { readonly kind: 'open' };

export function* askWhether(scene: Scene, journey: Journey, mostWork: number): Generator<void, Answer> {
  const causes = isVague(scene) || journey.edges !== 'one' ? null : causesOf(scene.workshop, journey);
  if (causes === null) return { kind: 'open' };
  const { gates, passes, order } = pose(scene, journey, causes);
  const solution = yield* solveInSteps(gates, passes, { order, mostWork });
  if (solution.kind === 'none') return { kind: 'cannot' };
  if (solution.kind === 'open') return { kind: 'open' };
  return { kind: 'can', transition: transitionOf(scene, journey, causes, solution.levels) };
}

interface Question {
  readonly gates: Gates;
  /** The signal leaves its old value and comes back to it, in some order of the changes. */
  readonly passes: Literal;
  /** Variables in the order to try: bit by bit, then the nearest. */
  readonly order: readonly number[];
}

/** A bit in the question: its levels, and whether its change has happened at an early and at a later moment. */
interface Moving {
  readonly old: Literal;
  readonly next: Literal;
  readonly early: Literal;
  readonly late: Literal;
}

/**
 * A new level is a variable of its own, bound to what the register samples: whether the signal passes a wrong value is
 * decided first, whether the registers can move so second.
 */
function pose(scene: Scene, journey: Journey, causes: readonly Cause[]): Question {
  const { workshop, target } = scene;
  const gates = createGates();
  const old = oldLevels(gates, journey);
  const first = workshop.logic.variables.length;
  const order: number[] = [];
  const moving = new Map<number, Moving>();
  let bound = oneLiteral;
  causes.forEach((cause, index) => {
    const own = [0, 1, 2].map((offset) => first + 3 * index + offset);
    order.push(cause.variable, ...own);
    const [next, early, late] = own.map((variable) => variableOf(gates, variable));
    const leader = cause.trigger.kind === 'edge' ? null : (moving.get(cause.trigger.bit) ?? null);
    const before = old(cause.variable);
    const { data: literal } = journey.group.part(cause.variable) as StoredPart;
    const data = rebuilt(workshop.logic.gates, gates, { literal, cone: coneOf(workshop, literal) }, old);
    const sampled = choose(gates, isCalled(gates, cause, leader), data, before);
    bound = and(gates, bound, not(xor(gates, next, sampled)));
    moving.set(cause.variable, { old: before, next, ...moments(gates, early, late, leader) });
  });
  const at = (levels: (variable: number) => Literal) =>
    rebuilt(workshop.logic.gates, gates, { literal: target, cone: coneOf(workshop, target) }, levels);
  const start = at(old);
  const left = xor(gates, at(levelsAt(gates, journey, old, moving, 'early')), start);
  const back = not(xor(gates, at(levelsAt(gates, journey, old, moving, 'late')), start));
  const passes = and(gates, and(gates, left, back), bound);
  return { gates, passes, order: [...order, ...byNearness(gates, passes)] };
}

/** Whether the bit samples at all: its leader, if it has one, has moved the right way. */
function isCalled(gates: Gates, { trigger }: Cause, leader: Moving | null): Literal {
  if (trigger.kind === 'edge' || leader === null) return oneLiteral;
  const [from, to] = trigger.isInverted ? [leader.old, not(leader.next)] : [not(leader.old), leader.next];
  return and(gates, from, to);
}

/** An effect has happened only where its cause has; what has happened early has happened late. */
function moments(gates: Gates, early: Literal, late: Literal, leader: Moving | null): Pick<Moving, 'early' | 'late'> {
  const soon = leader === null ? early : and(gates, early, leader.early);
  const then = leader === null ? late : and(gates, late, leader.late);
  return { early: soon, late: or(gates, soon, then) };
}

/** The root's own change comes before all others. */
function levelsAt(
  gates: Gates,
  { group }: Journey,
  old: (variable: number) => Literal,
  moving: ReadonlyMap<number, Moving>,
  moment: 'early' | 'late',
): (variable: number) => Literal {
  return (variable) => {
    const bit = moving.get(variable);
    if (bit !== undefined) return choose(gates, bit[moment], bit.next, bit.old);
    return group.part(variable).kind === 'root' ? not(old(variable)) : old(variable);
  };
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
function transitionOf(
  { workshop }: Scene,
  journey: Journey,
  causes: readonly Cause[],
  found: ReadonlyMap<number, 0 | 1>,
): Transition {
  const { group, extent, inputs, levels, restLevel } = journey;
  const before = levels.slice();
  for (const variable of [...extent.state, ...inputs.choices.map((choice) => choice.variable)]) {
    before[variable] = found.get(variable) ?? before[variable];
  }
  const after = before.slice();
  for (const { variable, trigger } of causes) {
    const isCalled =
      trigger.kind === 'edge' ||
      (before[trigger.bit] !== after[trigger.bit] && (after[trigger.bit] === 1) !== trigger.isInverted);
    if (isCalled) after[variable] = levelAt(workshop, (group.part(variable) as StoredPart).data, before);
  }
  for (const variable of group.recorded) {
    if (group.part(variable).kind !== 'root') continue;
    before[variable] = restLevel;
    after[variable] = 1 - restLevel;
  }
  return { before, after, restless: new Set() };
}

function levelAt(workshop: Workshop, literal: Literal, levels: Uint8Array): number {
  const may = (variable: number): number =>
    levels[variable] > 1 ? May.beZero | May.beOne : levels[variable] === 1 ? May.beOne : May.beZero;
  return settledLevel(mayBe(columnsOf(workshop, literal), { may, marks: 'pass' })) ?? 3;
}
