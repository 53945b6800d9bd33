// The parts of the report that say who is clocked by what: signals, registers, latches, memories, clocks, domains. Types
// only; see `report.ts` for the rules that hold for all of it.

import type { DelayTriple } from '../netlist/netlist';
import type { Span } from '../text/place';

/** ps */
export type Triple = DelayTriple;

export type Active = 'high' | 'low';

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
  readonly gate: Control;
  readonly root: string | null;
  readonly domain: string | null;
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
