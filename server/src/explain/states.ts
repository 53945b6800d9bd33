// The states of a register in words: how sure it is, how many there are, when a step is taken, and what becomes of the
// states that are never reached.

import { countWords, shortListWords } from './words';

export interface StatesStory {
  readonly method: 'followed' | 'bounded' | 'run';
  readonly width: number;
  readonly statesTotal: number;
  /** Null where it was not looked at each of them. */
  readonly unused: readonly UnusedStory[] | null;
}

export interface UnusedStory {
  /** Its name, or its value. */
  readonly name: string;
  readonly fate: 'returns' | 'may-return' | 'trapped';
  /** Edges. */
  readonly within: number | null;
}

/** A condition as named or written, and whether it holds. */
export interface ConditionStory {
  readonly text: string;
  readonly holds: boolean;
}

/** `start and not stop, or ticks == 0`; empty: always. */
export function whenWords(when: readonly (readonly ConditionStory[])[]): string {
  if (when.some((all) => all.length === 0)) return '';
  const ways = when.map((all) => all.map(conditionWords).join(' and '));
  return ways.length > mostWays ? `in ${ways.length} cases` : ways.join(', or ');
}

/** With more of them, none is read. */
const mostWays = 4;

function conditionWords({ text, holds }: ConditionStory): string {
  if (holds) return text;
  return /^[\w.$[\]]+$/.test(text) ? `not ${text}` : `not (${text})`;
}

/** `5 of 8 values are reached; 5, 6 and 7 are not: each returns within 1 edge`. */
export function statesWords({ method, statesTotal, unused, width }: StatesStory): string {
  const reached = method === 'bounded' ? 'are reached at most' : 'are reached';
  const all = width <= 53 ? 2 ** width : null;
  const head =
    all === statesTotal ? `all ${all} values ${reached}` : `${statesTotal} of ${all ?? `2^${width}`} values ${reached}`;
  const rest =
    unused === null ? (all === statesTotal ? '' : 'what becomes of the others was not looked at') : fateWords(unused);
  const inputs = method === 'run' ? ', as it runs with its inputs held' : '';
  return [`${head}${inputs}`, rest].filter((part) => part !== '').join('; ');
}

function fateWords(unused: readonly UnusedStory[]): string {
  const names = (fate: UnusedStory['fate']) => unused.filter((each) => each.fate === fate).map(({ name }) => name);
  const parts = [
    [names('returns'), returnsWords(unused)],
    [names('may-return'), 'if an upset led there, some input would lead back'],
    [names('trapped'), 'if an upset led there, nothing would lead back'],
  ] as const;
  return parts
    .flatMap(([list, words]) => (list.length === 0 ? [] : [`${shortListWords(list, 4)}: ${words}`]))
    .join('; ');
}

function returnsWords(unused: readonly UnusedStory[]): string {
  const edges = unused.flatMap(({ within }) => (within === null ? [] : [within]));
  const within = edges.length === 0 ? '' : ` within ${countWords(Math.max(...edges), 'edge')}`;
  return `if an upset led there, it would return${within}`;
}

export function fateWord({ fate, within }: Pick<UnusedStory, 'fate' | 'within'>): string {
  if (fate === 'trapped') return 'never returns';
  if (fate === 'may-return') return 'returns by some input';
  return within === null ? 'returns' : `returns within ${countWords(within, 'edge')}`;
}

/** How sure the states are, for beside them. */
export const methodWords: Readonly<Record<StatesStory['method'], string>> = {
  followed: 'each step can be taken, whatever the inputs do before each edge',
  bounded:
    'what other registers decide is taken as open: states and steps may be told that never come, none is left out',
  run: 'as it runs with its inputs held',
};
