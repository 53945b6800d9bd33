// Which transitions tell some candidate something new while states are followed in lockstep: most show the levels that
// it has been shown before, and need not be looked at. Told by numbers made of the bits of packed states. A candidate
// that hears too many bits for that is shown everything.

import { createView, codeOf, keepKnown, type View } from './glitch-view';
import type { StateTable } from './glitch-state-table';
import type { Journey } from './glitch-states';

export interface Shown {
  /** Takes the state before the edge. False: whatever comes after it is new to nobody. */
  leave(states: StateTable, state: number): boolean;
  /** Whether the state after it, under this setting, is new to some candidate. */
  isNew(states: StateTable, state: number, setting: number): boolean;
  /** The same levels need not be shown again to those who know them: asked for each to whom they were new. */
  keep(knows: (candidate: number) => boolean): void;
  /** Whether everything that there can be was shown and is known. */
  isOver(): boolean;
}

export function createShown(journey: Journey): Shown {
  const views = journey.group.candidates.map(({ scene }) => createView(journey, scene));
  const codes = views.map(() => ({ before: 0, after: 0 }));
  let open: readonly number[] = [];
  const isUnknown = (view: number): boolean => {
    const { known, bits } = views[view];
    const { before, after } = codes[view];
    return known === null || known[(after << bits.length) | before] === 0;
  };
  return {
    leave(states, state) {
      open = views.flatMap((view, index) => {
        codes[index].before = codeOf(view, states, state);
        return view.open[codes[index].before] === 0 ? [] : [index];
      });
      return open.length > 0;
    },
    isNew(states, state, setting) {
      let isAnyNew = false;
      for (const index of open) {
        const view = views[index];
        codes[index].after = (view.chosen[setting] << view.bits.length) | codeOf(view, states, state);
        isAnyNew ||= isUnknown(index);
      }
      return isAnyNew;
    },
    keep(knows) {
      for (const index of open) {
        if (isUnknown(index) && knows(index)) keepKnown(views[index], codes[index].before, codes[index].after);
      }
    },
    isOver: () => views.every(isClosed),
  };
}

function isClosed({ open }: View): boolean {
  return open.every((count) => count === 0);
}
