// Runs one initial block at time 0, statement by statement, by IEEE 1364-2005 to the letter: an unknown condition takes
// the else branch (9.4), case items match digit by digit (9.5), nonblocking assignments wait for the end (11.4). A test
// bench is run through the same statements, with time (`bench.ts`): then a time control gives a pause instead of the end.

import { type Bits, fromNumber } from '../netlist/four-state';
import { resize, slice } from '../netlist/four-state-parts';
import { caseMatches, isTrue } from '../netlist/ieee';
import type { At, DelayTable, EventControl, Expression, Statement } from '../syntax/tables';
import { statementsIn } from '../syntax/statements-in';
import { enterCall, leaveCall } from './call-guard';
import { integerOf } from './constant-value';
import { contextIn } from './constants';
import { assignedSignals, signalsOf } from './assigned-signals';
import { isTooDeep } from './expression-depth';
import { typeOf } from './expression-type';
import { isMemoryTask, loadMemory } from './load-memory';
import { fillLoopOf } from './fill-loops';
import { commonType, lower, lowerFor, lowerIn } from './lower';
import { indicesOf } from './lower-word';
import { formOfShape, type LocalSignal } from './local-signal';
import type { ModuleDraft, ProcessDraft } from './module-draft';
import { formMeant } from './patterns';
import { scopeInside } from './procedural-scopes';
import { enclosingScope } from './enclosing-scope';
import { taskOf } from './find-subroutine';
import type { Scope } from './scope';
import { createFrameStore, type Store } from './start-store';
import { endsRun, isOutputOnly } from './system-tasks';
import { sayNets, type Target, type TargetPart, targetOf } from './targets';

export interface Run {
  readonly draft: ModuleDraft;
  /** Null where a function is run for its result alone: then nothing it does is of the circuit. */
  readonly process: ProcessDraft | null;
  readonly store: Store;
  /** Nonblocking assignments of all initial blocks, in order. */
  readonly atEnd: (() => void)[];
  readonly steps: { count: number };
  /** What passes time; null at time 0 alone. */
  readonly clockwork: Clockwork | null;
}

/** How a run goes on past time controls, and what it may not rely on. */
export interface Clockwork {
  /** What a time control waits for; null where that cannot be told. */
  pauseAt(scope: Scope, statement: TimeControl): Pause | null;
  /** Whether the last statement has read what lies outside of the run; asking again starts afresh. */
  hasReadOutside(): boolean;
  /** Starts a process of its own. Tells how it stands: stopped, where it could not be followed to its end. */
  start(steps: Steps<Outcome>): () => 'running' | 'ended' | 'stopped';
  /** Nothing is known any more of these. */
  lose(signals: readonly LocalSignal[]): void;
  /** `$finish` or `$stop`. */
  finish(): void;
}

/** As `pauseAt` reads it: of an assignment, what stands behind its sign. */
export type TimeControl =
  | Extract<Statement, { kind: 'event' | 'wait' }>
  | { readonly kind: 'delay'; readonly delay: DelayTable };

export type Pause =
  | { readonly kind: 'delay'; readonly ps: number }
  | { readonly kind: 'event'; readonly scope: Scope; readonly control: EventControl }
  | { readonly kind: 'level'; readonly scope: Scope; readonly condition: Expression }
  | { readonly kind: 'join'; readonly isOver: () => boolean };

/** A step of a run: where it may be interrupted, or a pause that must be over before it goes on. */
export type Steps<Result> = Generator<Pause | undefined, Result>;

/**
 * Whether the run goes on, has met its first time control (or could not be followed further), or leaves a block or task
 * early: then its scope (10.3).
 */
export type Outcome = 'goes-on' | 'stopped' | Scope;

/** Up to its first time control. */
export function* runInitial(run: Run, scope: Scope, body: Statement): Generator<void, void> {
  const steps = runStatement({ ...run, clockwork: null }, scope, body, 0);
  while (steps.next().done !== true) yield;
}

export function* runStatement(run: Run, scope: Scope, statement: Statement, depth: number): Steps<Outcome> {
  const { limits } = run.draft;
  run.steps.count++;
  if (run.steps.count % 4096 === 0) yield undefined;
  if (run.steps.count > limits.nodes) return past(run, scope, statement, 'nodes');
  if (depth > limits.nesting) return past(run, scope, statement, 'nesting');
  switch (statement.kind) {
    case 'block':
      return statement.parallel
        ? yield* runParallel(run, scope, statement, depth)
        : yield* runBlock(run, scope, statement, depth);
    case 'assign':
      return yield* runAssignment(run, scope, statement);
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
      return yield* runCall(run, scope, statement, depth);
    case 'disable':
      return leave(run, scope, statement);
    case 'null':
      return 'goes-on';
    case 'delay':
    case 'event':
    case 'wait':
      return yield* runTimeControl(run, scope, statement, depth);
    case 'hole':
      return stop(run, scope, statement);
  }
}

function* runTimeControl(
  run: Run,
  scope: Scope,
  statement: Extract<Statement, { kind: 'delay' | 'event' | 'wait' }>,
  depth: number,
): Steps<Outcome> {
  const pause = run.clockwork?.pauseAt(scope, statement) ?? null;
  if (pause === null) return stop(run, scope, statement);
  yield pause;
  return statement.body === null ? 'goes-on' : yield* runStatement(run, scope, statement.body, depth + 1);
}

/** Nothing below the statement happens at time 0: what it assigns is stimulus. */
function stop({ clockwork, draft, process }: Run, scope: Scope, statement: Statement): Outcome {
  if (process === null) return 'stopped';
  const assigned = assignedSignals(scope, statement);
  clockwork?.lose(assigned);
  for (const signal of assigned) {
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
): Steps<Outcome> {
  const inner = scopeInside(scope, statement);
  for (const [index, child] of statement.body.entries()) {
    const outcome = yield* runStatement(run, inner, child, depth + 1);
    if (outcome === 'goes-on') continue;
    if (outcome !== 'stopped') return statement.label !== null && outcome === inner ? 'goes-on' : outcome;
    for (const later of statement.body.slice(index + 1)) stop(run, inner, later);
    return outcome;
  }
  return 'goes-on';
}

/** All at once, over when the last is (9.8.2). Who leaves the block early would stop the others: not followed. */
function* runParallel(
  run: Run,
  scope: Scope,
  statement: Extract<Statement, { kind: 'block' }>,
  depth: number,
): Steps<Outcome> {
  const { clockwork } = run;
  if (clockwork === null) return refuse(run, scope, statement, 'fork');
  const inner = scopeInside(scope, statement);
  const states = statement.body.map((child) => clockwork.start(runStatement(run, inner, child, depth + 1)));
  yield { kind: 'join', isOver: () => states.every((state) => state() !== 'running') };
  return states.some((state) => state() === 'stopped') ? 'stopped' : 'goes-on';
}

type Assignment = Extract<Statement, { kind: 'assign' }>;

function* runAssignment(run: Run, scope: Scope, statement: Assignment): Steps<Outcome> {
  const { draft, store } = run;
  const { blocking } = statement;
  const pause = pauseInside(run, scope, statement);
  if (pause === null) {
    stop(run, scope, statement);
    return blocking ? 'stopped' : 'goes-on';
  }
  const at = { context: contextIn(draft, scope), reader: store.reader };
  if (isTooDeep(at.context, statement.target)) return past(run, scope, statement, 'nesting');
  const target = targetOf(at, statement.target);
  sayNets(at, target, statement.target.at);
  if (target.width === null) {
    stop(run, scope, statement);
    return 'goes-on';
  }
  const value = lowerFor(at, statement.value, target.width, () => formMeant(at.context, statement.target));
  if (run.clockwork?.hasReadOutside()) {
    run.clockwork.lose(target.parts.flatMap(assignedBy));
    return 'goes-on';
  }
  if (pause === 'none') assignBits(run, scope, statement, target, value);
  else if (blocking) {
    yield pause;
    assignBits(run, scope, statement, target, value);
  } else run.clockwork?.start(assignLater(run, scope, statement, { pause, target, value }));
  return 'goes-on';
}

function assignedBy(part: TargetPart<Bits>): readonly LocalSignal[] {
  if (part.kind === 'words') return signalsOf(part.array);
  return part.kind === 'slice' ? [part.signal] : [];
}

/** What stands behind the sign of an assignment, `a = #3 b`; null where it cannot be followed. */
function pauseInside({ clockwork }: Run, scope: Scope, { delay, event }: Assignment): Pause | 'none' | null {
  if (delay === null && event === null) return 'none';
  if (clockwork === null) return null;
  if (delay !== null) return clockwork.pauseAt(scope, { kind: 'delay', delay });
  return event === null ? null : clockwork.pauseAt(scope, { kind: 'event', at: event.at, control: event, body: null });
}

function* assignLater(
  run: Run,
  scope: Scope,
  statement: Assignment,
  { pause, target, value }: { readonly pause: Pause; readonly target: Target<Bits>; readonly value: Bits },
): Steps<Outcome> {
  yield pause;
  assignBits(run, scope, statement, target, value);
  return 'goes-on';
}

/** `value` has the target's width. */
function assignBits(
  run: Run,
  scope: Scope,
  statement: Pick<Assignment, 'blocking' | 'at'>,
  { parts, width }: Target<Bits>,
  value: Bits,
): void {
  const { store } = run;
  const { blocking, at: place } = statement;
  let above = width ?? 0;
  for (const part of parts) {
    if (part.kind === 'hole') continue;
    above -= part.width;
    if (part.kind === 'words' && part.array.memory !== null) {
      const bits = slice(value, above, part.width);
      const { signal } = part.array.memory;
      noteAssignment(run, scope, statement, { signal, low: 0, width: signal.shape.width });
      const write = () => writeWord(store, part, bits, place);
      if (blocking) write();
      else run.atEnd.push(write);
    }
    if (part.kind !== 'slice') continue;
    const { signal, low } = part;
    const bits = slice(value, above, part.width);
    noteAssignment(run, scope, statement, part);
    if (blocking) store.write(signal, low, bits, place);
    else run.atEnd.push(() => store.write(signal, low, bits, place));
  }
}

/** A word, or a part of one, of an array kept as one content. */
function writeWord(store: Store, part: Extract<TargetPart<Bits>, { kind: 'words' }>, piece: Bits, at: At): void {
  const { array, offsets } = part;
  const indices = indicesOf(store.reader.algebra, array, offsets, at);
  if (array.memory === null || indices === null) return;
  const { contents, signal } = array.memory;
  const content = store.reader.read(signal, 0, signal.shape.width, at);
  store.write(signal, 0, contents.write(content, indices, part.index ?? fromNumber(32, part.low), piece), at);
}

function noteAssignment(
  { process }: Run,
  scope: Scope,
  { blocking, at }: Pick<Assignment, 'blocking' | 'at'>,
  { signal, low, width }: Pick<Extract<TargetPart<Bits>, { kind: 'slice' }>, 'signal' | 'low' | 'width'>,
): void {
  if (signal.isPrivate) return;
  process?.assignments.push({ signal: signal.index, low, width, blocking, path: null, delay: null, scope, at });
}

function* runIf(run: Run, scope: Scope, statement: Extract<Statement, { kind: 'if' }>, depth: number): Steps<Outcome> {
  const isMet = isTrue(valueNow(run, scope, statement.condition));
  if (run.clockwork?.hasReadOutside()) return passBy(run, scope, statement);
  const taken = isMet ? statement.then : statement.else;
  return taken === null ? 'goes-on' : yield* runStatement(run, scope, taken, depth + 1);
}

/**
 * What a statement does that depends on what lies outside of the run is not known: all that it assigns is lost, and where
 * it takes time or leaves, whatever comes after it.
 */
function passBy(run: Run, scope: Scope, statement: Statement): Outcome {
  const outcome = stop(run, scope, statement);
  return hasTimeOrLeaves(statement) ? outcome : 'goes-on';
}

function hasTimeOrLeaves(statement: Statement): boolean {
  const pending = [statement];
  for (let inner = pending.pop(); inner !== undefined; inner = pending.pop()) {
    const { kind } = inner;
    if (kind === 'delay' || kind === 'event' || kind === 'wait' || kind === 'disable' || kind === 'hole') return true;
    if (kind === 'call' && !isOutputOnly(inner.name.name)) return true;
    pending.push(...statementsIn(inner));
  }
  return false;
}

function valueNow(
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
): Steps<Outcome> {
  const at = { context: contextIn(run.draft, scope), reader: run.store.reader };
  const labels = statement.items.flatMap((item) => item.labels);
  const type = commonType(at.context, [statement.selector, ...labels]);
  const selector = lowerIn(at, statement.selector, type);
  const taken =
    statement.items.find((item) =>
      item.labels.some((label) => caseMatches(statement.match, selector, lowerIn(at, label, type))),
    ) ?? statement.items.find((item) => item.isDefault);
  if (run.clockwork?.hasReadOutside()) return passBy(run, scope, statement);
  return taken === undefined ? 'goes-on' : yield* runStatement(run, scope, taken.body, depth + 1);
}

type TaskCall = Extract<Statement, { kind: 'call' }>;

/** Arguments are copied in, the task is run on variables of its own, and copied out again (10.2.2). */
function* runCall(run: Run, scope: Scope, statement: TaskCall, depth: number): Steps<Outcome> {
  const { name } = statement.name;
  if (run.clockwork !== null && endsRun(name)) {
    run.clockwork.finish();
    return 'stopped';
  }
  if (isOutputOnly(name)) return 'goes-on';
  if (isMemoryTask(name) && loadMemory(run.draft, contextIn(run.draft, scope), run.store, statement)) return 'goes-on';
  if (name.startsWith('$')) return refuse(run, scope, statement, `task ${name}`);
  const at = { context: contextIn(run.draft, scope), reader: run.store.reader };
  const found = taskOf(at.context, statement);
  if (found.kind === 'none') return stop(run, scope, statement);
  const { frame, subroutine } = found;
  const { reader, write } = run.store;
  const store = createFrameStore(reader, write);
  for (const [index, { signal, direction }] of frame.ports.entries()) {
    if (direction === 'output') continue;
    const argument = statement.args[index];
    const { shape } = signal;
    store.write(
      signal,
      0,
      lowerFor(at, argument, shape.width, () => formOfShape(shape)),
      argument.at,
    );
  }
  if (run.clockwork?.hasReadOutside()) return passBy(run, scope, statement);
  if (enterCall(run.draft, found, statement.name) !== null) return stop(run, scope, statement);
  const outcome = yield* runStatement({ ...run, store }, frame.scope, subroutine.item.body, depth + 1);
  leaveCall(run.draft, found);
  if (outcome === 'stopped') return stop(run, scope, statement);
  for (const [index, { signal, direction }] of frame.ports.entries()) {
    if (direction !== 'input') copyOut(run, scope, statement.args[index], signal, store.startOf(signal));
  }
  return outcome === frame.scope ? 'goes-on' : outcome;
}

function copyOut(run: Run, scope: Scope, argument: Expression, { shape }: LocalSignal, value: Bits): void {
  const at = { context: contextIn(run.draft, scope), reader: run.store.reader };
  const target = targetOf(at, argument);
  sayNets(at, target, argument.at);
  if (target.width === null) return;
  const fitted = resize(value, target.width, shape.signed ? 'sign' : 'zero');
  assignBits(run, scope, { blocking: true, at: argument.at }, target, fitted);
}

/** The block or task that is left; one that is not around the statement belongs to another process. */
function leave(run: Run, scope: Scope, statement: Extract<Statement, { kind: 'disable' }>): Outcome {
  const { name } = statement.label;
  return enclosingScope(scope, name) ?? refuse(run, scope, statement, `disable ${name}`);
}

type Loop = Extract<Statement, { kind: 'for' | 'while' | 'repeat' | 'forever' }>;

function* runLoop(run: Run, outer: Scope, loop: Loop, depth: number): Steps<Outcome> {
  const scope = yield* enterLoop(run, outer, loop);
  if (fillAtOnce(run, scope, loop)) return 'goes-on';
  const { unroll } = run.draft.limits;
  const turns = loop.kind === 'repeat' ? repeatCount(run, scope, loop) : Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < turns; turn++) {
    const isOver = (loop.kind === 'for' || loop.kind === 'while') && !isTrue(valueNow(run, scope, loop.condition));
    if (run.clockwork?.hasReadOutside()) return passBy(run, scope, loop);
    if (isOver) break;
    if (turn >= unroll) return past(run, scope, loop, 'unroll');
    const outcome = yield* runStatement(run, scope, loop.body, depth + 1);
    if (outcome === 'stopped') return stop(run, scope, loop);
    if (outcome !== 'goes-on') return outcome;
    if (loop.kind === 'for') yield* runStatement(run, scope, loop.step, depth + 1);
  }
  return 'goes-on';
}

/** Whether the loop is of the form that fills a memory, which then has been done. */
function fillAtOnce(run: Run, scope: Scope, loop: Loop): boolean {
  const { draft, store } = run;
  const at = { context: contextIn(draft, scope), reader: store.reader };
  const found = loop.kind === 'for' ? fillLoopOf(at.context, loop) : null;
  if (found === null || loop.kind !== 'for') return false;
  const { array, memory, assignment, from, until, last } = found;
  const value = lowerFor(at, assignment.value, array.shape.width, () => formOfShape(array.shape));
  if (run.clockwork?.hasReadOutside()) return false;
  const { signal, contents } = memory;
  noteAssignment(run, scope, assignment, { signal, low: 0, width: signal.shape.width });
  const fill = () => {
    const content = store.reader.read(signal, 0, signal.shape.width, assignment.at);
    store.write(signal, 0, contents.fill(content, value, [{ from, until }]), assignment.at);
  };
  if (assignment.blocking) fill();
  else run.atEnd.push(fill);
  const variable = targetOf(at, loop.variable);
  assignBits(run, scope, { blocking: true, at: loop.at }, variable, fromNumber(variable.width ?? 32, last));
  return true;
}

function* enterLoop(run: Run, outer: Scope, loop: Loop): Steps<Scope> {
  if (loop.kind !== 'for') return outer;
  const scope = scopeInside(outer, loop);
  const { at, variable: target, start: value } = loop;
  yield* runAssignment(run, scope, { kind: 'assign', at, blocking: true, target, value, delay: null, event: null });
  return scope;
}

/** An unknown or negative count repeats nothing (9.6). */
function repeatCount({ draft, store }: Run, scope: Scope, { count }: Extract<Loop, { kind: 'repeat' }>): number {
  const at = { context: contextIn(draft, scope), reader: store.reader };
  return integerOf({ kind: 'bits', bits: lower(at, count), signed: typeOf(at.context, count).signed }) ?? 0;
}
