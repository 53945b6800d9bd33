// What each process of the text becomes: registers, logic, latches, stimulus, or nothing that can be read.

import { Op } from '../netlist/operators';
import { sliceOf } from '../netlist/node-makers';
import type { At, EventControl, Item, Statement } from '../syntax/tables';
import { type ClockedResult, readClocked } from './clocked-process';
import { contextIn } from './constants';
import { assignedSignals } from './assigned-signals';
import { statementsIn } from '../syntax/statements-in';
import { createLayer } from './environment';
import { isSameSource, traceBit } from './draft-trace';
import type { Failure } from './failure';
import { levelResult } from './level-process';
import { lower } from './lower';
import { type EdgeDraft, type ModuleDraft, type ProcessDraft, signalAt } from './module-draft';
import { createNodeReader } from './process-reader';
import type { Scope } from './scope';
import { followStatement } from './statements';
import type { Walk } from './walk';

export type ProcessItem = Extract<Item, { kind: 'process' }>;

export function addProcess(draft: ModuleDraft, flavor: ProcessDraft['flavor'], at: At): ProcessDraft {
  const process: ProcessDraft = {
    index: draft.processes.length,
    flavor,
    at,
    kind: 'combinational',
    sensitivity: [],
    implicitSensitivity: false,
    reads: [],
    readKeys: new Set(),
    ports: [],
    innerReads: new Set(),
    assignments: [],
    lastAssignments: new Map(),
  };
  draft.processes.push(process);
  return process;
}

/** Any `always`. Initial blocks are run elsewhere, for their start values. */
export function* readProcess(draft: ModuleDraft, scope: Scope, item: ProcessItem): Generator<void, void> {
  const { flavor, body, at } = item;
  if (flavor === 'initial' || flavor === 'final') return;
  const process = addProcess(draft, flavor, at);
  const control = body.kind === 'event' ? body.control : null;
  const statement = body.kind === 'event' ? body.body : body;
  if (control !== null) readSensitivity(draft, scope, process, control);
  else process.implicitSensitivity = flavor === 'always_comb' || flavor === 'always_latch';
  if (statement === null) return;
  const failure =
    control === null && !process.implicitSensitivity
      ? withoutControl(draft, process, item)
      : unreadablePart(draft, statement);
  if (failure !== null) {
    process.kind = failure.kind;
    leaveUnknown(draft, scope, process, statement, failure.complaint);
    return;
  }
  const edges = process.sensitivity.filter(({ edge }) => edge !== null);
  if (edges.length === 0) yield* readLevels(draft, scope, process, statement);
  else yield* readEdges(draft, scope, process, statement, edges);
}

function readSensitivity(draft: ModuleDraft, scope: Scope, process: ProcessDraft, control: EventControl): void {
  process.implicitSensitivity = control.implicit;
  const at = { context: contextIn(draft, scope), reader: createNodeReader(draft, draft.otherReads, null) };
  for (const { edge, expression } of control.items) {
    const node = lower(at, expression);
    if (edge === null) {
      process.sensitivity.push({ edge, node, at: expression.at });
      continue;
    }
    const bit = sliceOf(draft.nodes, node, 0, 1, draft.source.place(expression.at));
    for (const kind of edge === 'edge' ? (['posedge', 'negedge'] as const) : [edge]) {
      process.sensitivity.push({ edge: kind, node: bit, at: expression.at });
    }
  }
}

interface Unreadable {
  readonly kind: 'stimulus' | 'unreadable';
  readonly complaint: number;
}

/** An `always` that waits for nothing: stimulus where it waits for time, else a loop without end. */
function withoutControl(draft: ModuleDraft, process: ProcessDraft, { flavor, body, at }: ProcessItem): Unreadable {
  if (contains(body, (statement) => isTimeControl(statement))) return { kind: 'stimulus', complaint: -1 };
  const complaint = draft.log.add('no-time-control', { flavor }, draft.source.place(at));
  process.kind = 'unreadable';
  return { kind: 'unreadable', complaint };
}

function isTimeControl(statement: Statement): boolean {
  const { kind } = statement;
  if (kind === 'assign') return statement.delay !== null || statement.event !== null;
  return kind === 'delay' || kind === 'event' || kind === 'wait';
}

/** Constructs after which nothing of the process can be told: waiting in the middle. */
function unreadablePart(draft: ModuleDraft, statement: Statement): Unreadable | null {
  const found = find(statement, ({ kind }) => kind === 'event' || kind === 'wait' || kind === 'forever');
  if (found === null) return null;
  const what = found.kind === 'event' || found.kind === 'wait' ? `${found.kind} inside a process` : found.kind;
  const complaint = draft.log.add('construct', { what }, draft.source.place(found.at));
  return { kind: 'unreadable', complaint };
}

function contains(statement: Statement, test: (statement: Statement) => boolean): boolean {
  return find(statement, test) !== null;
}

function find(statement: Statement, test: (statement: Statement) => boolean): Statement | null {
  const stack = [statement];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (test(top)) return top;
    stack.push(...statementsIn(top).reverse());
  }
  return null;
}

/** All the process may assign is unknown. Stimulus says so per signal, once it is known that nothing else drives it. */
function leaveUnknown(
  draft: ModuleDraft,
  scope: Scope,
  process: ProcessDraft,
  statement: Statement,
  complaint: number,
): void {
  for (const signal of assignedSignals(scope, statement)) {
    if (signal.isPrivate) continue;
    if (process.kind === 'stimulus')
      draft.stimulated.push({ signal: signal.index, process: process.index, at: statement.at });
    else driveHole(draft, process, signal.index, statement.at, complaint);
  }
}

export function driveHole(
  draft: ModuleDraft,
  process: ProcessDraft | null,
  signal: number,
  at: At,
  complaint: number,
): void {
  const { width } = signalAt(draft, signal).shape;
  const node = draft.nodes.add(Op.hole, width, [], complaint, draft.source.place(at));
  draft.drivers.push({
    signal,
    low: 0,
    width,
    value: { kind: 'node', node },
    process: process?.index ?? null,
    at,
    canRelease: false,
    isContinuous: false,
  });
}

function createWalk(draft: ModuleDraft, process: ProcessDraft, body: Statement, style: Walk['style']): Walk {
  let steps = 0;
  return {
    draft,
    process,
    body,
    style,
    step() {
      steps++;
      if (steps !== draft.limits.nodes && !(draft.nodes.exceeded && !draft.isExhausted.value)) return;
      draft.isExhausted.value = true;
      const args = { limit: 'nodes', value: draft.limits.nodes, name: draft.moduleName } as const;
      draft.log.add('limit', args, draft.source.place(process.at));
    },
    isExhausted: () => draft.isExhausted.value,
  };
}

function* readLevels(
  draft: ModuleDraft,
  scope: Scope,
  process: ProcessDraft,
  statement: Statement,
): Generator<void, void> {
  const walk = createWalk(draft, process, statement, 'level');
  const layer = createLayer(null);
  yield* followStatement(walk, { layer, scope, path: null, depth: 0, exits: [] }, statement);
  const { drivers, latches } = levelResult(walk, layer);
  process.kind = latches.length > 0 ? 'latch' : 'combinational';
  draft.drivers.push(...drivers);
  draft.latches.push(...latches);
}

function* readEdges(
  draft: ModuleDraft,
  scope: Scope,
  process: ProcessDraft,
  statement: Statement,
  edges: readonly EdgeDraft[],
): Generator<void, void> {
  const failure = listFailure(draft, process, edges);
  if (failure !== null) {
    process.kind = 'unreadable';
    const complaint = draft.log.add(failure.reason, failure.args, draft.source.place(failure.at));
    leaveUnknown(draft, scope, process, statement, complaint);
    return;
  }
  process.kind = 'clocked';
  const walk = createWalk(draft, process, statement, 'clocked');
  const position = { layer: createLayer(null), scope, path: null, depth: 0, exits: [] };
  const result: ClockedResult = yield* readClocked(walk, position, statement, distinctEdges(draft, edges));
  draft.registers.push(...result.registers);
  draft.unclocked.push(...result.unclocked.map((entry) => ({ ...entry, process: process.index })));
}

/** What is wrong with the list itself (definition 12). */
function listFailure(draft: ModuleDraft, process: ProcessDraft, edges: readonly EdgeDraft[]): Failure | null {
  const { source } = draft;
  const level = process.sensitivity.find(({ edge }) => edge === null);
  if (level !== undefined) {
    const list = process.sensitivity.map(({ at }) => source.textOf(at)).join(', ');
    return { reason: 'clock-edges-mixed-with-levels', args: { list }, at: level.at };
  }
  for (const [index, edge] of edges.entries()) {
    if (edges.slice(0, index).some((other) => sameSignal(draft, edge, other) === 'opposite')) {
      return { reason: 'clock-both-edges', args: { signal: source.textOf(edge.at) }, at: edge.at };
    }
  }
  return null;
}

function distinctEdges(draft: ModuleDraft, edges: readonly EdgeDraft[]): EdgeDraft[] {
  return edges.filter((edge, index) =>
    edges.slice(0, index).every((other) => sameSignal(draft, edge, other) !== 'same'),
  );
}

/** Whether two entries stand for one signal, and then for the same of its edges. */
function sameSignal(draft: ModuleDraft, left: EdgeDraft, right: EdgeDraft): 'same' | 'opposite' | null {
  const [leftSource, rightSource] = [traceBit(draft, left.node, 0), traceBit(draft, right.node, 0)];
  if (!isSameSource(leftSource, rightSource)) return null;
  return (left.edge === right.edge) === (leftSource.inverted === rightSource.inverted) ? 'same' : 'opposite';
}
