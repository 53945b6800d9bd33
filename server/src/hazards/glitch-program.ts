// Functions compiled to run for many settings at once: two-valued, 32 lanes to a word, one pass over columns. What lanes
// stand for is the caller's; it fills the words of the variables first. Every step is a choice, an AND being one
// against 0, and each value stands beside its inverse, so that nothing has to be told apart on the way.

import { coneOfLiterals, GateKind, gateOf, type Gates, type Literal } from './glitch-gates';

export interface Program {
  /** Places, each with two words: 2 × place its value, the next one the inverse. Place 0 is constant 0. */
  readonly count: number;
  /** Words that the first step chooses by, chooses where that is 1, and where it is 0; then of the second step; … */
  readonly steps: Int32Array;
  /** Place of the first step's value; the others follow. */
  readonly firstStep: number;
  /** Where each variable's words are filled. */
  readonly loads: readonly { readonly variable: number; readonly place: number }[];
  /** The words that were asked for. */
  readonly results: Int32Array;
}

/** Null where something in it is unknown: two values are not enough then. */
export function compileProgram(gates: Gates, wanted: readonly Literal[]): Program | null {
  const cone = coneOfLiterals(gates, wanted);
  if (cone.some((gate) => gates.kind[gate] === GateKind.unknown)) return null;
  const variables = cone.filter((gate) => gates.kind[gate] === GateKind.variable);
  const loads = variables.map((gate, index) => ({ variable: gates.a[gate], place: index + 1 }));
  const wordOf = new Map(variables.map((gate, index) => [gate, 2 * (index + 1)]));
  const word = (literal: Literal): number => (wordOf.get(gateOf(literal)) ?? zeroWord) ^ (literal & 1);
  const firstStep = variables.length + 1;
  const steps: number[] = [];
  for (const gate of cone) {
    const [a, b, c] = [gates.a[gate], gates.b[gate], gates.c[gate]];
    const isAnd = gates.kind[gate] === GateKind.and;
    if (isAnd || gates.kind[gate] === GateKind.choose) {
      wordOf.set(gate, 2 * (firstStep + steps.length / 3));
      steps.push(word(a), word(b), isAnd ? zeroWord : word(c));
    } else if (gates.kind[gate] === GateKind.mark) {
      wordOf.set(gate, word(a));
    }
  }
  return {
    count: firstStep + steps.length / 3,
    steps: Int32Array.from(steps),
    firstStep,
    loads,
    results: Int32Array.from(wanted, word),
  };
}

const zeroWord = 0;

/** Fills the words of a place from `base` on. */
export function setPlace(words: Int32Array, base: number, place: number, value: number): void {
  words[base + 2 * place] = value;
  words[base + 2 * place + 1] = ~value;
}

/** 32 lanes: the program's words stand from `base` on; those of place 0 and of the variables are filled. */
export function runProgram({ steps, firstStep }: Program, words: Int32Array, base: number): void {
  let into = base + 2 * firstStep;
  for (let step = 0; step < steps.length; step += 3) {
    const select = words[base + steps[step]];
    const value = (select & words[base + steps[step + 1]]) | (~select & words[base + steps[step + 2]]);
    words[into] = value;
    words[into + 1] = ~value;
    into += 2;
  }
}
