// How the design is driven: clocks, resets, held inputs; what was given and what was assumed (definition 35).

import type { Place } from '../text/place';
import type { Why } from '../clocks/network';
import type { Bit, SignalId } from '../netlist/netlist';
import type { Bits } from '../netlist/four-state';

export type Source = 'given' | 'text' | 'inferred' | 'name' | 'setting';

/** What a person stated about the drive; names as in the report; ps. */
export interface DriveOptions {
  readonly clocks: Readonly<
    Record<
      string,
      { readonly periodPs: number | null; readonly highPs: number | null; readonly phasePs: number | null }
    >
  >;
  readonly resets: Readonly<
    Record<string, { readonly active: 'high' | 'low' | null; readonly periods: number | null }>
  >;
  /** Values as written: a Verilog constant or a decimal number. */
  readonly inputs: Readonly<Record<string, string>>;
  readonly start: '0' | '1' | 'x';
}

/**
 * A periodic clock: low before its first rise at `phase`, rises again every `period`, stays high for `high` (ps, whole
 * numbers). A phase of 0: it starts high, and its first edge falls.
 */
export interface DriveClock {
  /** Index in the network's roots; -1 for a port that a person drives as a clock though nothing is clocked by it. */
  readonly root: number;
  readonly bit: Bit;
  readonly name: string;
  /** The whole ps nearest to the exact period. */
  readonly period: number;
  /** The exact period in ps as a fraction, where it is no whole number; edge k stands at the rounded k-th multiple. */
  readonly exactPeriod: { readonly numerator: number; readonly denominator: number } | null;
  readonly high: number;
  readonly phase: number;
  readonly source: Source;
}

/** Active from 0 until `release` (ps). */
export interface DriveReset {
  readonly bit: Bit;
  readonly name: string;
  readonly active: 'high' | 'low';
  readonly periods: number;
  readonly release: number;
  readonly source: Source;
}

export interface DriveInput {
  readonly signal: SignalId;
  readonly name: string;
  readonly value: Bits;
  readonly source: Source;
  readonly why: Why | null;
}

/** A bit that reads 1 while nothing drives it: an inout used on an edge, taken to have a pull-up (definition 7). */
export interface DrivePull {
  readonly bit: Bit;
  readonly name: string;
}

export interface Assumption {
  /** What it is about: a signal's name, or a word such as `delays`, `start`. */
  readonly about: string;
  readonly value: string;
  readonly source: Source;
  readonly why: Why;
  readonly place: Place | null;
}

export interface Drive {
  readonly clocks: readonly DriveClock[];
  readonly resets: readonly DriveReset[];
  readonly inputs: readonly DriveInput[];
  readonly pulls: readonly DrivePull[];
  readonly assumptions: readonly Assumption[];
}
