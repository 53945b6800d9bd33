// Everything that prediction says in numbers, for one netlist, drive and delay set. Times in ps, ratios exact.

import type { DelayTriple, RegisterId } from '../netlist/netlist';
import type { ClockId } from '../clocks/network';
import type { Why } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import type { Drive } from './drive';

/** An exact fraction in lowest terms. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export interface RegisterTiming {
  readonly register: RegisterId;
  /** Arrival of its active clock edge after the root edge; null without one root. */
  readonly arrival: DelayTriple | null;
  /** Output change after the root edge, per direction and over both; null where no direction can happen. */
  readonly settles: {
    readonly rise: DelayTriple | null;
    readonly fall: DelayTriple | null;
    readonly all: DelayTriple;
  } | null;
  /** Per bit, most significant first; null where the bit does not repeat within the limit. */
  readonly ratios: readonly (Fraction | null)[];
  readonly duties: readonly (Fraction | null)[];
  /** Root periods between updates where a periodic enable is proven (definition 6), else null. */
  readonly updateEvery: Fraction | null;
  /** Start value, most significant first, and where it comes from (definition 17). */
  readonly start: string;
  readonly startFrom: 'reset' | 'text' | 'assumed';
  /** Never leaves its start value, any input. */
  readonly constant: boolean;
  /** Can stay unknown for ever from x through reset and release, inputs free (definition 17). */
  readonly canStayUnknown: boolean;
}

export interface ClockTiming {
  readonly clock: ClockId;
  readonly ratio: Fraction | null;
  readonly duty: Fraction | null;
  readonly uniform: boolean | null;
  /** Root edge indices within one repetition at which it rises, where not uniform. */
  readonly pattern: readonly number[];
  readonly hertz: number | null;
}

/** The least period of a domain's root clock, and the transfer that asks for it; null with the reason. */
export interface LeastPeriod {
  /** ps; need not be whole. */
  readonly found: { readonly ps: number; readonly from: RegisterId; readonly to: RegisterId } | null;
  /**
   * The same over what is stated alone, for where that is not all: the period is no shorter, but may be longer. Null
   * where nothing of logic is stated.
   */
  readonly atLeast: LeastPeriod['found'];
  /** Why there is none, or what the number rests on. */
  readonly why: Why;
}

/** How often a bit comes and goes, in periods of a root; all null, with the reason, where no period is proven. */
export interface BitRate {
  /** Root periods per period of the bit. */
  readonly ratio: Fraction | null;
  /** Part of the time that it is high. */
  readonly duty: Fraction | null;
  /** Index in the network's roots. */
  readonly root: number | null;
  readonly why: Why | null;
}

export interface ChainTiming {
  /** Index in the network's chains. */
  readonly chain: number;
  /** From the root edge to the last change over all reachable transitions. */
  readonly settle: DelayTriple;
  readonly skew: DelayTriple;
  readonly worst: { readonly from: bigint; readonly to: bigint } | null;
  readonly maxClockHz: number | null;
  readonly readableClockHz: number | null;
  readonly toggleClockHz: number | null;
  readonly why: Why | null;
}

export type SequenceKind = 'up' | 'down' | 'gray' | 'ring' | 'johnson' | 'lfsr' | 'other';

export interface Count {
  /** Index in the network's chains; null for a vector register outside chains. */
  readonly chain: number | null;
  /** Most significant first. */
  readonly registers: readonly RegisterId[];
  readonly width: number;
  /** Decimal, the name that an enumeration gives, or binary digits with x where unknown. */
  readonly start: string;
  readonly leadIn: readonly string[];
  /** How many there are; more than listed where they are too many. */
  readonly leadInTotal: number;
  readonly values: readonly string[];
  readonly valuesTotal: number;
  /** In edges of the stage-1 clock; null where not proven within the limit. */
  readonly period: number | null;
  readonly kind: SequenceKind;
  readonly modulus: number | null;
  /** Of a linear feedback shift register: exponents of its feedback polynomial, largest first; else empty. */
  readonly polynomial: readonly number[];
  readonly trapped: readonly string[];
  /** Whether every unused state was followed; false where they are too many, or where nothing is counted. */
  readonly explored: boolean;
  /** Inputs held while counting: names and values. */
  readonly while: readonly { readonly signal: string; readonly value: string }[];
  readonly steps: readonly CountStep[];
  /** Why the period is null; null where it is proven. */
  readonly why: Why | null;
}

export interface CountStep {
  readonly from: string;
  readonly to: string;
  /** Readings passed on the way with typical delays, at ps after the root edge. */
  readonly passes: readonly { readonly at: number; readonly value: string }[];
}

export interface Prediction {
  readonly drive: Drive;
  readonly delaySet: DelaySet;
  /** Indexed by register id. */
  readonly registers: readonly RegisterTiming[];
  /** Indexed by clock id. */
  readonly clocks: readonly ClockTiming[];
  /** By domain id. */
  readonly leastPeriods: readonly LeastPeriod[];
  readonly chains: readonly ChainTiming[];
  readonly counts: readonly Count[];
  /** For each bit that was asked for, in that order. */
  readonly rates: readonly BitRate[];
  /** By register id: of the condition of a register that is enabled periodically, else null. */
  readonly enables: readonly (BitRate | null)[];
}
