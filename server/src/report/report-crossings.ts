// The parts of the report that say what passes from one register to another and how it is protected: transfers inside a
// domain, crossings between domains, resets. Types only; see `report.ts` for the rules that hold for all of it.

import type { DelayTriple } from '../netlist/netlist';
import type { Span } from '../text/place';

export interface ReportTransfer {
  readonly from: string;
  readonly to: string;
  readonly pair: { readonly launch: number; readonly capture: number };
  readonly skew: DelayTriple;
  readonly setup: DelayTriple;
  readonly hold: DelayTriple;
  /** ps */
  readonly distance: number;
  readonly span: Span;
}

export interface ReportCrossing {
  /** The first of `sources`. */
  readonly from: string;
  readonly sources: readonly string[];
  readonly to: string;
  readonly fromDomain: string;
  readonly toDomain: string;
  readonly bits: number;
  readonly synchronizer: 'none' | 'one-flop' | 'two-flop' | 'three-flop' | 'gray' | 'toggle' | 'handshake' | 'enable';
  readonly depth: number;
  readonly status: 'bare' | 'protected' | 'assumed' | 'accepted';
  readonly evidence: readonly string[];
  readonly mtbfLog10Seconds: number | null;
  readonly span: Span;
}

export interface ReportReset {
  readonly signal: string;
  readonly active: 'high' | 'low';
  readonly kind: 'asynchronous' | 'synchronous';
  readonly release: 'synchronized' | 'raw';
  /** How many registers it resets. */
  readonly registers: number;
  readonly domains: readonly string[];
  readonly span: Span;
}
