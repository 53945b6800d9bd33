// A transition as a number or text by the levels of some variables: equal keys, equal levels before and after.

import type { Transition } from './glitch-forest';

export type Key = number | string;

/** Levels take two bits each, before and after: as many variables as a whole number holds. */
const mostInNumber = 13;

/** Levels of these variables before and after, in their order. */
export function keyOf(transition: Transition, variables: readonly number[]): Key {
  const { before, after, restless } = transition;
  if (restless.size > 0 || variables.length > mostInNumber) return longKey(transition, variables);
  let key = 0;
  for (const variable of variables) key = key * 16 + before[variable] * 4 + after[variable];
  return key;
}

function longKey({ before, after, restless }: Transition, variables: readonly number[]): string {
  let key = '';
  for (const variable of variables) {
    key += digits[before[variable] * 4 + after[variable]];
    if (restless.has(variable)) key += '!';
  }
  return key;
}

const digits = '0123456789abcdef';
