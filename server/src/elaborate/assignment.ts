// Blocking and nonblocking assignments inside a process (IEEE 1364-2005 9.2). A blocking one is seen by what follows
// it, a nonblocking one at the end; both keep their order. A write at a variable index reads what it leaves alone.

import { fromNumber } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import { concatOf, sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { Statement } from '../syntax/tables';
import { certain, either, isCertain } from './conditions';
import { writeContent } from './content-writes';
import { type BitRange, holdNode } from './draft-nodes';
import { type Plane, stretchesOf, writeSlice } from './environment';
import { isTooDeep } from './expression-depth';
import { lowerFor } from './lower';
import { compare } from './narrow-comparison';
import { signalAt } from './module-draft';
import { formMeant } from './patterns';
import { sayNets, type Target, type TargetPart, targetOf } from './targets';
import { writeWords } from './word-writes';
import { giveUp, type Position, surroundingsOf, type Walk, writeHole } from './walk';

export type AssignStatement = Extract<Statement, { kind: 'assign' }>;

export function followAssignment(walk: Walk, position: Position, statement: AssignStatement): void {
  const { draft } = walk;
  if (statement.event !== null) {
    const complaint = draft.log.add(
      'construct',
      { what: 'event control inside an assignment' },
      draft.source.place(statement.event.at),
    );
    giveUp(walk, position, statement, complaint);
    return;
  }
  sayIgnoredDelay(walk, statement);
  const at = surroundingsOf(walk, position);
  if (isTooDeep(at.context, statement.target)) {
    const args = { limit: 'nesting', value: draft.limits.nesting, name: 'target' } as const;
    draft.log.add('limit', args, draft.source.place(statement.target.at));
    return;
  }
  const target = targetOf(at, statement.target);
  sayNets(at, target, statement.target.at);
  const value =
    target.width === null
      ? null
      : lowerFor(at, statement.value, target.width, () => formMeant(at.context, statement.target));
  assignNode(walk, position, statement, target, value);
}

/** `value` has the target's width; null where that is not known. */
export function assignNode(
  walk: Walk,
  position: Position,
  statement: AssignStatement,
  { parts, width }: Target<NodeId>,
  value: NodeId | null,
): void {
  const { draft } = walk;
  let above = width ?? 0;
  for (const part of parts) {
    if (part.kind === 'hole') {
      if (part.signal !== null) writeHole(walk, position, part.signal.index, statement, part.complaint);
      continue;
    }
    above -= part.width;
    const piece =
      value === null
        ? draft.nodes.add(Op.hole, part.width, [], -1, draft.source.place(statement.at))
        : sliceOf(draft.nodes, value, above, part.width, draft.source.place(statement.value.at));
    writePart(walk, position, statement, part, piece);
  }
}

/** A delay means something behind a register's nonblocking assignment only: it is the clock-to-output delay. */
function keepsDelay({ style }: Walk, { blocking }: AssignStatement): boolean {
  return style === 'clocked' && !blocking;
}

function sayIgnoredDelay(walk: Walk, statement: AssignStatement): void {
  const { delay } = statement;
  const { log, source } = walk.draft;
  if (delay === null || keepsDelay(walk, statement)) return;
  log.add('ignored-delay', { text: source.textOf(delay.at) }, source.place(delay.at));
}

function writePart(
  walk: Walk,
  position: Position,
  statement: AssignStatement,
  part: Exclude<TargetPart<NodeId>, { kind: 'hole' }>,
  value: NodeId,
): void {
  if (part.kind === 'nowhere') return;
  if (part.kind === 'words' && part.array.memory !== null) {
    const { signal } = part.array.memory;
    recordAssignment(walk, position, statement, signal.index, { low: 0, width: signal.shape.width });
    writeContent(walk, position, { ...statement, memory: part.array.memory }, part, value);
    return;
  }
  if (part.kind === 'words') {
    writeWords(walk, position, statement.at, part, (inner, word) => writePart(walk, inner, statement, word, value));
    return;
  }
  const plane: Plane = statement.blocking ? 'now' : 'next';
  const { signal, width } = part;
  const range = part.kind === 'slice' ? { low: part.low, width } : { low: 0, width: signal.shape.width };
  const { at } = statement;
  recordAssignment(walk, position, statement, signal.index, range);
  if (part.kind === 'variable') {
    writeAtIndex(walk, position, statement, part, value);
    return;
  }
  const { nodes, source } = walk.draft;
  const assigned = certain(nodes, 1, source.place(at));
  writeSlice(position.layer, plane, signal.index, { ...range, value, assigned, holdAt: null }, nodes);
}

/** Turns of a loop that assign the same bits under the same conditions are one assignment. */
export function recordAssignment(
  walk: Walk,
  { path, scope }: Position,
  statement: AssignStatement,
  signal: number,
  { low, width }: BitRange,
): void {
  const { draft, process } = walk;
  if (signalAt(draft, signal).isPrivate) return;
  const { at, blocking } = statement;
  const delay = keepsDelay(walk, statement) ? statement.delay : null;
  const last = process.lastAssignments.get(at);
  const isSame = last?.signal === signal && last.low === low && last.width === width && last.path === path;
  if (isSame) return;
  const assignment = { signal, low, width, blocking, path, delay, scope, at };
  process.lastAssignments.set(at, assignment);
  process.assignments.push(assignment);
}

type VariablePart = Extract<TargetPart<NodeId>, { kind: 'variable' }>;

function writeAtIndex(
  walk: Walk,
  position: Position,
  statement: AssignStatement,
  part: VariablePart,
  piece: NodeId,
): void {
  const { nodes, source } = walk.draft;
  const { signal, index } = part;
  const plane: Plane = statement.blocking ? 'now' : 'next';
  if (!statement.blocking && position.layer.now.has(signal.index)) {
    const complaint = walk.draft.log.add('mixed-partial-write', { name: signal.name }, source.place(statement.at));
    writeHole(walk, position, signal.index, statement, complaint);
    return;
  }
  const whole = { low: 0, width: signal.shape.width };
  const stretches = stretchesOf(position.layer, plane, signal.index, whole, nodes);
  const isWhole = stretches.every(({ slice }) => slice !== null && isCertain(nodes, slice.assigned, 1));
  if (walk.style === 'level' && !isWhole) {
    writeBitByBit(walk, position, statement, part, piece);
    return;
  }
  const place = source.place(statement.at);
  const olds = stretches.map(
    (stretch) => stretch.slice?.value ?? holdNode(walk.draft, walk.process.index, signal, stretch, statement.at),
  );
  const old = olds.length === 1 ? olds[0] : concatOf(nodes, olds.reverse(), place);
  const value = nodes.add(Op.writeAt, whole.width, [old, index, piece], 0, place);
  writeSlice(
    position.layer,
    plane,
    signal.index,
    { ...whole, value, assigned: certain(nodes, 1, place), holdAt: null },
    nodes,
  );
}

/** Each bit is assigned where the index meets it, and else left alone: what a latch needs to know. */
function writeBitByBit(
  walk: Walk,
  position: Position,
  statement: AssignStatement,
  { signal, index, width }: VariablePart,
  piece: NodeId,
): void {
  const { nodes, source } = walk.draft;
  const place = source.place(statement.at);
  const plane: Plane = statement.blocking ? 'now' : 'next';
  for (let bit = 0; bit < signal.shape.width; bit++) {
    const [{ slice }] = stretchesOf(position.layer, plane, signal.index, { low: bit, width: 1 }, nodes);
    let value = slice?.value ?? holdNode(walk.draft, walk.process.index, signal, { low: bit, width: 1 }, statement.at);
    let assigned = slice?.assigned ?? certain(nodes, 0, place);
    for (let from = 0; from < width; from++) {
      const position = nodes.constant(fromNumber(nodes.nodes.width[index], bit - from), place);
      const hit = compare(nodes, Op.equal, index, position, place);
      const bitValue = sliceOf(nodes, piece, from, 1, place);
      value = nodes.add(Op.mux, 1, [hit, bitValue, value], 0, place);
      assigned = either(nodes, hit, assigned, place);
    }
    writeSlice(
      position.layer,
      plane,
      signal.index,
      { low: bit, width: 1, value, assigned, holdAt: statement.at },
      nodes,
    );
  }
}
