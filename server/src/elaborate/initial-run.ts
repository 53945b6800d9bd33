// Runs one initial block at time 0, statement by statement, by IEEE 1364-2005 to the letter: an unknown condition takes
// the else branch (9.4), case items match digit by digit (9.5), nonblocking assignments wait for the end (11.4).

import type { Bits } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import { caseMatches, isTrue } from '../netlist/ieee';
import type { Statement } from '../syntax/tables';
import { integerOf } from './constant-value';
import { contextIn } from './constants';
import { assignedNames } from './driven-names';
import { isTooDeep } from './expression-depth';
import { typeOf } from './expression-type';
import { commonType, lower, lowerIn, lowerTo } from './lower';
import { loopScope } from './loop-scope';
import type { ModuleDraft, ProcessDraft } from './module-draft';
import { scopeInside } from './procedural-scopes';
import { lookUp, type Scope } from './scope';
import type { Store } from './start-store';
import { isOutputOnly } from './system-tasks';
import { sayNets, targetOf } from './targets';

export interface Run {
  readonly draft: ModuleDraft;
  readonly process: ProcessDraft;
  readonly store: Store;
  /** Nonblocking assignments of all initial blocks, in order. */
  readonly atEnd: (() => void)[];
  readonly steps: { count: number };
}

/** Whether the block goes on, or has met its first time control (or could not be followed further). */
type Outcome = 'goes-on' | 'stopped';

export function* runInitial(run: Run, scope: Scope, body: Statement): Generator<void, void> {
  yield* runStatement(run, scope, body, 0);
}

function* runStatement(run: Run, scope: Scope, statement: Statement, depth: number): Generator<void, Outcome> {
  const { limits } = run.draft;
  run.steps.count++;
  if (run.steps.count % 4096 === 0) yield;
  if (run.steps.count > limits.nodes) return past(run, scope, statement, 'nodes');
  if (depth > limits.nesting) return past(run, scope, statement, 'nesting');
  switch (statement.kind) {
    case 'block':
      return statement.parallel ? refuse(run, scope, statement, 'fork') : yield* runBlock(run, scope, statement, depth);
    case 'assign':
      return runAssignment(run, scope, statement);
    case 'if':
      return yield* runIf(run, scope, statement, depth);
    case 'case':
      return yield* runCase(run, scope, statement, depth);
    case 'for':
    case 'while':
    case 'repeat':
    case 'forever':
      return yield* runLoop(run, scope, statement, depth);
    case 'call':
      return isOutputOnly(statement.name.name)
        ? 'goes-on'
        : refuse(run, scope, statement, `task ${statement.name.name}`);
    case 'null':
      return 'goes-on';
    case 'delay':
    case 'event':
    case 'wait':
      return stop(run, scope, statement);
    case 'hole':
      return stop(run, scope, statement);
    default:
      return refuse(run, scope, statement, statement.kind);
  }
}

/** Nothing below the statement happens at time 0: what it assigns is stimulus. */
function stop({ draft, process }: Run, scope: Scope, statement: Statement): Outcome {
  for (const name of assignedNames(statement)) {
    const signal = lookUp(scope, name);
    if (signal?.kind === 'signal')
      draft.stimulated.push({ signal: signal.index, process: process.index, at: statement.at });
  }
  return 'stopped';
}

function refuse(run: Run, scope: Scope, statement: Statement, what: string): Outcome {
  run.draft.log.add('construct', { what }, run.draft.source.place(statement.at));
  return stop(run, scope, statement);
}

function past(run: Run, scope: Scope, statement: Statement, limit: 'nodes' | 'nesting' | 'unroll'): Outcome {
  const { log, limits, source } = run.draft;
  log.add('limit', { limit, value: limits[limit], name: 'initial' }, source.place(statement.at));
  return stop(run, scope, statement);
}

function* runBlock(
  run: Run,
  scope: Scope,
  statement: Extract<Statement, { kind: 'block' }>,
  depth: number,
): Generator<void, Outcome> {
  const inner = scopeInside(scope, statement);
  for (const [index, child] of statement.body.entries()) {
    const outcome = yield* runStatement(run, inner, child, depth + 1);
    if (outcome === 'goes-on') continue;
    for (const later of statement.body.slice(index + 1)) stop(run, inner, later);
    return outcome;
  }
  return 'goes-on';
}

function runAssignment(run: Run, scope: Scope, statement: Extract<Statement, { kind: 'assign' }>): Outcome {
  const { draft, process, store } = run;
  const { blocking, at: place } = statement;
  const waits = statement.delay !== null || statement.event !== null;
  if (waits) {
    stop(run, scope, statement);
    return blocking ? 'stopped' : 'goes-on';
  }
  const at = { context: contextIn(draft, scope), reader: store.reader };
  if (isTooDeep(at.context, statement.target)) return past(run, scope, statement, 'nesting');
  const target = targetOf(at, statement.target);
  const { parts, width } = target;
  sayNets(at, target, statement.target.at);
  if (width === null) {
    stop(run, scope, statement);
    return 'goes-on';
  }
  const value = lowerTo(at, statement.value, width);
  let above = width;
  for (const part of parts) {
    if (part.kind === 'hole') continue;
    above -= part.width;
    if (part.kind !== 'slice') continue;
    const { signal, low } = part;
    const bits = slice(value, above, part.width);
    process.assignments.push({
      signal: signal.index,
      low,
      width: part.width,
      blocking,
      path: null,
      delay: null,
      scope,
      at: place,
    });
    if (blocking) store.write(signal, low, bits, place);
    else run.atEnd.push(() => store.write(signal, low, bits, place));
  }
  return 'goes-on';
}

function* runIf(
  run: Run,
  scope: Scope,
  statement: Extract<Statement, { kind: 'if' }>,
  depth: number,
): Generator<void, Outcome> {
  const taken = isTrue(valueAtTimeZero(run, scope, statement.condition)) ? statement.then : statement.else;
  return taken === null ? 'goes-on' : yield* runStatement(run, scope, taken, depth + 1);
}

function valueAtTimeZero(
  { draft, store }: Run,
  scope: Scope,
  expression: Extract<Statement, { kind: 'if' }>['condition'],
): Bits {
  return lower({ context: contextIn(draft, scope), reader: store.reader }, expression);
}

function* runCase(
  run: Run,
  scope: Scope,
  statement: Extract<Statement, { kind: 'case' }>,
  depth: number,
): Generator<void, Outcome> {
  const at = { context: contextIn(run.draft, scope), reader: run.store.reader };
  const labels = statement.items.flatMap((item) => item.labels);
  const type = commonType(at.context, [statement.selector, ...labels]);
  const selector = lowerIn(at, statement.selector, type);
  const taken =
    statement.items.find((item) =>
      item.labels.some((label) => caseMatches(statement.match, selector, lowerIn(at, label, type))),
    ) ?? statement.items.find((item) => item.isDefault);
  return taken === undefined ? 'goes-on' : yield* runStatement(run, scope, taken.body, depth + 1);
}

type Loop = Extract<Statement, { kind: 'for' | 'while' | 'repeat' | 'forever' }>;

function* runLoop(run: Run, outer: Scope, loop: Loop, depth: number): Generator<void, Outcome> {
  const scope = enterLoop(run, outer, loop);
  const { unroll } = run.draft.limits;
  const turns = loop.kind === 'repeat' ? repeatCount(run, scope, loop) : Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < turns; turn++) {
    if ((loop.kind === 'for' || loop.kind === 'while') && !isTrue(valueAtTimeZero(run, scope, loop.condition))) break;
    if (turn >= unroll) return past(run, scope, loop, 'unroll');
    const outcome = yield* runStatement(run, scope, loop.body, depth + 1);
    if (outcome === 'stopped') return stop(run, scope, loop);
    if (loop.kind === 'for') yield* runStatement(run, scope, loop.step, depth + 1);
  }
  return 'goes-on';
}

function enterLoop(run: Run, outer: Scope, loop: Loop): Scope {
  if (loop.kind !== 'for') return outer;
  const scope = loopScope(run.draft, outer, loop);
  const { at, variable: target, start: value } = loop;
  runAssignment(run, scope, { kind: 'assign', at, blocking: true, target, value, delay: null, event: null });
  return scope;
}

/** An unknown or negative count repeats nothing (9.6). */
function repeatCount({ draft, store }: Run, scope: Scope, { count }: Extract<Loop, { kind: 'repeat' }>): number {
  const at = { context: contextIn(draft, scope), reader: store.reader };
  return integerOf({ kind: 'bits', bits: lower(at, count), signed: typeOf(at.context, count).signed }) ?? 0;
}
