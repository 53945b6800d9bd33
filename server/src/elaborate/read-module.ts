// Reads one module with one set of parameters into a template: names first, then the modules below it, then everything
// that drives. A module below is asked for by yielding a request; the answer comes back from whoever keeps templates.

import { budget, type Limits } from '../budget';
import { createNodeBuilder } from '../netlist/node-builder';
import type { ModuleTable } from '../syntax/tables';
import type { ComplaintLog } from './complaint-log';
import { readAssignment } from './continuous';
import { connectChild } from './connections';
import { declarePort } from './declarations';
import { inheritedDefparams, sayUnusedDefparams } from './defparams';
import type { InstanceBelow } from './expression-context';
import { finishTemplate } from './finish-template';
import { followFunction } from './function-calls';
import { readGates } from './gates';
import { expandItems } from './generate';
import { addPorts, portsFirst } from './header-ports';
import { declareImports, findScoped, scopeOutside } from './imports';
import { declareImplicitNets } from './implicit-nets';
import type { ChildDraft, InterfaceArgument, ModuleDraft, Work } from './module-draft';
import { interfaceArguments } from './interface-connections';
import { declareInterfacePort, directSignals, isInterfacePort } from './interface-ports';
import type { Library } from './library';
import { createNumbered } from './numbered';
import { declareParameters } from './parameters';
import { driveHole, readProcess } from './processes';
import { runFunction } from './run-function';
import { createScope } from './scope';
import type { Override } from './type-form';
import type { UnitSource } from './source';
import { readSpecify } from './specify';
import { findStartValues } from './start-values';
import { declareSubroutines } from './subroutines';
import { subroutineBelow } from './subroutines-below';
import type { Template } from './template';
import { declareTypes } from './types';
import { addBlackBox } from './unread-instances';

export interface ModuleInput {
  readonly table: ModuleTable;
  readonly source: UnitSource;
  readonly log: ComplaintLog;
  readonly limits: Limits;
  readonly library: Library;
  readonly overrides: ReadonlyMap<string, Override>;
  /** By port: the interfaces that its surroundings connect. */
  readonly interfaces: ReadonlyMap<string, InterfaceArgument>;
  dataFile(path: string, unit: number): string | null;
  moduleTable(module: string): ModuleTable | null;
  parameterNames(module: string): readonly string[] | null;
  typeParameters(module: string): readonly string[];
  isPrimitive(module: string): boolean;
}

export interface TemplateRequest {
  readonly module: string;
  readonly overrides: ReadonlyMap<string, Override>;
  readonly interfaces: ReadonlyMap<string, InterfaceArgument>;
}

export type TemplateAnswer =
  | { readonly kind: 'template'; readonly template: Template }
  | { readonly kind: 'not-given' }
  /** Given, as something that is not read: `what` it is. */
  | { readonly kind: 'not-read'; readonly what: string }
  /** The module stands above itself with the same parameters. */
  | { readonly kind: 'recursive' }
  /** Too many instances below one another. */
  | { readonly kind: 'too-deep' };

export type ModuleReading = Generator<TemplateRequest | undefined, Template, TemplateAnswer | undefined>;

export function* readModule(input: ModuleInput): ModuleReading {
  const draft = yield* withoutAnswers(readNames(input));
  const totals = { instances: 1, nodes: 0 };
  for (const child of draft.children) {
    const module = child.item.module.name;
    const table = input.moduleTable(module);
    const interfaces = interfaceArguments(draft, child, table);
    const answer = yield { module, overrides: child.overrides, interfaces };
    if (answer?.kind === 'template' && table?.headerWhole === false && needsLostPorts(child, answer.template)) {
      const what = `module ${module}, whose header is damaged,`;
      child.missing = draft.log.add('construct', { what }, draft.source.place(child.at));
    } else takeAnswer(draft, child, answer ?? { kind: 'not-given' }, totals);
  }
  yield* withoutAnswers(readDrivers(draft));
  const start = yield* withoutAnswers(findStartValues(draft));
  yield* withoutAnswers(readProcesses(draft));
  directSignals(draft);
  yield;
  return yield* withoutAnswers(finishTemplate(draft, start));
}

/** The module's own names and all that is left to do once they are known. */
export function* readNames(input: ModuleInput): Generator<void, ModuleDraft> {
  const draft = createDraft(input);
  const { table } = input;
  declareImports(draft, draft.root, table.items);
  declareSubroutines(draft, draft.root, table.items);
  declareTypes(draft, draft.root, [...table.parameters, ...table.items]);
  for (const item of table.parameters) if (item.kind === 'parameter') declareParameters(draft, draft.root, item);
  for (const port of table.ports) {
    if (isInterfacePort(draft, port)) yield* declareInterfacePort(draft, port);
    else declarePort(draft, port);
  }
  yield* expandItems(draft, draft.root, portsFirst(table), { depth: 0 });
  for (const parameter of draft.parameters) parameter.value();
  sayUnusedDefparams(draft);
  declareImplicitNets(draft);
  addPorts(draft);
  return draft;
}

/** A generator that only yields to be interruptible, inside one that is also answered. */
function* withoutAnswers<Result>(inner: Generator<void, Result>): Generator<undefined, Result, unknown> {
  for (;;) {
    const step = inner.next();
    if (step.done) return step.value;
    yield undefined;
  }
}

function createDraft(input: ModuleInput): ModuleDraft {
  const { table, source, log, library, limits, overrides, interfaces } = input;
  const children: ChildDraft[] = [];
  const draft: ModuleDraft = {
    source,
    log,
    library,
    limits,
    table,
    overrides,
    children,
    moduleName: table.name.name,
    nodes: createNodeBuilder(budget(limits, 'nodes')),
    root: { ...createScope(null, null), overrides, outside: () => scopeOutside(draft, source.unit) },
    interfaces,
    undirected: [],
    packages: new Map(),
    outsides: new Map(),
    seenBelow: new Map(),
    signals: [],
    privates: [],
    kept: new Set(),
    arrays: [],
    netDelays: new Map(),
    parameters: [],
    ports: [],
    defparams: inheritedDefparams(overrides),
    work: [],
    running: { count: 0 },
    initializers: [],
    imports: createNumbered(),
    holds: createNumbered(),
    drivers: [],
    processes: [],
    registers: [],
    latches: [],
    unclocked: [],
    stimulated: [],
    otherReads: { reads: [], readKeys: new Set(), ports: [], innerReads: new Set() },
    pulls: [],
    blackBoxes: [],
    comparisons: [],
    explicitDelays: createNumbered(),
    specified: { paths: [], checks: [], pulses: [], onDetect: new Set(), delayed: new Map() },
    isExhausted: { value: false },
    calls: { depth: 0, count: 0, steps: { count: 0 } },
    followFunction: (call, reads, layer) => followFunction(draft, call, { reads, layer }),
    declareImports: (scope, items) => declareImports(draft, scope, items),
    outside: (unit) => scopeOutside(draft, unit),
    subroutineBelow: (entity, path, unit) => subroutineBelow(draft, entity, { path, unit }),
    scoped: (scope, from, name) => findScoped(draft, scope, from, name),
    runFunction: (call, outside) => runFunction(draft, call, outside),
    below: (child) => belowTemplate(children[child].template),
    dataFile: (path, unit) => input.dataFile(path, unit),
    isPrimitive: (module) => input.isPrimitive(module),
    parameterNames: (module) => input.parameterNames(module),
    typeParameters: (module) => input.typeParameters(module),
  };
  return draft;
}

function belowTemplate(template: Template | null): InstanceBelow | null {
  if (template === null) return null;
  const byIndex = new Map(template.children.map((child) => [child.index, child.template] as const));
  return { scope: template.scope, unit: template.unit, below: (child) => belowTemplate(byIndex.get(child) ?? null) };
}

/** Takes a module below in, unless the design would pass its limits with it. */
function takeAnswer(
  draft: ModuleDraft,
  child: ChildDraft,
  answer: TemplateAnswer,
  totals: { instances: number; nodes: number },
): void {
  const { log, source, limits } = draft;
  const module = child.item.module.name;
  if (answer.kind === 'not-given') return;
  if (answer.kind === 'not-read') {
    child.missing = log.add('construct', { what: `${answer.what} ${module}` }, source.place(child.at));
    return;
  }
  if (answer.kind === 'recursive') {
    child.missing = log.add('recursive-module', { module }, source.place(child.at));
    return;
  }
  const refused = answer.kind === 'too-deep' ? 'depth' : passedLimit(draft, answer.template, totals);
  if (refused !== null) {
    child.missing = log.add('limit', { limit: refused, value: limits[refused], name: module }, source.place(child.at));
    return;
  }
  if (answer.kind === 'template') child.template = answer.template;
}

/** Which port a connection means cannot be told by order, nor by a name that is not there, where the header has lost some. */
function needsLostPorts({ table }: ChildDraft, { ports }: Template): boolean {
  const names = new Set(ports.map(({ name }) => name));
  return table.connections.some(({ name }) => name === null || !names.has(name.name));
}

function passedLimit({ limits }: ModuleDraft, { totals }: Template, sum: { instances: number; nodes: number }) {
  if (sum.instances + totals.instances > limits.instances) return 'instances';
  if (sum.nodes + totals.nodes > limits.nodes) return 'nodes';
  sum.instances += totals.instances;
  sum.nodes += totals.nodes;
  return null;
}

/** Everything that drives without a process of its own: names can then be followed through it. */
function* readDrivers(draft: ModuleDraft): Generator<void, void> {
  let count = 0;
  for (const work of draft.work) {
    readDriver(draft, work);
    count++;
    if (count % 32 === 0) yield;
  }
}

function* readProcesses(draft: ModuleDraft): Generator<void, void> {
  let count = 0;
  for (const work of draft.work) {
    if (work.kind !== 'item' || work.item.kind !== 'process') continue;
    yield* readProcess(draft, work.scope, work.item);
    count++;
    if (count % 32 === 0) yield;
  }
}

function readDriver(draft: ModuleDraft, work: Work): void {
  switch (work.kind) {
    case 'hole':
      driveHole(draft, null, work.signal.index, work.at, work.complaint);
      return;
    case 'net-value':
      readAssignment(draft, work.scope, { ...work, target: { kind: 'name', at: work.at, name: work.signal.name } });
      return;
    case 'child':
      if (work.child.template !== null) connectChild(draft, work.child, work.child.template);
      else addBlackBox(draft, work.child, work.child.missing < 0 ? null : work.child.missing);
      return;
    case 'item':
      if (work.item.kind === 'assign') readAssignment(draft, work.scope, work.item);
      if (work.item.kind === 'gate') readGates(draft, work.scope, work.item);
      if (work.item.kind === 'specify') readSpecify(draft, work.scope, work.item);
  }
}
