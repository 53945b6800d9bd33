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
  /** Values as written: a Verilog constant or a decimal number, held; or how the input moves. */
  readonly inputs: Readonly<Record<string, string | InputShape>>;
  readonly start: '0' | '1' | 'x';
}

/**
 * How an input moves; ps, values as written. `levels`: the first at 0, later ones in order; begun again every `everyPs`.
 * `pulse`: at the other level before and after. `button`: a contact that opens again `bounces` times, evenly within
 * `bouncePs`, after it is pressed and after it is released.
 * `serial`: bytes one behind the other on a line that rests high, each a start bit 0, eight data bits with the lowest
 * first, and a stop bit 1, at `baud` bits per second. `random`: a new value every `stepPs` from `atPs` on, the seed's.
 */
export type InputShape =
  | {
      readonly kind: 'levels';
      readonly levels: readonly { readonly atPs: number; readonly value: string }[];
      readonly everyPs: number | null;
    }
  | {
      readonly kind: 'pulse';
      readonly atPs: number;
      readonly widthPs: number;
      readonly everyPs: number | null;
      readonly active: 'high' | 'low';
    }
  | {
      readonly kind: 'button';
      readonly pressPs: number;
      readonly releasePs: number | null;
      readonly bouncePs: number;
      readonly bounces: number;
      readonly active: 'high' | 'low';
    }
  | {
      readonly kind: 'serial';
      readonly atPs: number;
      readonly baud: number;
      /** Each 0 to 255. */
      readonly bytes: readonly number[];
    }
  | {
      readonly kind: 'random';
      readonly atPs: number;
      readonly stepPs: number;
      /** 1 to 2^31 - 2. */
      readonly seed: number;
    };

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
  /** Of the period. */
  readonly source: Source;
  readonly highSource: Source;
  readonly phaseSource: Source;
}

/** Active from 0 until `release` (ps). */
export interface DriveReset {
  readonly bit: Bit;
  readonly name: string;
  readonly active: 'high' | 'low';
  readonly periods: number;
  readonly release: number;
  /** Of both: given only where both are. */
  readonly source: Source;
  readonly activeSource: Source;
  readonly periodsSource: Source;
}

export interface DriveInput {
  readonly signal: SignalId;
  readonly name: string;
  /** At time 0, and as long as it is held. */
  readonly value: Bits;
  /** Null: held. */
  readonly moves: InputMoves | null;
  readonly source: Source;
  readonly why: Why | null;
}

export interface InputMoves {
  /** After time 0, in order; ps. */
  readonly changes: readonly { readonly at: number; readonly value: Bits }[];
  /** ps after which all changes come again, each time that much later; null: it stays at the last. */
  readonly everyPs: number | null;
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
