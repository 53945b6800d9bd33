// Expressions of a specify block as drafted nodes: ends of paths, events, conditions. What they read is read from outside
// every process.

import type { NodeId } from '../netlist/netlist';
import { sliceOf } from '../netlist/node-makers';
import type { At, Expression } from '../syntax/tables';
import { contextIn } from './constants';
import { lower } from './lower';
import type { ModuleDraft } from './module-draft';
import { createNodeReader } from './process-reader';
import type { Scope } from './scope';

export function sayUnread(draft: ModuleDraft, at: At, what: string): void {
  draft.log.add('construct', { what }, draft.source.place(at));
}

export function surroundings(draft: ModuleDraft, scope: Scope) {
  return { context: contextIn(draft, scope), reader: createNodeReader(draft, draft.otherReads, null) };
}

export function lowered(draft: ModuleDraft, scope: Scope, expression: Expression): NodeId {
  return lower(surroundings(draft, scope), expression);
}

/** Of a vector only the least significant bit is looked at (14.2.4.1, 15.6). */
export function conditionOf(draft: ModuleDraft, scope: Scope, condition: Expression): NodeId {
  return sliceOf(draft.nodes, lowered(draft, scope, condition), 0, 1, draft.source.place(condition.at));
}
