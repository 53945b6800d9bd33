// The edges of a driven clock one after the other, each placed from its index and not by adding rounded periods
// (definition 19): edge k of a period p/q rises at the first rise plus round-half-up(k · p/q).

import type { DriveClock } from './drive';

export interface ClockEdges {
  /** Level before the first edge. */
  readonly startLevel: 0 | 1;
  /** ps of the next edge, and the level after it. */
  readonly time: number;
  readonly level: 0 | 1;
  advance(): void;
}

export function createClockEdges(clock: DriveClock): ClockEdges {
  const { numerator, denominator } = clock.exactPeriod ?? { numerator: clock.period, denominator: 1 };
  const whole = Math.floor(numerator / denominator);
  const rest = numerator - whole * denominator;
  // The exact place of the latest rise: `rise` + `part` / denominator. Sums stay small, so nothing is lost.
  let rise = clock.phase;
  let part = 0;
  let level: 0 | 1 = 1;
  let time = clock.phase;

  const edges = {
    startLevel: clock.phase === 0 ? (1 as const) : (0 as const),
    get time() {
      return time;
    },
    get level() {
      return level;
    },
    advance() {
      if (level === 1) {
        level = 0;
        time += clock.high;
        return;
      }
      rise += whole;
      part += rest;
      if (part >= denominator) {
        part -= denominator;
        rise++;
      }
      level = 1;
      time = rise + (2 * part >= denominator && part > 0 ? 1 : 0);
    },
  };
  // At time 0 nothing happens (definition 16): a clock that rises there starts high.
  if (clock.phase === 0) edges.advance();
  return edges;
}
