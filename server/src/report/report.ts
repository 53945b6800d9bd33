// The one object that answers every reader: editor, panel, command line, other programs. Types only; the JSON Schema in
// `report-shape.ts` says the same and a test holds the two together. Every field is always present: unknown = null,
// none = []. Lists are sorted by source position. Fields may be added; these keep name and meaning.

import type { Span } from '../text/place';
import type { Change } from './comparison';
import type { WhatIf } from './asked';
import type { DelayTriple } from '../netlist/netlist';
import type { ReportCrossing, ReportReset, ReportTransfer } from './report-crossings';
import type { Certainty, FactValue, FindingId, Severity } from '../hazards/finding';

/** Version of this form: raised when a field changes its meaning, not when one is added. */
export const schemaVersion = '1';

export interface Report {
  /** Version of the tool. */
  readonly foretick: string;
  readonly schema: string;
  /** Null where no module could be chosen: then only findings of reading are filled. */
  readonly top: string | null;
  readonly otherTops: readonly string[];
  /** Parameters of the top by name: decimal, or binary digits where a bit is unknown. */
  readonly parameters: Readonly<Record<string, string>>;
  /** Paths as given. */
  readonly files: readonly string[];
  readonly drive: ReportDrive;
  readonly delaySet: ReportStudiedDelays;
  readonly assumptions: readonly ReportAssumption[];
  readonly coverage: Coverage;
  readonly signals: readonly ReportSignal[];
  readonly registers: readonly ReportRegister[];
  readonly latches: readonly ReportLatch[];
  readonly memories: readonly ReportMemory[];
  readonly clocks: readonly ReportClock[];
  readonly domains: readonly ReportDomain[];
  readonly chains: readonly ReportChain[];
  readonly counts: readonly ReportCount[];
  readonly transfers: readonly ReportTransfer[];
  readonly crossings: readonly ReportCrossing[];
  readonly resets: readonly ReportReset[];
  readonly glitches: readonly ReportGlitch[];
  readonly outputs: readonly ReportOutput[];
  readonly rates: readonly ReportRate[];
  readonly findings: readonly ReportFinding[];
  /** Null where none was asked. */
  readonly whatIf: ReportWhatIf | null;
}

/** How it would be otherwise. */
export interface ReportWhatIf {
  /** `about` empty: all; `words`: `q[1] on the rising edge of its clock`. */
  readonly asked: readonly (WhatIf & { readonly words: string })[];
  /** Why the design cannot be asked so; then nothing else is told. */
  readonly refused: string | null;
  /** In sentences. */
  readonly answer: readonly string[];
  /** What the other report has gained, lost or altered, as a comparison has it. */
  readonly changes: readonly Change[];
}

export type Source = 'given' | 'text' | 'inferred' | 'name' | 'setting';

export type Active = 'high' | 'low';

/** ps */
export type Triple = DelayTriple;

export interface ReportDrive {
  /** Rises at phase + k × period, stays high for `high`; ps, the period exact: a whole number or `p/q`. */
  readonly clocks: readonly {
    readonly signal: string;
    readonly period: number | string;
    readonly high: number;
    readonly phase: number;
    /** Of the period. */
    readonly source: Source;
    readonly highSource: Source;
    readonly phaseSource: Source;
  }[];
  /** Active from 0 for `periods` periods of the slowest clock that samples it. */
  readonly resets: readonly {
    readonly signal: string;
    readonly active: Active;
    readonly periods: number;
    /** Of both: given only where both are. */
    readonly source: Source;
    readonly activeSource: Source;
    readonly periodsSource: Source;
  }[];
  readonly inputs: readonly ReportInput[];
}

/** `value`: held, or that at time 0 of an input that moves; in binary digits, most significant first. */
export interface ReportInput extends SignalValue {
  readonly moves: {
    readonly changes: readonly { readonly at: number; readonly value: string }[];
    readonly changesTotal: number;
    /** ps after which all changes come again, each that much later; null: it stays at the last. */
    readonly everyPs: number | null;
  } | null;
}

export interface SignalValue {
  readonly signal: string;
  readonly value: string;
  readonly source: Source;
}

export interface ReportDelaySet {
  readonly name: string;
  readonly sheet: string | null;
  readonly conditions: string | null;
  /** given: a person named it; setting: it is taken where nobody does. */
  readonly source: Source;
  /** False when every minimum equals its maximum. */
  readonly spread: boolean;
}

export interface ReportStudiedDelays extends ReportDelaySet {
  /** Instances and signals with delays of their own, as stated in `foretick.json`. */
  readonly overrides: readonly ReportOverride[];
}

export interface ReportOverride {
  readonly name: string;
  readonly sheet: string | null;
  readonly conditions: string | null;
  /** Which entries of a delay set are stated; the rest is as in the set. */
  readonly entries: readonly string[];
  /** How many take them. */
  readonly registers: number;
  readonly latches: number;
  readonly operators: number;
}

export interface ReportAssumption {
  readonly about: string;
  readonly value: string;
  readonly source: Source;
  readonly reason: string;
  readonly span: Span | null;
}

/** What was not analyzed, so that silence is not taken for safety. */
export interface Coverage {
  /** Registers without one root: their timing is unknown. */
  readonly unrooted: readonly string[];
  readonly blackBoxes: readonly { readonly instance: string; readonly module: string; readonly span: Span }[];
  readonly skipped: readonly { readonly message: string; readonly span: Span }[];
  /** Crossings and transfers by how far they were judged. */
  readonly checked: number;
  readonly assumed: number;
  readonly notChecked: number;
  readonly limits: readonly { readonly name: string; readonly limit: number; readonly span: Span | null }[];
}

export interface ReportSignal {
  readonly name: string;
  readonly width: number;
  readonly signed: boolean;
  readonly span: Span;
}

export interface Control {
  readonly signal: string;
  readonly active: Active;
}

export interface LoadingControl extends Control {
  /** Binary digits of the slice, or the text of the expression. */
  readonly value: string;
}

export interface ReportRegister {
  readonly name: string;
  readonly signal: string;
  /** Declared indices of the slice. */
  readonly msb: number;
  readonly lsb: number;
  readonly module: string;
  readonly clock: { readonly signal: string; readonly written: string; readonly edge: 'rising' | 'falling' };
  readonly root: { readonly signal: string; readonly edge: 'rising' | 'falling' | 'either' } | null;
  readonly roots: readonly string[];
  readonly domain: string | null;
  readonly stage: number;
  /** In priority order. */
  readonly asynchronous: readonly LoadingControl[];
  readonly synchronous: readonly LoadingControl[];
  readonly enable: Control | null;
  readonly enables: readonly {
    readonly msb: number;
    readonly lsb: number;
    readonly text: string;
    readonly span: Span;
  }[];
  /** `p/q` root periods between updates under a periodic enable. */
  readonly updateEvery: string | null;
  readonly start: string;
  readonly startFrom: 'reset' | 'text' | 'assumed';
  readonly constant: boolean;
  /** Its clock edge, ps after the root edge. */
  readonly arrival: Triple | null;
  /** Its output, ps after the root edge: per direction, and over both. */
  readonly settles: (Triple & { readonly rise: Triple | null; readonly fall: Triple | null }) | null;
  /** `p/q` root periods per period of its output; of a vector: of all its bits together. */
  readonly ratio: string | null;
  /** `p/q` of the time high; null for a vector. */
  readonly duty: string | null;
  /** Of a vector, most significant bit first; empty for one bit. */
  readonly bitRatios: readonly (string | null)[];
  readonly bitDuties: readonly (string | null)[];
  /** Its declaration. */
  readonly span: Span;
  /** The first assignment that samples it. */
  readonly sampleSpan: Span;
}

export interface ReportLatch {
  readonly name: string;
  /** Null for cross-coupled gates that no one input opens. */
  readonly gate: Control | null;
  readonly root: string | null;
  readonly domain: string | null;
  /** What sets and clears it, in priority order. */
  readonly asynchronous: readonly LoadingControl[];
  readonly intended: boolean;
  readonly span: Span;
}

export interface ReportMemory {
  readonly name: string;
  readonly words: number;
  readonly width: number;
  readonly ports: readonly {
    readonly kind: 'read' | 'write';
    readonly clock: string | null;
    readonly edge: 'rising' | 'falling' | null;
    readonly domain: string | null;
    readonly synchronous: boolean;
  }[];
  readonly span: Span;
}

export interface ReportClock {
  readonly signal: string;
  readonly kind: 'root' | 'inverted' | 'derived' | 'gated' | 'switched' | 'shared';
  readonly from: readonly string[];
  /** `p/q` root periods per period of this clock. */
  readonly ratio: string | null;
  readonly duty: string | null;
  readonly uniform: boolean | null;
  /** The root edges within one repetition at which it rises, where not uniform. */
  readonly pattern: readonly number[];
  readonly patternTotal: number;
  readonly hertz: number | null;
  /** Of gated and switched clocks. */
  readonly sound: boolean | null;
  readonly why: string | null;
  readonly domain: string | null;
  /** How many registers it clocks. */
  readonly registers: number;
  readonly span: Span;
}

export interface ReportDomain {
  readonly name: string;
  readonly roots: readonly string[];
  readonly registers: number;
  readonly related: readonly string[];
  readonly leastPeriod: { readonly ps: number; readonly from: string; readonly to: string } | null;
  readonly why: string | null;
  readonly span: Span;
}

export interface ReportChain {
  readonly root: string | null;
  readonly registers: readonly string[];
  readonly settle: Triple | null;
  /** Arrival at the last stage minus arrival at the first. */
  readonly skew: Triple | null;
  /** The transition that settles last, as decimal strings, first stage = bit 0. */
  readonly worst: { readonly from: string; readonly to: string } | null;
  readonly maxClockHz: number | null;
  readonly readableClockHz: number | null;
  readonly toggleClockHz: number | null;
  readonly why: string | null;
  readonly span: Span;
}

export interface Pass {
  /** ps after the root edge */
  readonly at: number;
  readonly value: string;
}

export interface ReportCount {
  /** Most significant first. */
  readonly registers: readonly string[];
  readonly start: string;
  readonly leadIn: readonly string[];
  readonly leadInTotal: number;
  /** Settled readings, `start` first, one per active edge of the stage-1 clock, ending before the repetition. */
  readonly values: readonly string[];
  readonly valuesTotal: number;
  readonly period: number | null;
  readonly kind: 'up' | 'down' | 'gray' | 'ring' | 'johnson' | 'lfsr' | 'other';
  readonly modulus: number | null;
  /**
   * Of a linear feedback shift register: exponents of its feedback polynomial, largest first, else empty. The bit that
   * leaves is the sum of those that left as many steps before as the exponents but 0 say.
   */
  readonly polynomial: readonly number[];
  readonly trapped: readonly string[];
  readonly trappedTotal: number;
  /** Whether every unused state was followed, so that `trapped` is all there is. */
  readonly explored: boolean;
  readonly while: readonly { readonly signal: string; readonly value: string }[];
  readonly steps: readonly { readonly from: string; readonly to: string; readonly passes: readonly Pass[] }[];
  readonly stepsTotal: number;
  /** Why the period is unproven; null where it is proven. */
  readonly why: string | null;
  readonly span: Span;
}

export interface ReportGlitch {
  readonly signal: string;
  readonly certainty: Certainty;
  /** Register bits, most significant first. */
  readonly registers: readonly string[];
  readonly transitions: readonly ReportTransition[];
  readonly transitionsTotal: number;
  readonly ends: readonly {
    readonly kind: 'clock' | 'reset' | 'latch' | 'memory' | 'tristate' | 'crossing' | 'output' | 'data' | 'black-box';
    readonly signal: string;
    readonly harmless: boolean;
    readonly harmlessAbovePs: number | null;
  }[];
  readonly harmless: boolean;
  readonly why: string;
  readonly span: Span;
}

export interface ReportTransition {
  readonly from: string;
  readonly to: string;
  readonly passes: readonly Pass[];
  readonly pulse: Triple;
  /** Inputs per root period from the start that lead here; empty where it comes by itself. */
  readonly witness: readonly {
    readonly period: number;
    readonly inputs: readonly { readonly signal: string; readonly value: string }[];
  }[];
}

export interface ReportOutput {
  readonly name: string;
  readonly form: 'registered' | 'decoded' | 'through' | 'mixed' | 'clock';
  readonly glitchFree: boolean | null;
  readonly span: Span;
}

export interface ReportRate {
  readonly signal: string;
  /** `periods` of the root as `p/q`. */
  readonly period: { readonly periods: string; readonly seconds: number } | null;
  readonly high: { readonly periods: string; readonly seconds: number } | null;
  /** Hz */
  readonly wished: number | null;
  /** Of the wish: (found − wished) / wished. */
  readonly error: number | null;
  /** Why no period is proven; null where it is. */
  readonly why: string | null;
  readonly span: Span;
}

export interface ReportFinding {
  readonly id: FindingId;
  readonly certainty: Certainty | null;
  readonly severity: Severity;
  readonly message: string;
  readonly signals: readonly string[];
  readonly instances: readonly string[];
  readonly span: Span;
  readonly related: readonly { readonly message: string; readonly span: Span }[];
  /** The keys per id stand in the schema. */
  readonly facts: Readonly<Record<string, FactValue>>;
  /** Why a person accepted it, as stated in `foretick.json`. */
  readonly accepted: { readonly reason: string } | null;
}
