// When the changes of one instant happen, from what the settled stepper says of their order: a sampled output at its
// clock's arrival plus clock-to-output, a cleared one after the change that made its control act. ps after the root edge.

import type { DelaySet } from '../delays/delay-set';
import { setOfRegister } from '../delays/own-delays';
import { addTriples, latestTriple, zeroDelay, zeroTriple } from '../delays/triple';
import { type Digit, digitAt } from '../netlist/four-state';
import type { DelayTriple, RegisterId } from '../netlist/netlist';
import { type Arrival, type Arrivals, launched } from './arrival';
import type { LogicDelays } from './arrival-logic';
import type { SettledChange } from './settled-machine';

export interface TimedChange {
  readonly register: RegisterId;
  readonly bit: number;
  readonly to: Digit;
  readonly time: DelayTriple;
}

export interface EventContext {
  readonly arrivals: Arrivals;
  readonly logic: LogicDelays;
  readonly delaySet: DelaySet;
}

/** One bit that changed in an instant, as `collectChanges` notes it. */
export interface BitChange {
  readonly step: number;
  readonly register: RegisterId;
  readonly bit: number;
  readonly to: Digit;
  readonly kind: SettledChange['kind'];
}

/** Adds what a register's change means for its bits. */
export function collectChanges(into: BitChange[], register: RegisterId, { step, from, to, kind }: SettledChange): void {
  for (let bit = 0; bit < to.width; bit++) {
    const digit = digitAt(to, bit);
    if (digit !== digitAt(from, bit)) into.push({ step, register, bit, to: digit, kind });
  }
}

/** Changes of one instant, in the order of their steps; null where some register's clock has no arrival. */
export function timeChanges(
  { arrivals, logic, delaySet }: EventContext,
  changes: readonly BitChange[],
): TimedChange[] | null {
  const timed: TimedChange[] = [];
  let before = zeroTriple;
  let latest = zeroTriple;
  let step = 0;
  for (const { register, bit, to, kind, step: own } of changes) {
    if (own !== step) before = latest;
    step = own;
    const output = kind === 'sampled' ? arrivals.outputOf(register) : clearedOutput(before, register);
    const time = towards(output, to);
    if (time === null) return null;
    timed.push({ register, bit, to, time });
    latest = latestTriple(latest, time);
  }
  return timed;

  /** Its control acts after the latest change before, through the logic between. */
  function clearedOutput(cause: DelayTriple, register: RegisterId): Arrival {
    const { clear } = setOfRegister(delaySet, register);
    return launched(addTriples(cause, logic.toControlsOf(register)), clear ?? zeroDelay);
  }
}

/** To an unknown level: the smaller of the two directions (IEEE 1364-2005 7.14). */
function towards({ rise, fall }: Arrival, digit: Digit): DelayTriple | null {
  if (digit === '1') return rise;
  if (digit === '0' || rise === null || fall === null) return fall;
  return { min: Math.min(rise.min, fall.min), typ: Math.min(rise.typ, fall.typ), max: Math.min(rise.max, fall.max) };
}
