// One period of a circuit in terms: what is watched after each instant, and what registers and latches hold at its end.
// Only what can be unknown keeps two planes: first what is unknown at the beginning, then what that, or an operator
// that makes unknown values, can reach within a period, until nothing more is reached.

import { takeInstant } from './instants';
import type { CycleQuestion, CycleRefusal, Watched } from './plan';
import type { Term, Terms } from './term-kinds';
import { createTerms } from './terms';
import { isKnown, sameWord, sliceWord, type Word } from './words';
import { changedTerm, createWorld, type StatePart, statePartsOf, type World } from './world';

export interface Period {
  readonly terms: Terms;
  readonly state: readonly StatePart[];
  /** By state part: what it holds at the end. */
  readonly next: readonly Word[];
  /** By instant: what is watched and may have changed. */
  readonly looks: readonly (readonly Look[])[];
  /** By watched word: whether it can be unknown. */
  readonly canBeUnknown: readonly boolean[];
  readonly doubt: Term;
}

export interface Look {
  readonly watched: number;
  readonly word: Word;
}

/** `isOpen`: positions of state that are unknown at the beginning. */
export function periodOf(question: CycleQuestion, isOpen: ReadonlySet<number>): Period | CycleRefusal {
  const open = new Set(isOpen);
  for (;;) {
    const period = tryPeriod(question, open);
    if (typeof period === 'string') return period;
    const reached = period.state.filter((part, index) => !part.isOpen && !isKnown(period.terms, period.next[index]));
    if (reached.length === 0) return period;
    for (const { position } of reached) open.add(position);
  }
}

function tryPeriod(question: CycleQuestion, isOpen: ReadonlySet<number>): Period | CycleRefusal {
  const terms = createTerms();
  const state = statePartsOf(question.plan, isOpen);
  const world = createWorld(terms, question, state);
  const start = world.words.slice();
  const looks = question.instants.map((changes) => {
    const before = world.words.slice();
    if (world.refusal === null) takeInstant(world, question, changes);
    return looksAt(world, before, question.watched);
  });
  if (world.refusal !== null) return world.refusal;
  const sources = new Set(question.instants.flatMap((changes) => changes.map(({ position }) => position)));
  if ([...sources].some((position) => !sameWord(start[position], world.words[position])))
    return 'sources-do-not-return';
  const all = looks.flat();
  const canBeUnknown = question.watched.map((one, index) => {
    const seen = all.filter(({ watched }) => watched === index).map(({ word }) => word);
    return ![watchedWord(world, start, one), ...seen].every((word) => isKnown(terms, word));
  });
  const next = state.map(({ position }) => world.words[position]);
  return { terms, state, next, looks, canBeUnknown, doubt: world.doubt };
}

function looksAt(world: World, before: readonly Word[], watched: readonly Watched[]): readonly Look[] {
  if (world.refusal !== null) return [];
  return watched.flatMap((one, index) => {
    const word = watchedWord(world, world.words, one);
    const isSame = changedTerm(world, watchedWord(world, before, one), word) === world.terms.zero;
    return isSame ? [] : [{ watched: index, word }];
  });
}

function watchedWord({ terms }: World, words: readonly Word[], { low, position, width }: Watched): Word {
  return sliceWord(terms, words[position], low, width);
}
