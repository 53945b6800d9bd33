// Every reason this room can give for a complaint, with the arguments its sentence needs and the identifier it is
// reported under. `explain/` holds a sentence for each; this is the only list.

import type { LimitName } from '../budget';
import type { ReadingId } from '../text/complaint';

/** Reason → arguments. Names are as written in the source; `what` is a construct in the standard's words. */
export interface ElaborationReasons {
  // ---- syntax
  readonly 'modport-input': { readonly name: string; readonly modport: string };
  readonly 'net-assigned-in-process': { readonly name: string; readonly type: string };

  // ---- unresolved-name
  readonly 'undeclared-name': { readonly name: string };
  readonly 'not-a-type': { readonly name: string };
  readonly 'not-a-value': { readonly name: string };
  readonly 'pattern-key': { readonly name: string };
  readonly 'pattern-missing': { readonly name: string };
  readonly 'pattern-count': { readonly given: number; readonly parts: number };
  readonly 'not-assignable': { readonly name: string };
  readonly 'unknown-port': { readonly module: string; readonly port: string };
  readonly 'not-a-subroutine': { readonly name: string; readonly what: 'function' | 'task' };
  readonly 'argument-count': { readonly name: string; readonly given: number; readonly ports: number };
  readonly 'too-many-ports': { readonly module: string; readonly given: number; readonly ports: number };
  readonly 'port-connected-twice': { readonly module: string; readonly port: string };
  readonly 'unknown-parameter': { readonly module: string; readonly parameter: string };
  readonly 'too-many-parameters': { readonly module: string; readonly given: number; readonly parameters: number };
  readonly 'port-not-declared': { readonly module: string; readonly port: string };
  readonly 'unknown-top': { readonly module: string };

  readonly 'unknown-package': { readonly package: string };
  readonly 'not-in-package': { readonly package: string; readonly name: string };
  readonly 'ambiguous-import': { readonly name: string; readonly packages: string };
  readonly 'interface-not-given': { readonly interface: string };
  readonly 'interface-unconnected': { readonly port: string; readonly interface: string };
  readonly 'not-an-interface': { readonly port: string; readonly interface: string };
  readonly 'unknown-modport': { readonly interface: string; readonly modport: string };
  readonly 'not-in-modport': { readonly modport: string; readonly name: string };
  readonly 'import-cycle': { readonly package: string };

  readonly 'missing-data-file': { readonly path: string };

  // ---- unresolved-module
  readonly 'module-not-given': { readonly module: string };

  // ---- limit-reached
  readonly limit: { readonly limit: LimitName; readonly value: number; readonly name: string };
  readonly 'large-memory': {
    readonly name: string;
    readonly words: number;
    readonly width: number;
    readonly bits: number;
  };
  readonly 'cyclic-parameter': { readonly name: string };
  readonly 'recursive-module': { readonly module: string };

  // ---- unsupported: what is not read
  readonly construct: { readonly what: string };
  readonly 'declared-twice': { readonly name: string };
  readonly 'module-given-twice': { readonly module: string };
  readonly 'unit-given-twice': { readonly what: 'interface' | 'package'; readonly name: string };
  readonly 'not-constant': { readonly what: string };
  readonly 'unknown-constant': { readonly what: string };
  readonly 'range-reversed': { readonly name: string };
  readonly 'unsized-in-concatenation': { readonly text: string };
  readonly 'zero-replication': { readonly text: string };
  readonly 'case-equality': { readonly text: string };
  readonly 'label-never-matches': { readonly text: string };
  readonly 'bad-override': { readonly parameter: string; readonly text: string };
  readonly 'terminal-count': { readonly gate: string; readonly given: number };
  readonly 'terminal-width': { readonly gate: string; readonly width: number };
  readonly 'instance-array-width': { readonly name: string; readonly width: number; readonly expected: number };
  readonly 'negative-delay': { readonly text: string };
  readonly 'ignored-delay': { readonly text: string };
  readonly 'mixed-delays': { readonly name: string };
  readonly 'no-time-control': { readonly flavor: string };
  readonly 'stimulus-only': { readonly name: string };
  readonly 'test-bench': { readonly name: string };
  readonly 'loop-not-constant': { readonly text: string };
  readonly 'mixed-partial-write': { readonly name: string };
  readonly 'memory-written-apart': { readonly name: string; readonly why: ApartReason };
  readonly 'memory-without-clock': { readonly name: string };
  readonly 'bad-data-file': { readonly path: string; readonly text: string };
  readonly 'recursive-static': { readonly name: string; readonly what: 'function' | 'task' };
  readonly 'kept-variable': { readonly name: string };
  readonly 'unset-result': { readonly name: string };
  readonly 'assigned-outside-function': { readonly name: string; readonly function: string };

  // ---- unsupported: rules of register inference (IEEE 1364.1) that a process failed
  readonly 'clock-edges-mixed-with-levels': { readonly list: string };
  readonly 'clock-both-edges': { readonly signal: string };
  readonly 'clock-several-untested': { readonly signals: string };
  readonly 'clock-none-untested': { readonly signals: string };
  readonly 'clock-test-not-accepted': { readonly test: string; readonly signals: string };
  readonly 'clock-test-against-edge': { readonly test: string; readonly signal: string; readonly edge: string };
  readonly 'clock-written-beside-chain': { readonly name: string };
}

/** What keeps the processes that write one memory from being its ports. */
export type ApartReason = 'clock' | 'reset' | 'delay' | 'blocking' | 'count';

export type ElaborationReason = keyof ElaborationReasons;

/** The identifier each reason is reported under. */
export const readingIds: { readonly [Reason in ElaborationReason]: ReadingId } = {
  'net-assigned-in-process': 'syntax',
  'modport-input': 'syntax',
  'undeclared-name': 'unresolved-name',
  'not-a-type': 'unresolved-name',
  'not-a-value': 'unresolved-name',
  'pattern-key': 'unresolved-name',
  'pattern-missing': 'syntax',
  'pattern-count': 'syntax',
  'not-assignable': 'unresolved-name',
  'unknown-port': 'unresolved-name',
  'not-a-subroutine': 'unresolved-name',
  'argument-count': 'unresolved-name',
  'too-many-ports': 'unresolved-name',
  'port-connected-twice': 'unresolved-name',
  'unknown-parameter': 'unresolved-name',
  'too-many-parameters': 'unresolved-name',
  'port-not-declared': 'unresolved-name',
  'unknown-top': 'unresolved-name',
  'unknown-package': 'unresolved-name',
  'not-in-package': 'unresolved-name',
  'ambiguous-import': 'unresolved-name',
  'interface-not-given': 'unresolved-name',
  'interface-unconnected': 'unresolved-name',
  'not-an-interface': 'unresolved-name',
  'unknown-modport': 'unresolved-name',
  'not-in-modport': 'unresolved-name',
  'import-cycle': 'unresolved-name',
  'missing-data-file': 'unresolved-name',
  'module-not-given': 'unresolved-module',
  limit: 'limit-reached',
  'large-memory': 'limit-reached',
  'cyclic-parameter': 'limit-reached',
  'recursive-module': 'limit-reached',
  construct: 'unsupported',
  'declared-twice': 'unsupported',
  'module-given-twice': 'unsupported',
  'unit-given-twice': 'unsupported',
  'not-constant': 'unsupported',
  'unknown-constant': 'unsupported',
  'range-reversed': 'unsupported',
  'unsized-in-concatenation': 'unsupported',
  'zero-replication': 'unsupported',
  'case-equality': 'unsupported',
  'label-never-matches': 'unsupported',
  'bad-override': 'unsupported',
  'terminal-count': 'unsupported',
  'terminal-width': 'unsupported',
  'instance-array-width': 'unsupported',
  'negative-delay': 'unsupported',
  'ignored-delay': 'unsupported',
  'mixed-delays': 'unsupported',
  'no-time-control': 'unsupported',
  'stimulus-only': 'unsupported',
  'test-bench': 'unsupported',
  'loop-not-constant': 'unsupported',
  'mixed-partial-write': 'unsupported',
  'bad-data-file': 'unsupported',
  'recursive-static': 'unsupported',
  'memory-written-apart': 'unsupported',
  'memory-without-clock': 'unsupported',
  'kept-variable': 'unsupported',
  'unset-result': 'unsupported',
  'assigned-outside-function': 'unsupported',
  'clock-edges-mixed-with-levels': 'unsupported',
  'clock-both-edges': 'unsupported',
  'clock-several-untested': 'unsupported',
  'clock-none-untested': 'unsupported',
  'clock-test-not-accepted': 'unsupported',
  'clock-test-against-edge': 'unsupported',
  'clock-written-beside-chain': 'unsupported',
};
