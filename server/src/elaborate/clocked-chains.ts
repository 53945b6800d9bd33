// Finds the parts of a clocked process by the rules of register inference (definition 12, after IEEE 1364.1): in each
// chain of `if … else if … else` the tested edge signals are asynchronous controls, in order of priority, and the one
// edge left untested is the clock of what stands in the last `else`. A rule that fails is named; nothing is guessed.

import type { At, Statement } from '../syntax/tables';
import { edgeTests, type EdgeTest } from './edge-tests';
import { createLayer, type Layer } from './environment';
import type { Failure } from './failure';
import type { EdgeDraft, ModuleDraft } from './module-draft';
import { lowerTruth } from './lower';
import { scopeInside } from './procedural-scopes';
import { type Position, surroundingsOf, type Walk } from './walk';

/** A statement of the process that stands under no condition. */
export interface TopStatement {
  readonly statement: Statement;
  readonly position: Position;
}

export type Part =
  | {
      readonly kind: 'chain';
      readonly clock: EdgeDraft;
      readonly controlled: readonly ControlledBranch[];
      /** Null where the last `else` is not written. */
      readonly clocked: TopStatement | null;
    }
  | { readonly kind: 'plain'; readonly top: TopStatement; readonly failure: Failure };

export interface ControlledBranch {
  readonly tests: readonly EdgeTest[];
  readonly body: TopStatement;
  readonly at: At;
}

/** What a chain has been followed to. */
export interface FollowedChain {
  readonly clock: EdgeDraft;
  readonly branches: readonly { readonly branch: ControlledBranch; readonly layer: Layer }[];
  readonly clocked: Layer;
  /** Which of the process's assignments stand in the clocked part: [from, until). */
  readonly assignments: { readonly from: number; readonly until: number };
}

/** The statements that always run, through nested begin and end. */
export function topStatements(position: Position, statement: Statement): TopStatement[] {
  const found: TopStatement[] = [];
  const stack: TopStatement[] = [{ statement, position }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (top.statement.kind !== 'block' || top.statement.parallel) {
      if (top.statement.kind !== 'null') found.push(top);
      continue;
    }
    const inner = { ...top.position, scope: scopeInside(top.position.scope, top.statement) };
    const children = top.statement.body.map((child) => ({ statement: child, position: inner }));
    stack.push(...children.reverse());
  }
  return found;
}

/** How one top statement is read. `layer` of its position is the one the process has reached. */
export function partOf(walk: Walk, top: TopStatement, edges: readonly EdgeDraft[]): Part {
  const controlled: ControlledBranch[] = [];
  let untested = edges;
  let rest: TopStatement | null = top;
  while (untested.length > 1) {
    const branch = nextBranch(walk, rest, untested, edges);
    if ('reason' in branch) return { kind: 'plain', top, failure: branch };
    controlled.push(branch.branch);
    untested = untested.filter((edge) => branch.branch.tests.every((test) => test.edge !== edge));
    rest = branch.rest;
  }
  const [clock] = untested;
  if (clock === undefined) return { kind: 'plain', top, failure: noneUntested(walk.draft, top.statement, edges) };
  const last = onlyStatement(rest);
  if (edges.length > 1 && last?.statement.kind === 'if') {
    const tests = edgeTests(walk.draft, lowerTruth(surroundingsOf(walk, last.position), last.statement.condition), [
      clock,
    ]);
    if (tests !== null) return { kind: 'plain', top, failure: noneUntested(walk.draft, last.statement, edges) };
  }
  return { kind: 'chain', clock, controlled, clocked: rest };
}

type Branch = { readonly branch: ControlledBranch; readonly rest: TopStatement | null };

function nextBranch(
  walk: Walk,
  rest: TopStatement | null,
  untested: readonly EdgeDraft[],
  edges: readonly EdgeDraft[],
): Branch | Failure {
  const { draft } = walk;
  const only = onlyStatement(rest);
  if (only === null || only.statement.kind !== 'if') return severalUntested(draft, rest, untested, edges);
  const { condition, then, else: otherwise, at } = only.statement;
  const node = lowerTruth(surroundingsOf(walk, only.position), condition);
  const tests = edgeTests(draft, node, edges);
  const test = draft.source.textOf(condition.at);
  if (tests === null || tests.some(({ edge }) => !untested.includes(edge))) {
    const args = { test, signals: signalTexts(draft, untested) };
    return { reason: 'clock-test-not-accepted', args, at: condition.at };
  }
  const wrong = tests.find(({ edge, level }) => (edge.edge === 'posedge') !== (level === 'high'));
  if (wrong !== undefined) {
    const args = { test, signal: draft.source.textOf(wrong.edge.at), edge: wrong.edge.edge ?? '' };
    return { reason: 'clock-test-against-edge', args, at: condition.at };
  }
  const { position } = only;
  return {
    branch: { tests, body: { statement: then, position: { ...position, layer: createLayer(position.layer) } }, at },
    rest: otherwise === null ? null : { statement: otherwise, position },
  };
}

/** Through begin and end around a single statement. */
function onlyStatement(top: TopStatement | null): TopStatement | null {
  const statements = top === null ? [] : topStatements(top.position, top.statement);
  return statements.length === 1 ? statements[0] : null;
}

function severalUntested(
  draft: ModuleDraft,
  rest: TopStatement | null,
  untested: readonly EdgeDraft[],
  edges: readonly EdgeDraft[],
): Failure {
  const args = { signals: signalTexts(draft, untested) };
  return { reason: 'clock-several-untested', args, at: rest?.statement.at ?? edges[0].at };
}

function noneUntested(draft: ModuleDraft, { at }: Statement, edges: readonly EdgeDraft[]): Failure {
  return { reason: 'clock-none-untested', args: { signals: signalTexts(draft, edges) }, at };
}

function signalTexts({ source }: ModuleDraft, edges: readonly EdgeDraft[]): string {
  return edges.map(({ at }) => source.textOf(at)).join(', ');
}
