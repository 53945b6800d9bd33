// A call of a function followed symbolically: its body on arguments that vary, in a layer of its own (IEEE 1364-2005
// 10.4). A function reads what stands around it and assigns nothing but its own variables.

import type { NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { FunctionCall } from './algebra';
import { enterCall, leaveCall } from './call-guard';
import type { Layer } from './environment';
import { forgetExit, leavesEarly, withExit } from './exits';
import { openFrame, variableOf } from './frame-layer';
import { type ModuleDraft, type ProcessDraft, type ReadLog, signalAt } from './module-draft';
import { followStatement } from './statements';
import type { Walk } from './walk';

/** What stands around a call: who reads there, and what has been assigned; null where nothing can have been. */
export interface AroundCall {
  readonly reads: ReadLog;
  readonly layer: Layer | null;
}

export function followFunction(draft: ModuleDraft, call: FunctionCall<NodeId>, around: AroundCall): NodeId {
  const { nodes, source, log } = draft;
  const { frame, subroutine, result, args, expression } = call;
  const { item } = subroutine;
  const { name } = item.name;
  const place = source.place(expression.at);
  const unknown = (complaint: number) => nodes.add(Op.hole, result.shape.width, [], complaint, place);
  const refused = enterCall(draft, call, expression.at);
  if (refused !== null) return unknown(refused);
  const walk = walkOf(draft, call, around.reads);
  const layer = openFrame(draft, around.layer, frame, args, expression.at);
  const position = { layer, scope: frame.scope, path: null, depth: 0, exits: [] };
  const own = leavesEarly(item.body, name) ? withExit(walk, position, frame.scope, name, item.name) : position;
  toEnd(followStatement(walk, own, item.body));
  forgetExit(position, own);
  leaveCall(draft, call);
  const [outside] = walk.process.assignments;
  if (outside !== undefined) {
    const args = { name: signalAt(draft, outside.signal).name, function: name };
    return unknown(log.add('assigned-outside-function', args, source.place(outside.at)));
  }
  if (walk.isExhausted()) return unknown(sayExhausted(draft, call));
  const { value, isAssigned } = variableOf(draft, layer, result, expression.at);
  if (!isAssigned) log.add('unset-result', { name }, source.place(item.name));
  return value;
}

/** Its reads are those of who calls; assignments are noted to find those that no function may make. */
function walkOf(
  draft: ModuleDraft,
  { subroutine }: FunctionCall<NodeId>,
  { reads, readKeys, ports, innerReads }: ReadLog,
): Walk {
  const { steps } = draft.calls;
  const process: ProcessDraft = {
    index: -1,
    flavor: 'always_comb',
    at: subroutine.at,
    kind: 'combinational',
    sensitivity: [],
    implicitSensitivity: true,
    reads,
    readKeys,
    ports,
    innerReads,
    assignments: [],
    lastAssignments: new Map(),
  };
  return {
    draft,
    process,
    body: subroutine.item.body,
    style: 'level',
    step() {
      steps.count++;
    },
    isExhausted: () => steps.count > draft.limits.nodes || draft.nodes.exceeded,
  };
}

function sayExhausted({ log, limits, source }: ModuleDraft, { subroutine, expression }: FunctionCall<NodeId>): number {
  const { name } = subroutine.item.name;
  return log.add('limit', { limit: 'nodes', value: limits.nodes, name }, source.place(expression.at));
}

/** An expression asks for its value at once: there is no turn to give back. The statements are counted. */
function toEnd(steps: Generator<void, void>): void {
  for (let step = steps.next(); step.done !== true; step = steps.next());
}
