// Runs the processes of a test bench over time by IEEE 1364-2005 11 (active, inactive and nonblocking events of one
// instant, then the next instant), on what the bench knows by itself. A process that waits for what the tested module
// does ends there, and all it would have assigned is lost.

import { type Bits, digitAt, equalBits } from '../netlist/four-state';
import { isTrue } from '../netlist/ieee';
import type { Statement } from '../syntax/tables';
import { assignedSignals } from './assigned-signals';
import { type BenchStore, createBenchStore } from './bench-store';
import { numberOf } from './constant-value';
import { contextIn } from './constants';
import { unitsInPs, unitsToPs } from './delays';
import { typeOf } from './expression-type';
import { type Clockwork, type Pause, type Run, runStatement, type Steps, type TimeControl } from './initial-run';
import { lower } from './lower';
import type { ModuleDraft } from './module-draft';
import { addProcess } from './processes';
import type { Scope } from './scope';
import { startWith } from './start-values';

/** What a test bench's run is asked at each settled instant. */
export interface BenchWatch {
  /** At time 0, and whenever something has changed; ps. */
  settled(at: number, store: BenchStore): void;
}

/** Null where the bench came to its end, or to rest; else the instant at which its run was cut, ps. */
export function* runBench(draft: ModuleDraft, watch: BenchWatch): Generator<void, number | null> {
  const schedule = createSchedule(draft);
  schedule.begin();
  for (;;) {
    let steps = 0;
    while (schedule.next()) {
      if (schedule.isExhausted()) return schedule.now();
      steps++;
      if (steps % 256 === 0) yield;
    }
    watch.settled(schedule.now(), schedule.values);
    yield;
    if (schedule.isFinished() || !schedule.advance()) return null;
  }
}

/** Statements run before a bench is cut: what comes later is beyond what a preview shows. */
const mostSteps = 20_000;

interface Process {
  readonly steps: Steps<unknown>;
  /** Null before its first. */
  pause: Waiting | null;
}

interface Waiting {
  /** ps; null: until `met`. */
  readonly at: number | null;
  readonly met: () => boolean;
}

function createSchedule(draft: ModuleDraft) {
  let time = 0;
  let isFinished = false;
  const waiting = new Set<Process>();
  const active: Process[] = [];
  const inactive: Process[] = [];
  const atEnd: (() => void)[] = [];
  const steps = { count: 0 };
  const wake = (): void => {
    for (const process of waiting) {
      if (process.pause?.at !== null || !process.pause.met()) continue;
      waiting.delete(process);
      active.push(process);
    }
    // What those look at is theirs, not the running statement's.
    values.hasReadOutside();
  };
  const values = createBenchStore(draft, wake);
  const clockwork: Clockwork = {
    pauseAt: (scope, statement) => pauseOf(draft, values, scope, statement),
    hasReadOutside: () => values.hasReadOutside(),
    lose: (signals) => values.lose(signals),
    start(started) {
      let state: ReturnType<ReturnType<Clockwork['start']>> = 'running';
      const steps = (function* (): Steps<void> {
        state = (yield* started) === 'goes-on' ? 'ended' : 'stopped';
        wake();
      })();
      active.push({ steps, pause: null });
      return () => state;
    },
    finish() {
      isFinished = true;
    },
  };

  function begin(): void {
    for (const initializer of draft.initializers) startWith(draft, values.store, initializer);
    for (const work of draft.work) {
      if (work.kind !== 'item' || work.item.kind !== 'process') continue;
      const { body, flavor, at } = work.item;
      if (flavor === 'final') continue;
      const run: Run = { draft, process: addProcess(draft, flavor, at), store: values.store, atEnd, steps, clockwork };
      const statements = flavor === 'initial' ? runStatement(run, work.scope, body, 0) : forEver(run, work.scope, body);
      active.push({ steps: statements, pause: null });
    }
  }

  /** Runs one process up to its next pause; false where nothing is left to do at this instant. */
  function next(): boolean {
    if (isFinished) return false;
    if (active.length === 0) active.push(...inactive.splice(0));
    if (active.length === 0) for (const update of atEnd.splice(0)) update();
    const process = active.shift();
    if (process === undefined) return false;
    values.hasReadOutside();
    for (let step = process.steps.next(); ; step = process.steps.next()) {
      if (step.done === true || isFinished) return true;
      if (step.value === undefined) continue;
      process.pause = waitFor(draft, values, step.value, time);
      if (process.pause.at === time) inactive.push(process);
      else if (process.pause.at === null && process.pause.met()) active.push(process);
      else waiting.add(process);
      return true;
    }
  }

  /** To the next instant at which something happens; false where there is none. */
  function advance(): boolean {
    const times = [...waiting].flatMap(({ pause }) => ((pause?.at ?? null) === null ? [] : [pause?.at ?? 0]));
    if (times.length === 0) return false;
    time = Math.min(...times);
    for (const process of waiting) {
      if (process.pause?.at !== time) continue;
      waiting.delete(process);
      active.push(process);
    }
    return true;
  }

  return {
    begin,
    next,
    advance,
    values,
    now: () => time,
    isFinished: () => isFinished,
    isExhausted: () => steps.count > mostSteps,
  };
}

/** An `always`: again and again, unless it takes no time at all. */
function* forEver(run: Run, scope: Scope, body: Statement): Steps<unknown> {
  for (;;) {
    let takesTime = false;
    const turn = runStatement(run, scope, body, 0);
    for (let step = turn.next(); ; step = turn.next()) {
      if (step.done === true) {
        if (takesTime && step.value !== 'stopped') break;
        run.clockwork?.lose(assignedSignals(scope, body));
        return;
      }
      takesTime ||= step.value !== undefined;
      yield step.value;
    }
  }
}

/** Null where what is waited for cannot be told from the bench alone. */
function pauseOf(draft: ModuleDraft, values: BenchStore, scope: Scope, statement: TimeControl): Pause | null {
  values.hasReadOutside();
  const pause = asPause(draft, values, scope, statement);
  if (pause === null) return null;
  if (pause.kind === 'event')
    for (const { expression } of pause.control.items) valueNow(draft, values, scope, expression);
  if (pause.kind === 'level') valueNow(draft, values, scope, pause.condition);
  return values.hasReadOutside() ? null : pause;
}

function asPause(draft: ModuleDraft, values: BenchStore, scope: Scope, statement: TimeControl): Pause | null {
  if (statement.kind === 'wait') return { kind: 'level', scope, condition: statement.condition };
  if (statement.kind === 'event') {
    const { control } = statement;
    return control.implicit || control.items.length === 0 ? null : { kind: 'event', scope, control };
  }
  const [value] = statement.delay.values;
  const ps = value === undefined ? null : delayOf(draft, values, scope, value);
  return ps === null || ps < 0 || !Number.isSafeInteger(ps) ? null : { kind: 'delay', ps };
}

type Expression = Parameters<typeof lower>[1];

function delayOf(draft: ModuleDraft, values: BenchStore, scope: Scope, expression: Expression): number | null {
  const value = expression.kind === 'mintypmax' ? expression.typ : expression;
  if (value.kind === 'time') return Math.round(value.value * unitsInPs[value.unit]);
  const context = contextIn(draft, scope);
  const constant = context.constant(value);
  const { signed } = typeOf(context, value);
  const number = numberOf(constant ?? { kind: 'bits', bits: valueNow(draft, values, scope, value), signed });
  return number === null ? null : unitsToPs(number, draft.table);
}

function valueNow(draft: ModuleDraft, { store }: BenchStore, scope: Scope, expression: Expression): Bits {
  return lower({ context: contextIn(draft, scope), reader: store.reader }, expression);
}

function waitFor(draft: ModuleDraft, values: BenchStore, pause: Pause, now: number): Waiting {
  if (pause.kind === 'join') return { at: null, met: pause.isOver };
  if (pause.kind === 'delay') return { at: now + pause.ps, met: () => false };
  if (pause.kind === 'level') {
    return { at: null, met: () => isTrue(valueNow(draft, values, pause.scope, pause.condition)) };
  }
  const items = pause.control.items.map(({ edge, expression }) => {
    const read = () => valueNow(draft, values, pause.scope, expression);
    return { edge, read, before: read() };
  });
  return {
    at: null,
    // Every item takes its new value, so that the next change is told from this one.
    met: () => items.filter((item) => hasEvent(item)).length > 0,
  };
}

interface EventItem {
  readonly edge: 'posedge' | 'negedge' | 'edge' | null;
  readonly read: () => Bits;
  before: Bits;
}

/** An edge is a change of the least significant bit toward a level, from or to x and z too (9.7.2). */
function hasEvent(item: EventItem): boolean {
  const { before, edge } = item;
  const after = item.read();
  item.before = after;
  if (edge === null) return !equalBits(before, after);
  const [from, to] = [rankOf(before), rankOf(after)];
  return edge === 'edge' ? from !== to : edge === 'posedge' ? from < to : from > to;
}

/** Of the least significant bit: x and z stand between 0 and 1. */
function rankOf(value: Bits): number {
  return ['0', 'x', '1'].indexOf(digitAt(value, 0).replace('z', 'x'));
}
