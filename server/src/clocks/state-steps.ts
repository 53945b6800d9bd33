// The states that register bits of one clock are seen in from their start, and the steps between two that are taken, with
// free inputs: the same machine as for codes (`gray-machine.ts`), followed to its end or not at all.

import type { Bit } from '../netlist/netlist';
import type { Context } from './context';
import { followMachine } from './gray-code';
import type { RegisterClocking } from './network';

export interface StateSteps {
  /** Digits of the bits, in the order asked for. */
  readonly states: ReadonlySet<string>;
  /** `from to`. */
  readonly taken: ReadonlySet<string>;
}

/** Null where they are not registers of one clock with a known start, or too many states. */
export function stepsOf(
  context: Context,
  clocking: readonly RegisterClocking[],
  bits: readonly Bit[],
): StateSteps | null {
  const states = new Set<string>();
  const taken = new Set<string>();
  const followed = followMachine(context, clocking, bits, (from, to) => {
    states.add(from).add(to);
    taken.add(`${from} ${to}`);
  });
  return followed === 'all' ? { states, taken } : null;
}
