// The transition that was timed last, kept for the next signal that hears the same bits.

import type { Blocks } from './glitch-blocks';
import type { TimedForest } from './glitch-case';
import type { Key } from './glitch-key';

/** A transition whose changes form a forest, timed, and what of it one signal hears. */
export interface Timing {
  readonly timed: TimedForest;
  /** Events that the signal hears. */
  readonly observed: readonly number[];
  readonly blocks: Blocks;
}

export interface LastTimed {
  value: {
    readonly root: number;
    readonly key: Key;
    readonly isKnotted: boolean;
    readonly actors: readonly number[];
    readonly observed: readonly number[];
    /** Null where its changes form no forest. */
    readonly timing: Timing | null;
  } | null;
}
