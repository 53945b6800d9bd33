// Statements. What is recognized and not in the tables becomes a hole that names what it may drive; nesting
// is followed down to the limit, and a chain of else-ifs counts by its length.

import { wordsOf } from './production-words';
import { readAssignment } from './assignments';
import { beginAnew } from './automatic-starts';
import { readBlockDeclarations } from './block-declarations';
import { readCase } from './cases';
import { namesDrivenIn } from './driven-names';
import { readEventControl } from './events';
import { readArguments, readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none, unwrap } from './flat-tree';
import { readJump } from './jumps';
import { readLoop } from './loops';
import { nameOf } from './names';
import { mayDescend, type Reader, remarkOn, standInOf, textOf, unsupported } from './reader';
import type { Expression, Statement } from './tables';
import { readDelay } from './types';

export function readStatement(reader: Reader, node: number): Statement {
  const inner = unwrap(reader.tree, node);
  const standIn = standInOf(reader, inner);
  if (standIn !== null) return { kind: 'hole', at: standIn.at, names: standIn.names };
  if (isLeaf(reader.tree, inner)) return readLoneMark(reader, inner);
  if (!mayDescend(reader, inner)) return holeOver(reader, inner);
  reader.depth += 1;
  const statement = readWhole(reader, inner);
  reader.depth -= 1;
  return statement;
}

/** The statement at `node`, which the tables cannot hold. */
function unreadStatement(reader: Reader, node: number, what: string): Statement {
  unsupported(reader, node, what);
  return holeOver(reader, node);
}

function holeOver(reader: Reader, node: number): Statement {
  const at = atOf(reader.tree, node);
  return { kind: 'hole', at, names: namesDrivenIn(reader.text, at) };
}

/** A semicolon alone does nothing. */
function readLoneMark(reader: Reader, node: number): Statement {
  if (kindOf(reader.tree, node) !== ';') return unreadStatement(reader, node, textOf(reader, node));
  return { kind: 'null', at: atOf(reader.tree, node) };
}

function readWhole(reader: Reader, node: number): Statement {
  const kind = kindOf(reader.tree, node);
  const read = statementReaders.get(kind);
  return read === undefined ? unreadStatement(reader, node, wordsOf(kind)) : read(reader, node);
}

type StatementReader = (reader: Reader, node: number) => Statement;

/** label: statement. The label of a block is the block's name (IEEE 1800-2017 9.3.5); any other has no effect. */
function readLabeled(reader: Reader, node: number): Statement {
  const [label, , item] = childrenOf(reader.tree, node);
  const statement = readStatement(reader, item);
  return statement.kind === 'block' && statement.label === null
    ? { ...statement, label: nameOf(reader, label) }
    : statement;
}

/** statement and semicolon */
function readEnded(reader: Reader, node: number): Statement {
  const first = childrenOf(reader.tree, node)[0];
  const jump = kindOf(reader.tree, unwrap(reader.tree, first)) === 'jump_statement' ? readJump(reader, first) : null;
  if (jump !== null) return jump;
  const assignment = readAssignment(reader, first);
  return assignment ?? unreadStatement(reader, node, wordsOf(kindOf(reader.tree, unwrap(reader.tree, first))));
}

function readBlock(reader: Reader, node: number): Statement {
  const parts = childrenOf(reader.tree, node);
  const label = kindOf(reader.tree, parts[1]) === ':' ? nameOf(reader, parts[2]) : null;
  const body = childrenOfKind(reader.tree, node, 'statement_or_null');
  const items = childrenOfKind(reader.tree, node, 'block_item_declaration');
  const { declarations, starts } = beginAnew(reader, items, 'explicit', (item) =>
    readBlockDeclarations(reader, [item]),
  );
  return {
    kind: 'block',
    at: atOf(reader.tree, node),
    label,
    parallel: kindOf(reader.tree, parts[0]) === 'fork',
    declarations,
    body: [...starts, ...body.map((statement) => readStatement(reader, statement))],
  };
}

/**
 * if … else if … else …: one node of the grammar, rebuilt from its last arm. `unique` and `priority` only ask
 * for a check (IEEE 1800-2017 12.4.2), so they are read over.
 */
function readConditional(reader: Reader, node: number): Statement {
  const conditions = childrenOfKind(reader.tree, node, 'cond_predicate');
  const bodies = childrenOfKind(reader.tree, node, 'statement_or_null');
  if (reader.depth + conditions.length > reader.nestingLimit) {
    remarkOn(reader, node, 'limit', { limit: 'nesting', value: reader.nestingLimit });
    return holeOver(reader, node);
  }
  const tests = conditions.map((condition) => readExpression(reader, condition));
  const arms = bodies.map((body) => readStatement(reader, body));
  return chainArms(reader, node, { tests, arms });
}

interface Arms {
  readonly tests: readonly Expression[];
  /** One more than tests where there is a last else. */
  readonly arms: readonly Statement[];
}

function chainArms(reader: Reader, node: number, { tests, arms }: Arms): Statement {
  const end = atOf(reader.tree, node).end;
  const starts = childrenOfKind(reader.tree, node, 'if').map((word) => atOf(reader.tree, word).start);
  let chain: Statement | null = arms.length > tests.length ? arms[tests.length] : null;
  for (let index = tests.length - 1; index >= 0; index -= 1) {
    chain = { kind: 'if', at: { start: starts[index], end }, condition: tests[index], then: arms[index], else: chain };
  }
  return chain ?? holeOver(reader, node);
}

/** # or @ before a statement. */
function readTimed(reader: Reader, node: number): Statement {
  const [control, statement] = childrenOf(reader.tree, node);
  const at = atOf(reader.tree, node);
  const kind = kindOf(reader.tree, control);
  if (kind !== 'delay_control' && kind !== 'event_control') return unreadStatement(reader, node, wordsOf(kind));
  const body = readBody(reader, statement);
  if (kind === 'delay_control') return { kind: 'delay', at, delay: readDelay(reader, control), body };
  return { kind: 'event', at, control: readEventControl(reader, control), body };
}

/** What a control holds back: null where only a semicolon stands. */
function readBody(reader: Reader, node: number): Statement | null {
  const body = readStatement(reader, node);
  return body.kind === 'null' ? null : body;
}

function readWait(reader: Reader, node: number): Statement {
  const parts = childrenOf(reader.tree, node);
  if (parts.length !== 5 || kindOf(reader.tree, parts[0]) !== 'wait') return unreadStatement(reader, node, 'wait');
  const condition = readExpression(reader, parts[2]);
  return { kind: 'wait', at: atOf(reader.tree, node), condition, body: readBody(reader, parts[4]) };
}

function readDisable(reader: Reader, node: number): Statement {
  const label = unwrap(reader.tree, childrenOf(reader.tree, node)[1]);
  const at = atOf(reader.tree, node);
  if (kindOf(reader.tree, label) === 'fork') return unreadStatement(reader, node, 'disable fork');
  return { kind: 'disable', at, label: nameOf(reader, label) };
}

/** A task or system task: a call whose result nobody takes. */
function readTask(reader: Reader, node: number): Statement {
  const call = unwrap(reader.tree, childrenOf(reader.tree, node)[0]);
  const at = atOf(reader.tree, node);
  if (taskKinds.has(kindOf(reader.tree, call))) return readOwnTask(reader, call);
  const value = readExpression(reader, call);
  if (value.kind === 'call') return { ...value, at };
  if (value.kind === 'member' || value.kind === 'scoped')
    return { kind: 'call', at, name: nameOf(reader, call), args: [], callee: value };
  if (value.kind === 'hole') return holeOver(reader, node);
  return { kind: 'call', at, name: nameOf(reader, call), args: [] };
}

/** $finish, $fatal and the like have productions of their own in the grammar. */
function readOwnTask(reader: Reader, node: number): Statement {
  const [name] = childrenOf(reader.tree, node);
  const list = childOf(reader.tree, node, 'list_of_arguments');
  const args = list === none ? [] : readArguments(reader, list);
  return { kind: 'call', at: atOf(reader.tree, node), name: nameOf(reader, name), args };
}

const taskKinds: ReadonlySet<string> = new Set(['simulation_control_task', 'severity_system_task']);

const statementReaders: ReadonlyMap<string, StatementReader> = new Map<string, StatementReader>([
  ['statement', readLabeled],
  ['statement_item', readEnded],
  ['seq_block', readBlock],
  ['par_block', readBlock],
  ['conditional_statement', readConditional],
  [
    'case_statement',
    (reader, node) => readCase(reader, node, readStatement) ?? unreadStatement(reader, node, 'case of this form'),
  ],
  [
    'loop_statement',
    (reader, node) => readLoop(reader, node, readStatement) ?? unreadStatement(reader, node, 'loop of this form'),
  ],
  ['procedural_timing_control_statement', readTimed],
  ['wait_statement', readWait],
  ['disable_statement', readDisable],
  ['jump_statement', (reader, node) => readJump(reader, node) ?? unreadStatement(reader, node, 'jump out of nothing')],
  ['subroutine_call_statement', readTask],
  ['simulation_control_task', readOwnTask],
  ['severity_system_task', readOwnTask],
]);
