// Which changes of this instant have no fixed order with a clock edge of this instant (definitions 22, 28, 34): all that
// the edge has not itself caused. A register whose sample depends on one of them is in a race. A clock that arrives
// through logic without delay arrives with its origin: an inverter or gate without delay makes no skew.

import type { EngineState } from './engine-state';
import { ChangeKind } from './waves';

/**
 * Dense bits without a driver in logic without delay that have changed in this instant in no fixed order with the edge
 * `pinChange`, and that some register's sample could depend on.
 */
export function unorderedLeaves(state: EngineState, pinChange: number): readonly number[] {
  const { race, log } = state;
  const origin = originOf(state, pinChange);
  if (race.origin === origin && race.changeCount === log.count) return race.leaves;
  race.origin = origin;
  race.changeCount = log.count;
  findUnordered(state, origin);
  return race.leaves;
}

/** Whether a change of this instant is an effect of another one. */
export function isCausedBy(state: EngineState, change: number, other: number): boolean {
  let at = change;
  while (at > other && at >= state.instantStart) at = state.log.cause[at];
  return at === other && other >= state.instantStart;
}

/** The change behind an edge that logic without delay has only passed on. */
function originOf(state: EngineState, change: number): number {
  const { cause, kind } = state.log;
  let origin = change;
  while (kind[origin] === ChangeKind.logic && cause[origin] >= state.instantStart) origin = cause[origin];
  return origin;
}

/** Fills the view. A bit that has changed twice in the instant may stand in it twice. */
function findUnordered(state: EngineState, origin: number): void {
  const { log, race, instantStart } = state;
  const { feedsData, cells, cellDelay } = state.plan;
  if (race.caused.length < log.count - instantStart) race.caused = new Uint8Array(2 * (log.count - instantStart));
  const { caused, leaves } = race;
  leaves.length = 0;
  for (let change = instantStart; change < log.count; change++) {
    const cause = log.cause[change];
    const isCaused =
      change > origin && cause >= instantStart && (cause === origin || caused[cause - instantStart] === 1);
    caused[change - instantStart] = isCaused ? 1 : 0;
    const bit = log.bit[change];
    if (isCaused || feedsData[bit] === 0) continue;
    const driver = cells.driverOf[bit];
    if (driver < 0 || cellDelay[driver] !== 0) leaves.push(bit);
  }
}
