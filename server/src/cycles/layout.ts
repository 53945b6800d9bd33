// Where things stand in the memory that compiled code and its caller share. All of 64 bits, in bytes.

import type { Watched } from './plan';
import type { Terms } from './term-kinds';
import { limbsOf } from './words';
import type { StatePart } from './world';

export const header = {
  /** Whole periods taken by the last call; 32 bits. */
  taken: 0,
  /** Where the log ends; 32 bits. */
  logEnd: 4,
  /** As `Stop`; 32 bits. */
  stop: 8,
} as const;

/** Why a call came to its end: what was asked for is done, or as much as the log holds. */
export const Stop = { asked: 0, doubt: 1, home: 2 } as const;

/** Of one entry of the log: period within the call, watched + 65,536 × instant (both 32 bits), then both planes. */
export const entryBytes = 24;

export interface Layout {
  readonly state: number;
  /** Limbs to compare the state with, each with its mask. */
  readonly home: number;
  /** Two planes per watched word, as last seen. */
  readonly watched: number;
  readonly tables: readonly number[];
  readonly log: number;
  readonly logUntil: number;
  readonly pages: number;
  /** Most entries of the log in one period. */
  readonly entries: number;
}

const pageBytes = 65_536;
const logBytes = 24 * 40_000;

export function layoutOf(
  terms: Terms,
  state: readonly StatePart[],
  homes: number,
  watched: readonly Watched[],
  entriesPerPeriod: number,
): Layout {
  let at = 64;
  const take = (words: number): number => {
    const from = at;
    at += 8 * words;
    return from;
  };
  const stateAt = take(inputCount(state));
  const home = take(homes);
  const watchedAt = take(2 * watched.length);
  const tables = terms.tables.map((table) => take(table.length));
  const log = at;
  const pages = Math.ceil((log + logBytes + 2 * entriesPerPeriod * entryBytes) / pageBytes);
  return {
    state: stateAt,
    home,
    watched: watchedAt,
    tables,
    log,
    logUntil: pages * pageBytes,
    pages,
    entries: entriesPerPeriod,
  };
}

export function inputCount(state: readonly StatePart[]): number {
  return state.reduce((sum, { isOpen, width }) => sum + limbsOf(width) * (isOpen ? 2 : 1), 0);
}
