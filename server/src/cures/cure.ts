// What a cure is: a rewrite of the text that takes one finding away, what it promises, and what came of trying it.

import type { Finding, FindingId } from '../hazards/finding';
import type { DesignFacts } from '../report/design-facts';
import type { ReportFinding } from '../report/report';
import type { Change } from '../report/compare';
import type { Reading } from '../syntax/read';
import type { FileEdit, UnitEdit } from './edits';

export interface CureContext {
  readonly reading: Reading;
  readonly facts: DesignFacts;
}

/** One way to take away findings of one kind. */
export interface CureRule {
  readonly finding: FindingId;
  /** Null where the text is not of the form that it knows how to rewrite. */
  propose(context: CureContext, finding: Finding): Proposal | null;
}

export interface Proposal {
  /** What it does, as an order: `bring flag over through two flip-flops`. */
  readonly title: string;
  readonly edits: readonly UnitEdit[];
  readonly promise: Promised;
  /** What is different afterwards, in words; empty where nothing is. */
  readonly differs: readonly string[];
}

/**
 * circuit: everything the report knows of the design but the finding is as before; readings: what the top's outputs and the
 * named registers read at each settled instant is as before; none: the design does something else, as told.
 */
export type Promised =
  | { readonly kind: 'circuit' }
  | { readonly kind: 'readings'; readonly registers: readonly string[] }
  | { readonly kind: 'none' };

export interface Cure {
  readonly title: string;
  readonly edits: readonly FileEdit[];
  readonly differs: readonly string[];
  readonly proof: Proof;
}

export interface Proof {
  /** The finding is gone, nothing new was found, and the promise was kept as far as it was looked at. */
  readonly holds: boolean;
  /** What was looked at, and what stands against it. */
  readonly says: readonly string[];
  readonly gained: readonly ReportFinding[];
  /** Everything that differs between the two reports. */
  readonly changes: readonly Change[];
}
