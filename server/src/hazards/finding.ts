// A finding as data. `hazards/` decides and gives facts; `explain/` words them; severity follows the table of weights.

import type { Place } from '../text/place';
import type { Why } from '../clocks/network';

export type FindingId =
  | 'derived-clock'
  | 'ripple-chain'
  | 'gated-clock'
  | 'switched-clock'
  | 'opposite-edges'
  | 'clock-as-data'
  | 'skewed-transfer'
  | 'unclear-clock'
  | 'setup-hold'
  | 'recovery-removal'
  | 'narrow-pulse'
  | 'read-while-settling'
  | 'bare-crossing'
  | 'bus-crossing'
  | 'logic-before-synchronizer'
  | 'rejoined-crossing'
  | 'short-pulse-crossing'
  | 'raw-input'
  | 'reset-release'
  | 'reset-crossing'
  | 'decoded-reset'
  | 'reset-in-enable'
  | 'decoded-glitch'
  | 'structural-hazard'
  | 'glitch-into-clock'
  | 'glitch-into-reset'
  | 'glitch-into-latch'
  | 'unintended-latch'
  | 'combinational-loop'
  | 'unknown-start'
  | 'trap-state'
  | 'mixed-assignment'
  | 'stale-sensitivity'
  | 'shared-driver'
  | 'text-race'
  | 'syntax'
  | 'unsupported'
  | 'limit-reached'
  | 'unresolved-name'
  | 'unresolved-module';

export type Certainty = 'certain' | 'possible';
export type Severity = 'error' | 'warning' | 'information' | 'hint';

export type FactValue = string | number | boolean | null | readonly string[] | readonly number[];

export interface Finding {
  readonly id: FindingId;
  readonly certainty: Certainty | null;
  readonly severity: Severity;
  /** Full names of all it is about. */
  readonly signals: readonly string[];
  /** Instance paths it was found in, where more than one finding falls on one place. */
  readonly instances: readonly string[];
  readonly place: Place;
  readonly related: readonly { readonly place: Place; readonly why: Why }[];
  /** Keys per id stand in the report's schema. */
  readonly facts: Readonly<Record<string, FactValue>>;
}
