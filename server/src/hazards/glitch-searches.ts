// What searches for glitches came to, kept by what each hangs on (`glitch-search-key.ts`), so that an edit searches only
// what it changes, and identical instances are searched once. Whoever takes over what an earlier study has kept says
// what a fresh study says. What one study does not use is not kept for the next.

import type { BitNames } from '../netlist/bit-names';
import type { Candidate } from './glitch-candidates';
import type { Choice, FreeInputs } from './glitch-inputs';
import { choiceName, rootName } from './glitch-inputs';
import type { Workshop } from './glitch-parts';
import type { LimitReached } from './glitch-states';
import type { FoundTransition, Tally } from './glitch-tally';

/** What following a group's states came to. */
export interface Search {
  readonly tallies: readonly Tally[];
  readonly limits: readonly LimitReached[];
  /** Followed in all, begun from, and settings of the inputs tried at each. */
  readonly states: number;
  readonly starts: number;
  readonly settings: number;
}

/** The same without names and candidates, variables by rank. */
interface KeptSearch extends Omit<Search, 'tallies'> {
  readonly tallies: readonly KeptTally[];
}

interface KeptTally extends Omit<Tally, 'candidate' | 'certain' | 'possible'> {
  readonly certain: readonly KeptTransition[];
  readonly possible: readonly KeptTransition[];
}

interface KeptTransition extends Omit<FoundTransition, 'inputs'> {
  readonly inputs: KeptInputs;
}

interface KeptInputs extends Omit<FreeInputs, 'choices'> {
  readonly choices: readonly {
    readonly rank: number;
    readonly usual: Choice['usual'];
    readonly kind: Choice['kind'];
    readonly isClocked: boolean;
    readonly mask: Choice['mask'];
  }[];
}

export interface Searches {
  find(key: string): KeptSearch | null;
  keep(key: string, search: KeptSearch): void;
  /** Everything has been searched: what was not asked for is of no use any more. */
  finish(): void;
  /** For the next study. */
  readonly kept: ReadonlyMap<string, KeptSearch>;
}

/** `before`: of an earlier study, looked at when the first search is asked for: that study may still be under way. */
export function createSearches(before?: Pick<Searches, 'kept'>): Searches {
  const own = new Map<string, KeptSearch>();
  let earlier: Searches['kept'] | null = null;
  let isFinished = false;
  const earlierOnes = (): Searches['kept'] => {
    earlier ??= before?.kept ?? new Map<string, KeptSearch>();
    return earlier;
  };
  return {
    find(key) {
      const known = own.get(key) ?? earlierOnes().get(key) ?? null;
      if (known !== null) own.set(key, known);
      return known;
    },
    keep: (key, search) => own.set(key, search),
    finish() {
      isFinished = true;
      earlier = new Map();
    },
    get kept() {
      return isFinished ? own : new Map([...earlierOnes(), ...own]);
    },
  };
}

export function withoutNames({ tallies, ...rest }: Search, variables: readonly number[]): KeptSearch {
  const rankOf = new Map(variables.map((variable, rank) => [variable, rank]));
  const known = new Map<FreeInputs, KeptInputs>();
  const inputsOf = (inputs: FreeInputs): KeptInputs => {
    const found = known.get(inputs) ?? keptInputs(inputs, rankOf);
    known.set(inputs, found);
    return found;
  };
  const transitionsOf = (found: readonly FoundTransition[]) =>
    found.map((one): KeptTransition => ({ ...one, inputs: inputsOf(one.inputs) }));
  return {
    ...rest,
    tallies: tallies.map(({ candidate, certain, possible, ...tally }) => ({
      ...tally,
      certain: transitionsOf(certain),
      possible: transitionsOf(possible),
    })),
  };
}

function keptInputs({ choices, ...inputs }: FreeInputs, rankOf: ReadonlyMap<number, number>): KeptInputs {
  return {
    ...inputs,
    choices: choices.map(({ clock, kind, mask, usual, variable }) => {
      return { rank: rankOf.get(variable) ?? -1, usual, kind, isClocked: clock !== null, mask };
    }),
  };
}

export interface NamedBy {
  readonly workshop: Workshop;
  readonly names: BitNames;
  readonly candidates: readonly Candidate[];
  readonly variables: readonly number[];
}

export function withNames({ tallies, ...rest }: KeptSearch, by: NamedBy): Search {
  const known = new Map<KeptInputs, FreeInputs>();
  const inputsOf = (inputs: KeptInputs): FreeInputs => {
    const found = known.get(inputs) ?? namedInputs(inputs, by);
    known.set(inputs, found);
    return found;
  };
  const transitionsOf = (found: readonly KeptTransition[]) =>
    found.map((one): FoundTransition => ({ ...one, inputs: inputsOf(one.inputs) }));
  return {
    ...rest,
    tallies: tallies.map(({ certain, possible, ...tally }, index) => ({
      ...tally,
      candidate: by.candidates[index],
      certain: transitionsOf(certain),
      possible: transitionsOf(possible),
    })),
  };
}

function namedInputs({ choices, ...inputs }: KeptInputs, { names, variables, workshop }: NamedBy): FreeInputs {
  return {
    ...inputs,
    choices: choices.map(({ isClocked, kind, mask, rank, usual }): Choice => {
      const variable = variables[rank];
      const { bit } = workshop.logic.variables[variable];
      const clock = isClocked ? rootName(workshop, variable) : null;
      return { variable, bit, signal: choiceName(workshop, names, variable), usual, kind, clock, mask };
    }),
  };
}
