// Whether a function can be 1 at all: levels are tried for its variables one by one, the whole function followed in
// three values (0, 1, not yet known) after each, and the last choice turned where it leads nowhere. Complete, but
// limited by work; the order in which variables are tried decides how far that goes.

import { coneOfLiterals, GateKind, gateOf, type Gates, type Literal, operandsOfGate } from './glitch-gates';

export type Solution =
  | { readonly kind: 'found'; readonly levels: ReadonlyMap<number, 0 | 1> }
  | { readonly kind: 'none' }
  | { readonly kind: 'open' };

interface Decision {
  readonly variable: number;
  readonly level: 0 | 1;
  readonly isSecond: boolean;
}

export interface Search {
  /** Variables are tried in this order, as far as they still have a say; those not named come last. */
  readonly order: readonly number[];
  /** Gates evaluated at most. */
  readonly mostWork: number;
}

/** Levels of variables that have no say are left out. */
export function solve(gates: Gates, target: Literal, search: Search): Solution {
  const steps = solveInSteps(gates, target, search);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Gates evaluated between two pauses. */
const workPerTurn = 1 << 17;

/** As `solve`, with pauses. */
export function* solveInSteps(gates: Gates, target: Literal, { order, mostWork }: Search): Generator<void, Solution> {
  const cone = coneOfLiterals(gates, [target]);
  const rank = new Map([...new Set(order)].map((variable, index) => [variable, index]));
  const values = new Int8Array(gates.kind.length).fill(unset);
  const levels = new Map<number, 0 | 1>();
  const decisions: Decision[] = [];
  let pauseAt = workPerTurn;
  for (let work = cone.length; work <= mostWork; work += cone.length) {
    if (work > pauseAt) {
      pauseAt = work + workPerTurn;
      yield;
    }
    evaluate(gates, cone, values, levels);
    const value = read(values, target);
    if (value === 1) return { kind: 'found', levels };
    if (value === 0) {
      if (!turnLast(decisions, levels)) return { kind: 'none' };
      continue;
    }
    const variable = variableToTry(gates, values, target, rank);
    // Nothing is open but what may be either by itself: no choice decides it.
    if (variable === null) return { kind: 'open' };
    levels.set(variable, 1);
    decisions.push({ variable, level: 1, isSecond: false });
  }
  return { kind: 'open' };
}

const unset = -1;

function evaluate(
  { kind, a, b, c }: Gates,
  cone: readonly number[],
  values: Int8Array,
  levels: ReadonlyMap<number, 0 | 1>,
): void {
  for (const gate of cone) {
    switch (kind[gate]) {
      case GateKind.zero:
        values[gate] = 0;
        break;
      case GateKind.variable:
        values[gate] = levels.get(a[gate]) ?? unset;
        break;
      case GateKind.and:
        values[gate] = andOf(read(values, a[gate]), read(values, b[gate]));
        break;
      case GateKind.choose:
        values[gate] = choiceOf(read(values, a[gate]), read(values, b[gate]), read(values, c[gate]));
        break;
      case GateKind.mark:
        values[gate] = read(values, a[gate]);
        break;
      default:
        values[gate] = unset;
    }
  }
}

function read(values: Int8Array, literal: Literal): number {
  const value = values[gateOf(literal)];
  return value === unset ? unset : value ^ (literal & 1);
}

function andOf(left: number, right: number): number {
  if (left === 0 || right === 0) return 0;
  return left === 1 && right === 1 ? 1 : unset;
}

function choiceOf(select: number, whenOne: number, whenZero: number): number {
  if (select === 1) return whenOne;
  if (select === 0) return whenZero;
  return whenOne === whenZero ? whenOne : unset;
}

/** The last choice that has not been turned yet, turned; false where all have been. */
function turnLast(decisions: Decision[], levels: Map<number, 0 | 1>): boolean {
  for (let last = decisions.pop(); last !== undefined; last = decisions.pop()) {
    levels.delete(last.variable);
    if (last.isSecond) continue;
    const level = (1 - last.level) as 0 | 1;
    levels.set(last.variable, level);
    decisions.push({ variable: last.variable, level, isSecond: true });
    return true;
  }
  return false;
}

/** Of the variables from which an open way leads to the result, the first in order. */
function variableToTry(
  gates: Gates,
  values: Int8Array,
  target: Literal,
  rank: ReadonlyMap<number, number>,
): number | null {
  let best: number | null = null;
  const rankOf = (variable: number): number => rank.get(variable) ?? rank.size + variable;
  const seen = new Set<number>();
  const waiting = [gateOf(target)];
  for (let gate = waiting.pop(); gate !== undefined; gate = waiting.pop()) {
    if (seen.has(gate) || values[gate] !== unset) continue;
    seen.add(gate);
    const variable = gates.a[gate];
    if (gates.kind[gate] !== GateKind.variable) waiting.push(...operandsOfGate(gates, gate).map(gateOf));
    else if (best === null || rankOf(variable) < rankOf(best)) best = variable;
  }
  return best;
}
