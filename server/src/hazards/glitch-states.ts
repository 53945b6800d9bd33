// Follows a group's reachable states from the start, inputs free before each edge (definition 27 of the project), and
// tells of every root edge: the levels before it, after it, and what led there. Breadth first, so that the first way to
// a transition is a shortest one. Limited by states, free inputs and work; a limit reached is said, never silent.

import type { Limits } from '../budget';
import type { Transition } from './glitch-forest';
import type { InputsContext } from './glitch-inputs';

export interface StatesContext extends InputsContext {
  readonly limits: Limits;
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
