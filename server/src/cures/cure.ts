// What a cure is: a rewrite of the text that takes one finding away, what it promises, and what came of trying it.

import type { Finding, FindingId } from '../hazards/finding';
import type { DesignFacts } from '../report/design-facts';
import type { ReportFinding } from '../report/report';
import type { Change } from '../report/comparison';
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
  /** What a person must want before it is written, beside what trying it shows; absent where nothing. */
  readonly asks?: readonly string[];
  /** Signals that no such finding may name afterwards; absent: the finding itself must be gone. */
  readonly frees?: readonly string[];
  /** Information that the finding included and that is told by itself afterwards. */
  readonly uncovers?: readonly FindingId[];
}

/**
 * circuit: everything the report knows of the design but the finding is as before; readings: registers and the top's outputs
 * read at each settled instant as before; none: the design does something else, as told.
 */
export type Promised =
  | { readonly kind: 'circuit' }
  | { readonly kind: 'readings'; readonly later?: Later; readonly still?: Still }
  | { readonly kind: 'none' };

/** Signals that read just after each such edge what they read just before it until now. */
export interface Later {
  readonly names: readonly string[];
  readonly clock: string;
  readonly edge: 'rising' | 'falling';
}

/** Inputs that are taken to move only while a clock is at a level. */
export interface Still {
  readonly names: readonly string[];
  readonly clock: string;
  readonly level: 0 | 1;
}

export interface Cure {
  readonly title: string;
  readonly edits: readonly FileEdit[];
  readonly differs: readonly string[];
  /** What a person must want before it is written; empty where nothing. */
  readonly asks: readonly string[];
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
