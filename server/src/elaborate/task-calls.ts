// A call of a task inside a process: arguments are copied in, its body is followed in a layer of its own, what it has
// assigned outside itself is assigned, and its outputs are copied out (IEEE 1364-2005 10.2.2).

import type { NodeId } from '../netlist/netlist';
import { extendTo } from '../netlist/node-makers';
import type { Expression, Statement } from '../syntax/tables';
import { type AssignStatement, assignNode } from './assignment';
import { enterCall, leaveCall } from './call-guard';
import { type Layer, writeSlice } from './environment';
import { forgetExit, leavesEarly, withExit } from './exits';
import { taskOf } from './find-subroutine';
import { openFrame, variableOf } from './frame-layer';
import { formOfShape, type LocalSignal } from './local-signal';
import { lowerFor } from './lower';
import { signalAt } from './module-draft';
import { sayNets, targetOf } from './targets';
import type { Follow } from './unrolling';
import { giveUp, type Position, surroundingsOf, type Walk } from './walk';

type TaskCall = Extract<Statement, { kind: 'call' }>;

export function* followTask(
  walk: Walk,
  position: Position,
  statement: TaskCall,
  follow: Follow,
): Generator<void, void> {
  const { draft } = walk;
  const at = surroundingsOf(walk, position);
  const found = taskOf(at.context, statement);
  const refused = found.kind === 'none' ? found.complaint : enterCall(draft, found, statement.at);
  if (found.kind === 'none' || refused !== null) {
    giveUp(walk, position, statement, refused ?? -1);
    return;
  }
  const { frame, subroutine } = found;
  const { item } = subroutine;
  const args = frame.ports.map(({ signal, direction }, index) =>
    direction === 'output'
      ? null
      : lowerFor(at, statement.args[index], signal.shape.width, () => formOfShape(signal.shape)),
  );
  const layer = openFrame(draft, position.layer, frame, args, statement.at);
  const inner = { ...position, layer, scope: frame.scope, depth: position.depth + 1, exits: [] };
  const own = leavesEarly(item.body, item.name.name)
    ? withExit(walk, inner, frame.scope, item.name.name, item.name)
    : inner;
  yield* follow(walk, own, item.body);
  forgetExit(inner, own);
  leaveCall(draft, found);
  adoptAssignments(walk, position.layer, layer);
  for (const [index, { signal, direction }] of frame.ports.entries()) {
    if (direction !== 'input') copyOut(walk, position, statement.args[index], signal, layer);
  }
}

/** What is not the task's own has been assigned by the process. */
function adoptAssignments({ draft }: Walk, into: Layer, from: Layer): void {
  for (const plane of ['now', 'next'] as const) {
    for (const [signal, slices] of from[plane]) {
      if (signalAt(draft, signal).isPrivate) continue;
      for (const slice of slices) writeSlice(into, plane, signal, slice, draft.nodes);
    }
  }
}

function copyOut(walk: Walk, position: Position, argument: Expression, port: LocalSignal, layer: Layer): void {
  const { draft } = walk;
  const at = surroundingsOf(walk, position);
  const target = targetOf(at, argument);
  sayNets(at, target, argument.at);
  const { value } = variableOf(draft, layer, port, argument.at);
  const assignment: AssignStatement = {
    kind: 'assign',
    at: argument.at,
    blocking: true,
    target: argument,
    value: argument,
    delay: null,
    event: null,
  };
  assignNode(
    walk,
    position,
    assignment,
    target,
    target.width === null ? null : fitted(walk, value, port, target.width),
  );
}

function fitted({ draft }: Walk, value: NodeId, { shape, at }: LocalSignal, width: number): NodeId {
  return extendTo(draft.nodes, value, width, shape.signed ? 'sign' : 'zero', draft.source.place(at));
}
