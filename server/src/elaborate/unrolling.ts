// Loops inside a process, unrolled turn by turn: the condition must be a constant each time, as the loop variable's
// value is. What passes the limit of turns, or cannot be told, makes unknown what the loop assigns.

import { fromNumber, hasUnknown } from '../netlist/four-state';
import { integerOf } from './constant-value';
import type { Statement } from '../syntax/tables';
import { assignNode, followAssignment, recordAssignment } from './assignment';
import { fillContent } from './content-writes';
import { closeSequence, isReached, openSequence, type Sequence } from './exits';
import { typeOf } from './expression-type';
import { fillLoopOf } from './fill-loops';
import { lower, lowerFor, lowerTruth } from './lower';
import { formOfShape } from './local-signal';
import { scopeInside } from './procedural-scopes';
import { targetOf } from './targets';
import { giveUp, type Position, surroundingsOf, type Walk } from './walk';

type LoopStatement = Extract<Statement, { kind: 'for' | 'while' | 'repeat' }>;

export type Follow = (walk: Walk, position: Position, statement: Statement) => Generator<void, void>;

export function* followLoop(walk: Walk, outer: Position, loop: LoopStatement, follow: Follow): Generator<void, void> {
  if (fillAtOnce(walk, outer, loop)) return;
  const sequence = openSequence(enter(walk, outer, loop));
  yield* followTurns(walk, sequence, loop, follow);
  closeSequence(walk, sequence);
}

/** Whether the loop is of the form that fills a memory, which then has been done. */
function fillAtOnce(walk: Walk, outer: Position, loop: LoopStatement): boolean {
  if (loop.kind !== 'for') return false;
  const position = { ...outer, scope: scopeInside(outer.scope, loop) };
  const at = surroundingsOf(walk, position);
  const found = fillLoopOf(at.context, loop);
  if (found === null) return false;
  const { array, memory, assignment, from, until, last } = found;
  const value = lowerFor(at, assignment.value, array.shape.width, () => formOfShape(array.shape));
  const whole = { low: 0, width: memory.signal.shape.width };
  recordAssignment(walk, position, assignment, memory.signal.index, whole);
  fillContent(walk, position, { ...assignment, memory }, array, [{ from, until }], value);
  const variable = targetOf(at, loop.variable);
  const end = walk.draft.nodes.constant(fromNumber(variable.width ?? 32, last), walk.draft.source.place(loop.at));
  const { at: place, start } = loop;
  const form = { kind: 'assign', at: place, blocking: true, target: loop.variable, value: start } as const;
  assignNode(walk, position, { ...form, delay: null, event: null }, variable, end);
  // The loop has read it: it is a temporary where nothing else does.
  lower(surroundingsOf(walk, position), loop.variable);
  return true;
}

function* followTurns(walk: Walk, sequence: Sequence, loop: LoopStatement, follow: Follow): Generator<void, void> {
  const { limits, log, source } = walk.draft;
  const count = loop.kind === 'repeat' ? repeatCount(walk, sequence.position, loop) : null;
  for (let turn = 0; isReached(walk, sequence, loop); turn++) {
    const { position } = sequence;
    const goesOn = loop.kind === 'repeat' ? (count === null ? null : turn < count) : holds(walk, position, loop);
    if (goesOn === null) {
      const { at } = loop.kind === 'repeat' ? loop.count : loop.condition;
      giveUp(walk, position, loop, log.add('loop-not-constant', { text: source.textOf(at) }, source.place(at)));
      return;
    }
    if (!goesOn) return;
    if (turn >= limits.unroll) {
      const args = { limit: 'unroll', value: limits.unroll, name: loop.kind } as const;
      giveUp(walk, position, loop, log.add('limit', args, source.place(loop.at)));
      return;
    }
    yield* follow(walk, inside(position), loop.body);
    if (loop.kind === 'for' && isReached(walk, sequence, loop.step)) {
      yield* follow(walk, inside(sequence.position), loop.step);
    }
    if (walk.isExhausted()) return;
    if (turn % 64 === 63) yield;
  }
}

function inside(position: Position): Position {
  return { ...position, depth: position.depth + 1 };
}

/** A loop may declare its variable for itself; then it starts. */
function enter(walk: Walk, outer: Position, loop: LoopStatement): Position {
  if (loop.kind !== 'for') return outer;
  const position = { ...outer, scope: scopeInside(outer.scope, loop) };
  const { at, variable: target, start: value } = loop;
  followAssignment(walk, position, { kind: 'assign', at, blocking: true, target, value, delay: null, event: null });
  return position;
}

/** Whether the loop takes another turn; null where that varies. */
function holds(
  walk: Walk,
  position: Position,
  { condition }: Exclude<LoopStatement, { kind: 'repeat' }>,
): boolean | null {
  const value = walk.draft.nodes.constantOf(lowerTruth(surroundingsOf(walk, position), condition));
  return value === null || hasUnknown(value) ? null : value.a[0] === 1;
}

function repeatCount(
  walk: Walk,
  position: Position,
  { count }: Extract<LoopStatement, { kind: 'repeat' }>,
): number | null {
  const at = surroundingsOf(walk, position);
  const bits = walk.draft.nodes.constantOf(lower(at, count));
  return bits === null ? null : integerOf({ kind: 'bits', bits, signed: typeOf(at.context, count).signed });
}
