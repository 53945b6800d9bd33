// Follows the statements of one process symbolically: assignments write into an environment, branches are followed
// apart and merged, loops are unrolled. A statement that cannot be followed makes what it assigns unknown.

import { hasUnknown } from '../netlist/four-state';
import { muxOf } from '../netlist/node-makers';
import type { Statement } from '../syntax/tables';
import { followAssignment } from './assignment';
import { armsOf, type CaseArms, caseChoice, type CaseStatement, constantItem, plainCondition } from './case-arms';
import { certain, chooseCondition, negated } from './conditions';
import { enclosingScope } from './enclosing-scope';
import { createLayer } from './environment';
import { closeSequence, forgetExit, isReached, leaveAt, leavesEarly, openSequence, withExit } from './exits';
import { lowerTruth } from './lower';
import { type Branch, type Choice, mergeBranches } from './merge-layers';
import type { Path } from './module-draft';
import { negatedText } from './path-text';
import { scopeInside } from './procedural-scopes';
import { isOutputOnly } from './system-tasks';
import { followTask } from './task-calls';
import { followLoop } from './unrolling';
import { giveUp, type Position, surroundingsOf, type Walk } from './walk';

/** Yields now and then: a loop may be long. */
export function* followStatement(walk: Walk, position: Position, statement: Statement): Generator<void, void> {
  if (!mayFollow(walk, position, statement)) return;
  switch (statement.kind) {
    case 'block':
      yield* followBlock(walk, position, statement);
      return;
    case 'assign':
      followAssignment(walk, position, statement);
      return;
    case 'if':
      yield* followIf(walk, position, statement);
      return;
    case 'case':
      yield* followCase(walk, position, statement);
      return;
    case 'for':
    case 'while':
    case 'repeat':
      yield* followLoop(walk, position, statement, followStatement);
      return;
    case 'delay':
      ignoreDelay(walk, statement);
      if (statement.body !== null) yield* followStatement(walk, inside(position), statement.body);
      return;
    case 'call':
      yield* followCall(walk, position, statement);
      return;
    case 'disable':
      followDisable(walk, position, statement);
      return;
    case 'null':
      return;
    case 'hole':
      giveUp(walk, position, statement, -1);
      return;
    default:
      refuse(walk, position, statement, statement.kind);
  }
}

function* followCall(
  walk: Walk,
  position: Position,
  statement: Extract<Statement, { kind: 'call' }>,
): Generator<void, void> {
  const { name } = statement.name;
  if (isOutputOnly(name)) return;
  if (name.startsWith('$')) refuse(walk, position, statement, `task ${name}`);
  else yield* followTask(walk, position, statement, followStatement);
}

function inside(position: Position): Position {
  return { ...position, depth: position.depth + 1 };
}

function mayFollow(walk: Walk, position: Position, statement: Statement): boolean {
  walk.step();
  if (walk.isExhausted()) return false;
  const { limits, log, source } = walk.draft;
  if (position.depth <= limits.nesting) return true;
  const args = { limit: 'nesting', value: limits.nesting, name: 'statement' } as const;
  giveUp(walk, position, statement, log.add('limit', args, source.place(statement.at)));
  return false;
}

function refuse(walk: Walk, position: Position, statement: Statement, what: string): void {
  const { log, source } = walk.draft;
  giveUp(walk, position, statement, log.add('construct', { what }, source.place(statement.at)));
}

/** A delay inside a process of hardware has no meaning there: said, and the statement behind it followed. */
function ignoreDelay({ draft }: Walk, { delay }: Extract<Statement, { kind: 'delay' }>): void {
  draft.log.add('ignored-delay', { text: draft.source.textOf(delay.at) }, draft.source.place(delay.at));
}

function* followBlock(
  walk: Walk,
  position: Position,
  statement: Extract<Statement, { kind: 'block' }>,
): Generator<void, void> {
  if (statement.parallel) {
    refuse(walk, position, statement, 'fork');
    return;
  }
  const { label } = statement;
  const inner = { ...inside(position), scope: scopeInside(position.scope, statement) };
  const isLeft = label !== null && leavesEarly(statement, label.name);
  const own = isLeft ? withExit(walk, inner, inner.scope, label.name, label) : inner;
  const sequence = openSequence(own);
  for (const child of statement.body) {
    if (!isReached(walk, sequence, child)) break;
    yield* followStatement(walk, sequence.position, child);
  }
  closeSequence(walk, sequence);
  forgetExit(inner, own);
}

/** A block that is not around the statement belongs to another process: then nothing can be told of either. */
function followDisable(walk: Walk, position: Position, statement: Extract<Statement, { kind: 'disable' }>): void {
  const { name } = statement.label;
  if (leaveAt(walk, position, enclosingScope(position.scope, name), statement.at)) return;
  const { log, source } = walk.draft;
  const complaint = log.add('construct', { what: `disable ${name}` }, source.place(statement.at));
  giveUp(walk, position, walk.body, complaint);
}

function* followIf(
  walk: Walk,
  position: Position,
  statement: Extract<Statement, { kind: 'if' }>,
): Generator<void, void> {
  const { nodes, source } = walk.draft;
  const { condition, at } = statement;
  const place = source.place(condition.at);
  const test = lowerTruth(surroundingsOf(walk, position), condition);
  const known = nodes.constantOf(test);
  if (known !== null && !hasUnknown(known)) {
    const taken = known.a[0] === 1 ? statement.then : statement.else;
    if (taken !== null) yield* followStatement(walk, inside(position), taken);
    return;
  }
  const text = () => source.textOf(condition.at);
  const whenTrue = { text, node: () => test, at: condition.at };
  const whenFalse = { text: () => negatedText(text()), node: () => negated(nodes, test, place), at: condition.at };
  const branches = [
    yield* followBranch(walk, position, whenTrue, statement.then, statement.then.at),
    yield* followBranch(walk, position, whenFalse, statement.else, statement.else?.at ?? at),
  ];
  const choice: Choice = {
    value: ([one, zero]) => muxOf(nodes, test, one, zero, place),
    condition: ([one, zero]) => chooseCondition(nodes, test, one, zero, place),
  };
  mergeBranches({ draft: walk.draft, process: walk.process.index, into: position.layer, branches, choice, at });
}

/** A branch in a layer of its own. `blamed`: what is pointed at where it leaves a target alone. */
function* followBranch(
  walk: Walk,
  position: Position,
  condition: Omit<Path, 'outer'>,
  body: Statement | null,
  blamed: Statement['at'],
): Generator<void, Branch> {
  const layer = createLayer(position.layer);
  const path = { ...condition, outer: position.path };
  if (body !== null) yield* followStatement(walk, { ...inside(position), layer, path }, body);
  return { layer, at: blamed };
}

function* followCase(walk: Walk, position: Position, statement: CaseStatement): Generator<void, void> {
  const arms = armsOf(walk, position, statement);
  const fallback = statement.items.findIndex((item) => item.isDefault);
  const only = constantItem(walk, arms);
  if (only !== undefined) {
    const taken = statement.items[only ?? fallback];
    if (taken !== undefined) yield* followStatement(walk, inside(position), taken.body);
    return;
  }
  const choice = caseChoice(walk, statement, arms);
  const branches: Branch[] = [];
  for (const [index, item] of statement.items.entries()) {
    const condition = caseCondition(walk, statement, arms, choice, index);
    branches.push(yield* followBranch(walk, position, condition, item.body, item.at));
  }
  const otherwise: Branch = branches[fallback] ?? { layer: createLayer(position.layer), at: statement.at };
  branches.push(otherwise);
  const { draft, process } = walk;
  mergeBranches({ draft, process: process.index, into: position.layer, branches, choice, at: statement.at });
}

/** When an item of a case is taken; its default is taken when no other is. */
function caseCondition(
  walk: Walk,
  statement: CaseStatement,
  caseArms: CaseArms,
  choice: Choice,
  index: number,
): Omit<Path, 'outer'> {
  const { nodes, source } = walk.draft;
  const item = statement.items[index];
  const place = source.place(item.at);
  return {
    at: item.at,
    text: () => caseText(walk, statement, index),
    node() {
      const plain = plainCondition(walk, caseArms, item.isDefault ? null : index, place);
      if (plain !== null) return plain;
      const last = item.isDefault && !caseArms.isComplete;
      const taken = statement.items.map((_, other) => certain(nodes, other === index ? 1 : 0, place));
      return choice.condition([...taken, certain(nodes, last ? 1 : 0, place)]);
    },
  };
}

function caseText({ draft }: Walk, statement: CaseStatement, index: number): string {
  const item = statement.items[index];
  const selector = draft.source.textOf(statement.selector.at);
  const labels = (item.isDefault ? statement.items.flatMap((other) => other.labels) : item.labels).map((label) => {
    const text = draft.source.textOf(label.at);
    return isOne(selector) ? text : `${selector} == ${text}`;
  });
  const any = labels.join(' || ');
  return item.isDefault ? negatedText(any) : any;
}

/** `case (1'b1)` asks which label is true. */
function isOne(selector: string): boolean {
  return /^(1|1'[bdho]1)$/i.test(selector);
}
