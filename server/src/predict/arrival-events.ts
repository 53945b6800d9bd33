// When the changes of one instant happen, from what the settled stepper says of their order: a sampled output at its
// clock's arrival plus clock-to-output, a cleared one after the change that made its control act. ps after the root edge.

import type { DelaySet, DirectionalDelay } from '../delays/delay-set';
import { addTriples, latestTriple, zeroDelay, zeroTriple } from '../delays/triple';
import { digitAt } from '../netlist/four-state';
import type { DelayTriple, RegisterId } from '../netlist/netlist';
import type { Arrivals } from './arrival';
import type { LogicDelays } from './arrival-logic';
import type { SettledChange, SettledMachine } from './settled-machine';

export interface TimedChange {
  readonly register: RegisterId;
  readonly bit: number;
  readonly to: '0' | '1' | 'x';
  readonly time: DelayTriple;
}

/** Changes of single bits, in the order of the steps; null where some register's clock has no arrival. */
export function timeChanges(
  changes: readonly SettledChange[],
  machine: SettledMachine,
  arrivals: Arrivals,
  logic: LogicDelays,
  delaySet: DelaySet,
): TimedChange[] | null {
  const timed: TimedChange[] = [];
  let latest = zeroTriple;
  let latestOfStep = zeroTriple;
  let step = 0;
  for (const change of changes) {
    const { id } = machine.plan.registers[change.register].register;
    if (change.step !== step) latest = latestOfStep;
    step = change.step;
    const cause = change.kind === 'sampled' ? arrivals.clockOf(id) : addTriples(latest, logic.toControlsOf(id));
    if (cause === null) return null;
    const delay = change.kind === 'sampled' ? arrivals.clockToOutputOf(id) : (delaySet.clear ?? zeroDelay);
    for (const bit of changedBits(change)) {
      const to = digitAt(change.to, bit);
      const time = addTriples(cause, delayTo(delay, to));
      timed.push({ register: id, bit, to: to === '0' || to === '1' ? to : 'x', time });
      latestOfStep = latestTriple(latestOfStep, time);
    }
  }
  return timed;
}

function changedBits({ from, to }: SettledChange): number[] {
  const bits: number[] = [];
  for (let bit = 0; bit < to.width; bit++) if (digitAt(from, bit) !== digitAt(to, bit)) bits.push(bit);
  return bits;
}

/** To an unknown level: the smaller of the two (IEEE 1364-2005 7.14). */
function delayTo({ rise, fall }: DirectionalDelay, digit: string): DelayTriple {
  if (digit === '1') return rise;
  if (digit === '0') return fall;
  return { min: Math.min(rise.min, fall.min), typ: Math.min(rise.typ, fall.typ), max: Math.min(rise.max, fall.max) };
}
