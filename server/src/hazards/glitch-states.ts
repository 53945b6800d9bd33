// What following reachable states from the start is told and tells (definition 27 of the project: inputs free before
// each edge). Two ways do it: `glitch-lockstep.ts` and `glitch-walk.ts`. Breadth first, so that the first way to a
// transition is a shortest one. Limited by states, free inputs and work; a limit reached is said, never silent.

import type { Limits } from '../budget';
import type { Transition } from './glitch-forest';
import type { Extent, Group } from './glitch-groups';
import type { FreeInputs, InputsContext } from './glitch-inputs';
import type { Starts } from './glitch-start';

export interface StatesContext extends InputsContext {
  readonly limits: Limits;
  readonly starts: Starts;
}

/** How a transition is reached: the settings of the inputs at each edge from the start, newest first. */
export interface Way {
  readonly before: Way | null;
  /** Number of the setting (`glitch-inputs.ts`) in force at this edge. */
  readonly setting: number;
  /** Root periods since the start. */
  readonly period: number;
}

export type LimitReached = 'states' | 'inputs' | 'starts' | 'work';

/** Must not keep the transition: its arrays are used again. */
export type OnEdge = (transition: Transition, way: Way) => void;

/** Whether a transition with these levels of its actors, whatever they sample, tells a candidate of the group nothing new. */
export type Knows = (candidate: number, transition: Transition) => boolean;

export interface FollowResult {
  readonly states: number;
  readonly limits: readonly LimitReached[];
  /** Every candidate was shown every transition that there can be, reached or not: a limit keeps nothing from it. */
  readonly sawAll: boolean;
}

/** What is followed, and from where. */
export interface Journey {
  readonly group: Group;
  readonly extent: Extent;
  readonly inputs: FreeInputs;
  /** Levels at the start of everything recorded, held or state, by variable. */
  readonly levels: Uint8Array;
  /** Levels of the extent's state variables to begin from, in their order. */
  readonly states: readonly Uint8Array[];
  /** Level of the clock before the edge that matters. */
  readonly restLevel: 0 | 1;
  /** Whether one edge of each period matters, or both. */
  readonly edges: 'one' | 'both';
}
