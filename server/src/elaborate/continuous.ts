// Continuous assignments, and values in net declarations (IEEE 1364-2005 6.1): one driver per stretch of the target.

import type { NodeId } from '../netlist/netlist';
import { sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At, DelayTable, Expression } from '../syntax/tables';
import { signalsOf } from './assigned-signals';
import { contextIn } from './constants';
import { explicitDelay } from './delays';
import { numberOf } from './numbered';
import { isTooDeep } from './expression-depth';
import { lowerFor } from './lower';
import type { ModuleDraft, ProcessDraft } from './module-draft';
import { formMeant } from './patterns';
import { createNodeReader } from './process-reader';
import { addProcess, driveHole } from './processes';
import { canRelease } from './release';
import type { Scope } from './scope';
import { type Target, type TargetPart, targetOf } from './targets';

export interface ContinuousAssignment {
  readonly at: At;
  readonly target: Expression;
  readonly value: Expression;
  readonly delay: DelayTable | null;
}

export function readAssignment(draft: ModuleDraft, scope: Scope, assignment: ContinuousAssignment): void {
  const process = addProcess(draft, 'assign', assignment.at);
  const at = { context: contextIn(draft, scope), reader: createNodeReader(draft, process, null) };
  if (isTooDeep(at.context, assignment.target)) {
    const args = { limit: 'nesting', value: draft.limits.nesting, name: 'target' } as const;
    draft.log.add('limit', args, draft.source.place(assignment.target.at));
    return;
  }
  const target = targetOf(at, assignment.target);
  const form = () => formMeant(at.context, assignment.target);
  const value = target.width === null ? null : lowerFor(at, assignment.value, target.width, form);
  driveTarget(draft, scope, process, target, { ...assignment, value, releases: false });
}

export interface DrivenValue {
  readonly at: At;
  /** Of the target's width; null where that is not known. */
  readonly value: NodeId | null;
  readonly delay: DelayTable | null;
  /** Known to give z at times, whatever the value's own nodes say. */
  readonly releases: boolean;
}

/** Gives each part of a target its bits of a value. */
export function driveTarget(
  draft: ModuleDraft,
  scope: Scope,
  process: ProcessDraft | null,
  { parts, width }: Target<NodeId>,
  driven: DrivenValue,
): void {
  const { nodes, source } = draft;
  const { at, value } = driven;
  let above = width ?? 0;
  for (const part of parts) {
    if (part.kind === 'hole') {
      if (part.signal !== null) driveHole(draft, process, part.signal.index, at, part.complaint);
      continue;
    }
    above -= part.width;
    if (part.kind === 'nowhere') continue;
    if (part.kind !== 'slice' || value === null) {
      const complaint = part.kind === 'slice' ? -1 : refuseTarget(draft, part, at);
      const signals = part.kind === 'words' ? signalsOf(part.array) : [part.signal];
      for (const signal of signals) driveHole(draft, process, signal.index, at, complaint);
      continue;
    }
    const piece = sliceOf(nodes, value, above, part.width, source.place(at));
    const bits = { signal: part.signal.index, low: part.low, width: part.width, at };
    const node = delayed(draft, scope, piece, driven.delay);
    process?.assignments.push({ ...bits, blocking: true, path: null, delay: null, scope });
    draft.drivers.push({
      ...bits,
      value: { kind: 'node', node },
      process: process?.index ?? null,
      canRelease: driven.releases || canRelease(nodes, node),
      isContinuous: true,
    });
  }
}

/** Only one bit after the other has drivers: no bit that is chosen, no word of a memory kept as one content. */
function refuseTarget(
  { log, source }: ModuleDraft,
  part: Exclude<TargetPart<NodeId>, { kind: 'hole' | 'slice' | 'nowhere' }>,
  at: At,
): number {
  if (part.kind === 'words' && part.array.memory !== null) {
    return log.add('memory-without-clock', { name: part.array.name }, source.place(at));
  }
  return log.add('not-constant', { what: source.textOf(at) }, source.place(at));
}

export function delayed(draft: ModuleDraft, scope: Scope, node: NodeId, delay: DelayTable | null): NodeId {
  const index = delay === null ? -1 : delayIndex(draft, scope, delay);
  if (delay === null || index < 0) return node;
  return draft.nodes.add(Op.delay, draft.nodes.nodes.width[node], [node], index, draft.source.place(delay.at));
}

/** Number of an explicit delay of this module; -1 where it could not be read. */
export function delayIndex(draft: ModuleDraft, scope: Scope, table: DelayTable): number {
  const delay = explicitDelay(contextIn(draft, scope), draft.table, table);
  if (delay === null) return -1;
  return numberOf(draft.explicitDelays, delay);
}
