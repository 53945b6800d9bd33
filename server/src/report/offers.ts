// What a person may choose for a study instead of what it has: another top, another delay set.

import { builtInDelaySets } from '../delays/built-in-sets';
import type { Study } from './study';

export interface OfferedChoices {
  /** Modules of the study, in source order. */
  readonly tops: readonly string[];
  /** Those that come with the tool, then the project's own. */
  readonly delaySets: readonly string[];
}

export function* offersOf(study: Study): Generator<void, OfferedChoices> {
  const { modules } = yield* study.elaboration();
  const { delaySets } = study.input.options;
  const names = [...builtInDelaySets.map(({ name }) => name), ...Object.keys(delaySets)];
  return { tops: modules.map(({ name }) => name), delaySets: [...new Set(names)] };
}
