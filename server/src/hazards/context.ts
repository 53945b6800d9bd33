// What a rule may look at, and what a rule is. A rule decides and gives facts; it never writes a sentence and never sets
// a weight: `weights.ts` does that from what the rule found.

import type { ClockNetwork } from '../clocks/network';
import type { Limits } from '../budget';
import type { Netlist } from '../netlist/netlist';
import type { Violation } from '../predict/check-runs';
import type { Prediction } from '../predict/prediction';
import type { SettlingRead } from '../predict/settling-read';
import type { Finding, FindingId } from './finding';
import type { Glitch } from './glitch';

/** What a person stated in `foretick.json` that findings respect; names as in the report. */
export interface HazardOptions {
  /** Outputs used as strobes: a pulse on them is dangerous. */
  readonly strobes: readonly string[];
  /** Registers and ports that never change while they matter. */
  readonly static: readonly string[];
}

export interface HazardContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly prediction: Prediction;
  readonly options: HazardOptions;
  readonly limits: Limits;
  /** Decodes that may pass a wrong value; the findings about glitches read them from here. */
  readonly glitches: readonly Glitch[];
  /** Timing checks that the runs do not keep. */
  readonly violations: readonly Violation[];
  /** Registers that read a chain before it has settled. */
  readonly reads: readonly SettlingRead[];
}

/** A finding before it is weighed and merged with those of other instances at the same place. */
export interface RawFinding extends Omit<Finding, 'severity' | 'instances'> {
  /** Path of the instance it was found in; '' for the top. */
  readonly instance: string;
  /** What its weight depends on, where the identifier and certainty alone do not tell. */
  readonly weight: WeightFacts;
}

export interface WeightFacts {
  /** Of `gated-clock` and `switched-clock`. */
  readonly sound?: boolean;
  /** Of `decoded-glitch`: an end that matters. */
  readonly dangerous?: boolean;
  /** Of `trap-state`: the start or an input can lead into it. */
  readonly reachable?: boolean;
  /** Of `unresolved-module`, which reading complains about: its output clocks something. */
  readonly drivesClock?: boolean;
}

export interface FindingRule {
  readonly id: FindingId;
  find(context: HazardContext): readonly RawFinding[];
}
