// A register that reads a chain before its last change is sure to be there: what was found of it, and what it is found in.

import type { DelayTriple, RegisterId } from '../netlist/netlist';
import type { ChainTiming, Prediction } from './prediction';
import type { WrongReadings } from './settling-reads-values';
import type { TimedRun } from './timed-engine';

export interface SettlingRead {
  readonly to: RegisterId;
  /** Index in the network's chains. */
  readonly chain: number;
  /** Members that it hears, first stage first. */
  readonly heard: readonly RegisterId[];
  /** ps: from the edge that moves the chain to the edge that reads it, its clock's later arrival added. */
  readonly available: DelayTriple;
  /** ps: after the edge that moves the chain, what is heard of it. */
  readonly settle: DelayTriple;
  /** ps: longest way through logic, and setup. */
  readonly path: number;
  readonly setup: number;
  readonly worst: ChainTiming['worst'];
  /** Null where the sequence is not known, or something clears it on its way. */
  readonly wrong: WrongReadings | null;
  /** Whatever the delays are, some reading is wrong: of a chain that is read at every edge. */
  readonly isCertain: boolean;
  /** It samples only while it is enabled; the run shows that it does while the chain may move. */
  readonly isEnabled: boolean;
  /** Nobody has said how fast the clock is, or, between its two edges, how long it is high. */
  readonly clockAssumed: boolean;
  /** The two edges are one and the same kind, a period apart. */
  readonly isWholePeriod: boolean;
}

export interface ReadsContext extends Omit<TimedRun, 'triple'> {
  readonly prediction: Prediction;
}
