// What the Timing preview draws, as one plain object: the panel, the HTML page and `preview --format json` read the
// same. Types only. Everything here is decided: whoever draws it folds, scales and places, but computes no fact and
// words no sentence. Times are whole ps from the start of the run; values are digits 0 1 x z, most significant first.

import type { Span } from '../text/place';
import type { ReviewItem } from './review-items';
import type {
  ReportAssumption,
  ReportCount,
  ReportDelaySet,
  ReportDrive,
  ReportFinding,
  ReportWhatIf,
  Triple,
} from './report';

export interface PreviewData {
  /** Version of the tool. */
  readonly foretick: string;
  readonly top: string | null;
  /** ps; everything before this instant is predicted. */
  readonly end: number;
  /** One line each for the head of the page: `clk 50 MHz`, `start 0`, `delays: unit`. */
  readonly headline: readonly string[];
  readonly drive: ReportDrive;
  readonly delaySet: ReportDelaySet;
  /** What registers hold at first where neither text nor reset says so; null where there is no design. */
  readonly start: '0' | '1' | 'x' | null;
  readonly assumptions: readonly ReportAssumption[];
  /** Groups in the order they are drawn: by clock domain, then what belongs to none. */
  readonly groups: readonly PreviewGroup[];
  /** In the order they are drawn within their group: root clock, then stage by stage, outputs last. */
  readonly traces: readonly PreviewTrace[];
  readonly readings: readonly PreviewReading[];
  readonly glitches: readonly PreviewGlitch[];
  /** Every change that a trace shows or that caused one, in time order. A cause has a smaller index. */
  readonly links: readonly PreviewLink[];
  readonly findings: readonly ReportFinding[];
  readonly counts: readonly ReportCount[];
  /** The states of what is counted; empty while they are still searched for. */
  readonly states: readonly PreviewStates[];
  /** What an engineer signs: domains, clocks, crossings, resets, outputs, and what was not analyzed; empty without a design. */
  readonly review: readonly ReviewItem[];
  /** What this tool does not see; shown beside every result. */
  readonly cautions: readonly string[];
  /** Why the run ends early, in words; null where it is whole. */
  readonly cut: string | null;
  /** Null where none was asked. */
  readonly whatIf: PreviewWhatIf | null;
}

/** How it would be otherwise, and the traces that would run otherwise. */
export interface PreviewWhatIf extends ReportWhatIf {
  readonly traces: readonly {
    /** Index in `traces`. */
    readonly trace: number;
    readonly start: string;
    readonly changes: { readonly at: readonly number[]; readonly value: readonly string[] };
  }[];
}

/** The traces of one clock domain. */
export interface PreviewGroup {
  /** Name of the domain; of the last group, of what belongs to none: null. */
  readonly name: string | null;
  /** Instants of the domain's root edges that any register follows, ps. */
  readonly rootEdges: readonly number[];
}

export type TraceKind = 'clock' | 'reset' | 'input' | 'register' | 'latch' | 'output' | 'logic';

export interface PreviewTrace {
  /** Full name: `clk`, `q[3]`, `u1.count[7:0]`. */
  readonly name: string;
  readonly kind: TraceKind;
  /** Index in `groups`. */
  readonly group: number;
  /** Depth of indentation: 0 for the root, else the stage. */
  readonly indent: number;
  /** Bits; more than 1 for a folded vector. */
  readonly width: number;
  /** The folded vector that this bit unfolds from (index in `traces`, always smaller); null where it stands alone. */
  readonly parent: number | null;
  /** Beside the name: `stage 2, +17 ns`; a few words, or empty. */
  readonly note: string;
  /** Its declaration. */
  readonly span: Span;
  /** What samples it: clock, edge and the line that says so; null for clocks, inputs and logic. */
  readonly clock: { readonly signal: string; readonly edge: 'rising' | 'falling'; readonly span: Span } | null;
  /** By binary digits, what an enumeration calls the value; absent where there is none. */
  readonly names?: Readonly<Record<string, string>>;
  /** Value from time 0 until the first change; `width` digits. */
  readonly start: string;
  /** Parallel lists, in strictly increasing time. */
  readonly changes: {
    readonly at: readonly number[];
    readonly value: readonly string[];
    /** Index in `links` of the (last) change that made this value. */
    readonly link: readonly number[];
  };
  /** Active clock edges at which it kept its value, and why. */
  readonly held: readonly PreviewHeld[];
  /** From the earliest to the latest possible change after a root edge, in order and without overlap; none where both are one. */
  readonly settling: readonly PreviewBand[];
  /** Stretches in which the value is not known for certain, and why: a race, or an edge from x. */
  readonly doubts: readonly { readonly at: number; readonly words: string }[];
}

export interface PreviewHeld {
  readonly at: number;
  /** Index in `links` of the clock's change; -1 where it is not among them. */
  readonly cause: number;
  readonly words: string;
}

/** Within [from, to], ps, it may be moving: the delay set says no closer when it changes. */
export interface PreviewBand {
  readonly from: number;
  readonly to: number;
  /** The (first) root edge or input change that it follows, ps. */
  readonly rootEdge: number;
  /** `once`: it goes over to its new value in one change; `many`: it may come and go, or pass other values. */
  readonly moves: 'once' | 'many';
  /** Both ends are reached by some choice of delays; else the band holds every change and may be wider than needed. */
  readonly exact: boolean;
}

/** One change of one bit: a link of every account that runs through it. */
export interface PreviewLink {
  /** Full name of the bit. */
  readonly signal: string;
  readonly at: number;
  readonly before: string;
  readonly after: string;
  /** Index in `links` of the change that caused it; -1 for the drive. */
  readonly cause: number;
  readonly kind: 'drive' | 'sampled' | 'asynchronous' | 'latch' | 'logic';
  /** The line that makes it so: the sampling assignment, the expression, the port. */
  readonly span: Span;
  /** `q[3] rose at 347 ns because its clock q[2] fell at 342 ns (line 12)`. */
  readonly words: string;
}

/** The number that a group of bits holds at each settled instant. */
export interface PreviewReading {
  /** `q`, or `q[3] q[2] q[1] q[0]` where the bits are of several signals. */
  readonly name: string;
  /** Names of the bits, most significant first: the order in which the number is read. */
  readonly bits: readonly string[];
  /** Index in `traces` after whose last bit it is drawn. */
  readonly after: number;
  readonly group: number;
  /** By binary digits, what an enumeration calls the value; absent where there is none. */
  readonly names?: Readonly<Record<string, string>>;
  /** Without gaps from 0 to `end`. `value` in binary digits; null while a bit is still moving. */
  readonly stretches: readonly { readonly from: number; readonly to: number; readonly value: string | null }[];
  /** `counts up, modulo 16; passes 6 4 0 on the way from 7 to 8`; empty where no sequence was recognized. */
  readonly caption: string;
  /** Index in `counts`; null where none. */
  readonly count: number | null;
}

/** A pulse that should not be there, where it happens. */
export interface PreviewGlitch {
  /** Index in `traces`. */
  readonly trace: number;
  readonly at: number;
  readonly until: number;
  readonly certainty: 'certain' | 'possible';
  readonly harmless: boolean;
  readonly pulse: Triple;
  readonly from: string;
  readonly to: string;
  /** `pulse of 5 ns on 7→8, reaches a port`. */
  readonly words: string;
}

/** The states of one register, or of a ripple chain, and the steps between them, with inputs free before each edge. */
export interface PreviewStates {
  /** Most significant first. */
  readonly registers: readonly string[];
  readonly width: number;
  /**
   * followed: each step is taken by some inputs. bounded: what other registers decide is open, so that states and steps
   * may be told that never come. run: with inputs held. Null where nothing is told; `why` says the reason.
   */
  readonly method: 'followed' | 'bounded' | 'run' | null;
  /** What `method` means, in words. */
  readonly sure: string;
  /** Decimal, as all values here. */
  readonly start: string | null;
  /** Reached, nearest to the start first. */
  readonly states: readonly {
    readonly value: string;
    /** What the text calls this value. */
    readonly name: string | null;
    /** `when` in words: one of these conditions; empty: always. */
    readonly next: readonly { readonly to: string; readonly when: string }[];
  }[];
  readonly statesTotal: number;
  /** Never reached. */
  readonly unused: readonly {
    readonly value: string;
    readonly name: string | null;
    /** returns: whatever the inputs do; may-return: by some of them; trapped: never. */
    readonly fate: 'returns' | 'may-return' | 'trapped';
    /** Of one that returns: edges until it has, at most; null where they were not counted. */
    readonly within: number | null;
    readonly to: readonly string[];
    readonly words: string;
  }[];
  /** Null where it was not looked at each of them. */
  readonly unusedTotal: number | null;
  /** All of it in one sentence. */
  readonly words: string;
  /** `counts up, modulo 16`; empty where no count is of them. */
  readonly sequence: string;
  /** Index in `counts`; null where none is of them. */
  readonly count: number | null;
  /** Why nothing is told; null where something is. */
  readonly why: string | null;
  /** Of the declaration. */
  readonly span: Span;
}
