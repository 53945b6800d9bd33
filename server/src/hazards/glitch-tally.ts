// What a candidate's transitions come to: each different one judged once, since judging is dear, and kept by certainty.

import type { Limits } from '../budget';
import type { Candidate } from './glitch-candidates';
import { moves, type Transition } from './glitch-forest';
import type { FreeInputs } from './glitch-inputs';
import { createKnown } from './glitch-known';
import { leastMoving } from './glitch-scene';
import { sourcesOf } from './glitch-sources';
import type { Way } from './glitch-states';
import type { Judgement } from './glitch-verdict';
import { createVerdictOf, type Verdicts } from './glitch-verdicts';

export interface FoundTransition {
  readonly judgement: Judgement;
  /** What the settings of its way mean. */
  readonly inputs: FreeInputs;
  /** Levels of the candidate's register bits, most significant first. */
  readonly from: string;
  readonly to: string;
  readonly way: Way;
}

export interface Tally {
  readonly candidate: Candidate;
  readonly certain: readonly FoundTransition[];
  readonly possible: readonly FoundTransition[];
  /** Latest settling over all transitions, ps; null where one is not known. */
  readonly settled: number | null;
  readonly limits: readonly ('transitions' | 'orders')[];
  /** How many different transitions were judged. */
  readonly judged: number;
  /** Nothing found, and nothing there to find in any state. */
  readonly isProven: boolean;
}

/** A transition as it is found, before its inputs are known. */
type Found = Omit<FoundTransition, 'inputs'>;

export interface Judge {
  /** What has been found, by inputs that are free in the way told. */
  tally(inputs: FreeInputs): Tally;
  look(transition: Transition, way: Way): void;
  /** Whether transitions with these levels of the scene's actors tell nothing new, whatever those sample. */
  knows(transition: Transition): boolean;
}

/** `bits`: the candidate's register variables, most significant first. */
export function createJudge(
  candidate: Candidate,
  bits: readonly number[],
  { limits, verdicts }: { readonly limits: Limits; readonly verdicts: Verdicts },
): Judge {
  const { scene } = candidate;
  const found: Record<'certain' | 'possible', Found[]> = { certain: [], possible: [] };
  const reached = new Set<'transitions' | 'orders'>();
  let settled: number | null = 0;
  let work = 0;
  const known = createKnown(scene);
  const verdictOf = createVerdictOf(verdicts, scene, limits);
  const pairs = new Map<string, 'certain' | 'possible'>();
  const sources = sourcesOf(scene);
  const fewest = leastMoving(scene);
  const hasReset = candidate.ends.some(({ kind }) => kind === 'reset');

  const isTooStill = (transition: Transition): boolean => countMoving(transition, sources) < fewest;

  const isOnlyPossible = ({ from, to }: Found): boolean => pairs.get(`${from} ${to}`) !== 'certain';

  function judge(transition: Transition, way: Way): void {
    const judgement = verdictOf(transition);
    known.add(transition, judgement?.hangsOn ?? 'actors');
    if (judgement === null) return;
    work += judgement.work;
    settled = latest(settled, judgement);
    if (judgement.kind === 'undecided') reached.add('orders');
    if (judgement.kind !== 'certain' && judgement.kind !== 'possible') return;
    const from = levelsOf(transition.before, bits);
    const to = levelsOf(transition.after, bits);
    const pair = `${from} ${to}`;
    const told = pairs.get(pair);
    if (told === judgement.kind || told === 'certain') return;
    pairs.set(pair, judgement.kind);
    found[judgement.kind].push({ judgement, from, to, way });
  }

  return {
    tally: (inputs) => ({
      candidate,
      certain: found.certain.map((one) => ({ ...one, inputs })),
      // What other inputs make certain is told once.
      possible: found.possible.filter(isOnlyPossible).map((one) => ({ ...one, inputs })),
      settled,
      limits: [...reached],
      judged: known.count(),
      isProven: false,
    }),
    look(transition, way) {
      if (isTooStill(transition)) return;
      // A control that clears the very bits it hears pulses by design; that is `decoded-reset`, not a glitch.
      if (hasReset && transition.restless.size > 0) return;
      if (known.has(transition)) return;
      if (work >= workPerState * limits.states) {
        reached.add('transitions');
        return;
      }
      judge(transition, way);
    },
    knows: (transition) => isTooStill(transition) || known.hasByActors(transition),
  };
}

/** Work of judging per candidate and state that the limit allows, as `Judgement.work` counts it. */
const workPerState = 16;

function latest(settled: number | null, judgement: Judgement): number | null {
  return settled === null || judgement.settled === null ? null : Math.max(settled, judgement.settled);
}

function countMoving(transition: Transition, variables: readonly number[]): number {
  let count = transition.restless.size > 0 ? 2 : 0;
  for (const variable of variables) if (moves(transition, variable)) count += 1;
  return count;
}

/** Binary digits of the bits, in their order; x where unknown. */
export function levelsOf(levels: Uint8Array, bits: readonly number[]): string {
  return bits.map((variable) => (levels[variable] > 1 ? 'x' : levels[variable])).join('');
}

/**
 * What was found where not all could be followed, by two ways: following everything as far as it went, and following
 * the nearest bits alone, where more is reached than can be. What both know stands as the first has it.
 */
export function joinTallies(exact: Tally, wider: Tally): Tally {
  const known = new Set([...exact.certain, ...exact.possible].map(({ from, to }) => `${from} ${to}`));
  const added = [...wider.certain, ...wider.possible].filter(({ from, to }) => !known.has(`${from} ${to}`));
  return {
    candidate: exact.candidate,
    certain: exact.certain,
    possible: [...exact.possible, ...added],
    settled: exact.settled === null || wider.settled === null ? null : Math.max(exact.settled, wider.settled),
    limits: wider.limits,
    judged: exact.judged,
    isProven: false,
  };
}
