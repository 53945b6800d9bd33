// A delay set: how long things take, as data. The form is that of `foretick.json`. Times are ps, triples min:typ:max
// (IEEE 1497's form). Null means not stated: it counts as 0 and the report says so.

import type { DelayTriple, LatchId, NodeId, RegisterId } from '../netlist/netlist';

/** A delay per direction of the output's change. */
export interface DirectionalDelay {
  readonly rise: DelayTriple;
  readonly fall: DelayTriple;
}

/** Classes of operators that a set may give a delay to. */
export const logicClasses = [
  'buffer',
  'inverter',
  'gate',
  'multiplexer',
  'comparison',
  'arithmetic',
  'shift',
  'select',
  'tristate',
] as const;
export type LogicClass = (typeof logicClasses)[number];

export interface DelaySet {
  readonly name: string;
  /** Document the numbers come from; null for an assumption. */
  readonly sheet: string | null;
  /** Supply, load, temperature; or what is assumed. */
  readonly conditions: string | null;
  readonly clockToQ: {
    /** For a stage clocked from outside the package. */
    readonly first: DirectionalDelay;
    /** For a stage clocked inside the package; null: as `first`. */
    readonly next: DirectionalDelay | null;
  };
  /** Stage s takes `first` when (s - 1) mod stagesPerPart = 0; null: every stage takes `first` if s = 1, else `next`. */
  readonly stagesPerPart: number | null;
  readonly logic: Readonly<Partial<Record<LogicClass, DirectionalDelay>>> | null;
  readonly latch: DirectionalDelay | null;
  /** Asynchronous control to output. */
  readonly clear: DirectionalDelay | null;
  readonly setup: DelayTriple | null;
  readonly hold: DelayTriple | null;
  readonly recovery: DelayTriple | null;
  readonly removal: DelayTriple | null;
  readonly width: DelayTriple | null;
  /** Least period of a clock at the first stage, ps; null where not published. */
  readonly period: DelayTriple | null;
  readonly tau: DelayTriple | null;
  readonly window: DelayTriple | null;
  /** What takes other delays than these; absent where nothing does. */
  readonly own?: OwnDelays;
}

/** The whole set, its open entries filled in, by what takes it. Absent: the design's set. */
export interface OwnDelays {
  readonly registers: ReadonlyMap<RegisterId, DelaySet>;
  readonly latches: ReadonlyMap<LatchId, DelaySet>;
  /** Operators. */
  readonly nodes: ReadonlyMap<NodeId, DelaySet>;
}
