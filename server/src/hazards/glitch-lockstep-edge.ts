// The levels around one edge of a lockstep journey, in arrays that are used again for the next one: those of the clock,
// of the bits followed, and of the inputs as chosen, as far as some candidate can ask for them.

import type { Transition } from './glitch-forest';
import { levelIn } from './glitch-inputs';
import { levelInState, type StateTable } from './glitch-state-table';
import type { Journey } from './glitch-states';

export interface LockstepEdge {
  /** Takes the levels before the edge. */
  leave(states: StateTable, state: number): void;
  /** Takes those after it, and what is chosen at it. */
  enter(states: StateTable, state: number, setting: number): Transition;
}

export function createEdge({ group, extent, levels, restLevel, inputs }: Journey): LockstepEdge {
  const before = levels.slice();
  const after = levels.slice();
  for (const variable of group.recorded) {
    if (group.part(variable).kind !== 'root') continue;
    before[variable] = restLevel;
    after[variable] = 1 - restLevel;
  }
  const recorded = new Set(group.recorded);
  const bits = [...extent.state.keys()].filter((bit) => recorded.has(extent.state[bit]));
  const choices = [...inputs.choices.keys()].filter((choice) => recorded.has(inputs.choices[choice].variable));
  const chosen = choices.map((choice) =>
    Uint8Array.from({ length: inputs.settings }, (_, setting) => levelIn(inputs, setting, choice)),
  );
  const transition: Transition = { before, after, restless: new Set() };
  return {
    leave(states, state) {
      for (const bit of bits) before[extent.state[bit]] = levelInState(states, state, bit);
    },
    enter(states, state, setting) {
      for (const bit of bits) after[extent.state[bit]] = levelInState(states, state, bit);
      choices.forEach((choice, index) => {
        const { variable } = inputs.choices[choice];
        before[variable] = after[variable] = chosen[index][setting];
      });
      return transition;
    },
  };
}
