// Which names a module declares and where each of them is seen: the module itself, its generate blocks and its blocks of
// statements, one scope within another (IEEE 1364-2005 12.7). Also where it names other modules, what it connects to them
// and what it assigns to. From tables alone, so that text which is half typed still has its names.

import { statementsIn } from '../syntax/statements-in';
import type {
  At,
  Connection,
  DataTypeTable,
  Declarator,
  Expression,
  GenerateBlock,
  ImportItem,
  Item,
  ModuleTable,
  Named,
  PortTable,
  Statement,
  SubroutineItem,
} from '../syntax/tables';

export type DeclarationKind =
  | 'module'
  | 'parameter'
  | 'input'
  | 'output'
  | 'inout'
  | 'net'
  | 'variable'
  | 'instance'
  | 'gate'
  | 'block'
  | 'subroutine'
  | 'interface-port'
  | 'modport'
  | 'type'
  | 'enum-member'
  /** The variable that a loop declares in its own head. */
  | 'loop-variable';

export interface Declaration {
  readonly kind: DeclarationKind;
  readonly name: Named;
  /** All that is declared with it: for an outline. */
  readonly at: At;
  /** As written: a type, a module's name; empty where there is nothing to say. */
  readonly detail: string;
}

export interface Scope {
  readonly at: At;
  /** How many scopes it stands in. */
  readonly depth: number;
  /** By name, in source order; a port of an old-style header may be declared twice. */
  readonly declarations: Map<string, Declaration[]>;
  readonly inner: Scope[];
  /** What packages lend it, in source order. */
  readonly imports: ImportItem[];
  /** What the scope is called; null for one without a name. */
  readonly label: Named | null;
}

export interface ModuleScopes {
  readonly scope: Scope;
  /** Offset of a module's name in an instance → that name. */
  readonly moduleNames: ReadonlyMap<number, string>;
  /** Offset of a port's or parameter's name in a connection → the module it is declared in. */
  readonly connectionNames: ReadonlyMap<number, string>;
  /** Connections to ports, in source order. */
  readonly connected: readonly PortConnection[];
  /** Offsets of names that an assignment or a gate writes to. */
  readonly written: ReadonlySet<number>;
}

export interface PortConnection {
  readonly module: string;
  /** Place in the list, for one by order. */
  readonly index: number;
  readonly connection: Connection;
}

/** A module of the source with its scopes. */
export interface KnownModule {
  /** Index of its unit. */
  readonly index: number;
  readonly table: ModuleTable;
  readonly scopes: ModuleScopes;
}

/** `text`: the expanded text of the module's unit, which its tables index. */
export function scopesOf(module: ModuleTable, text: string): ModuleScopes {
  const scope = openScope(module.at, 0, null);
  const walk: Walk = { text, moduleNames: new Map(), connectionNames: new Map(), connected: [], written: new Set() };
  for (const item of module.parameters) addItem(walk, scope, item);
  for (const port of module.ports) declarePort(walk, scope, port);
  for (const item of module.items) addItem(walk, scope, item);
  const { connected, connectionNames, moduleNames, written } = walk;
  return { scope, moduleNames, connectionNames, connected, written };
}

interface Walk {
  readonly text: string;
  readonly moduleNames: Map<number, string>;
  readonly connectionNames: Map<number, string>;
  readonly connected: PortConnection[];
  readonly written: Set<number>;
}

function openScope(at: At, depth: number, label: Named | null): Scope {
  return { at, depth, declarations: new Map(), inner: [], imports: [], label };
}

function addItem(walk: Walk, scope: Scope, item: Item): void {
  switch (item.kind) {
    case 'net':
      declareAll(scope, 'net', item.declarators, item.net);
      break;
    case 'variable':
      declareAll(scope, 'variable', item.declarators, item.variable);
      break;
    case 'parameter':
      declareAll(scope, 'parameter', item.declarators, item.local ? 'localparam' : 'parameter');
      break;
    case 'port':
      declareAll(scope, item.port.direction, [item.port.declarator], '');
      break;
    case 'import':
      scope.imports.push(item);
      break;
    case 'typedef':
      declare(scope, { kind: 'type', name: item.name, at: item.at, detail: item.type?.kind === 'enum' ? 'enum' : '' });
      if (item.type !== null) declareEnumMembers(scope, item.type);
      break;
    case 'type-parameter':
      declare(scope, { kind: 'type', name: item.name, at: item.at, detail: '' });
      break;
    case 'modport':
      declare(scope, { kind: 'modport', name: item.name, at: item.at, detail: '' });
      break;
    case 'assign':
      addWritten(walk, item.target);
      break;
    case 'gate':
      addGates(walk, scope, item);
      break;
    case 'process':
      addStatement(walk, scope, item.body);
      break;
    case 'subroutine':
      addSubroutine(walk, scope, item);
      break;
    case 'instances':
      addInstances(walk, scope, item);
      break;
    case 'generate-if':
      for (const block of [item.then, item.else]) if (block !== null) addBlock(walk, scope, block);
      break;
    case 'generate-for':
      addGenerateLoop(walk, scope, item);
      break;
    case 'generate-case':
      for (const { body } of item.items) addBlock(walk, scope, body);
      break;
    case 'generate-block':
      addBlock(walk, scope, item.block);
      break;
    case 'hole':
      break;
  }
}

function declare(scope: Scope, declaration: Declaration): void {
  const { name } = declaration.name;
  scope.declarations.set(name, [...(scope.declarations.get(name) ?? []), declaration]);
}

/** They are names of the scope around (IEEE 1800-2017 6.19); one that stands for several is left out. */
function declareEnumMembers(scope: Scope, type: DataTypeTable): void {
  if (type.kind !== 'enum') return;
  for (const { end, name, range, start } of type.members) {
    if (range === null) declare(scope, { kind: 'enum-member', name, at: { start, end }, detail: '' });
  }
}

/** The interface that a port is of is named as the module of an instance is. */
function declarePort(walk: Walk, scope: Scope, { at, declarator, direction, interface: reference }: PortTable): void {
  if (reference === undefined) declare(scope, { kind: direction, name: declarator.name, at, detail: '' });
  else declare(scope, { kind: 'interface-port', name: declarator.name, at, detail: reference.name?.name ?? '' });
  const named = reference?.name ?? null;
  if (named !== null) walk.moduleNames.set(named.start, named.name);
}

function declareAll(scope: Scope, kind: DeclarationKind, declarators: readonly Declarator[], detail: string): void {
  for (const { at, name } of declarators) declare(scope, { kind, name, at, detail });
}

function addGates(walk: Walk, scope: Scope, { gate, instances }: Item & { readonly kind: 'gate' }): void {
  for (const { at, connections, name } of instances) {
    if (name !== null) declare(scope, { kind: 'gate', name, at, detail: gate });
    for (const { value } of drivenTerminals(gate, connections)) if (value !== null) addWritten(walk, value);
  }
}

/** The first terminal of a gate; of `buf` and `not` all but the last (IEEE 1364-2005 7.2, 7.3), which of one is the first. */
function drivenTerminals(gate: string, connections: readonly Connection[]): readonly Connection[] {
  return gate === 'buf' || gate === 'not' ? connections.slice(0, -1) : connections.slice(0, 1);
}

function addInstances(walk: Walk, scope: Scope, item: Item & { readonly kind: 'instances' }): void {
  const { instances, module, parameters } = item;
  walk.moduleNames.set(module.start, module.name);
  for (const { name } of [...parameters, ...instances.flatMap(({ connections }) => connections)]) {
    if (name !== null) walk.connectionNames.set(name.start, module.name);
  }
  for (const { at, connections, name } of instances) {
    if (name !== null) declare(scope, { kind: 'instance', name, at, detail: module.name });
    for (const [index, connection] of connections.entries()) {
      walk.connected.push({ module: module.name, index, connection });
    }
  }
}

/** `for (genvar i = 0; …)` declares its variable for the loop alone (IEEE 1800-2017 27.4). */
function addGenerateLoop(walk: Walk, scope: Scope, item: Item & { readonly kind: 'generate-for' }): void {
  const { at, body, variable } = item;
  const declares = /\bgenvar\s+$/.test(walk.text.slice(at.start, variable.start));
  if (!declares) walk.written.add(variable.start);
  addBlock(walk, declares ? loopScope(scope, at, variable) : scope, body);
}

function loopScope(scope: Scope, at: At, variable: Named): Scope {
  const inner = innerScope(scope, at, null);
  declare(inner, { kind: 'loop-variable', name: variable, at: variable, detail: '' });
  return inner;
}

function addBlock(walk: Walk, scope: Scope, { at, items, label }: GenerateBlock): void {
  const inner = innerScope(scope, at, label);
  for (const item of items) addItem(walk, inner, item);
}

function innerScope(scope: Scope, at: At, label: Named | null): Scope {
  const inner = openScope(at, scope.depth + 1, label);
  scope.inner.push(inner);
  if (label !== null) declare(scope, { kind: 'block', name: label, at, detail: '' });
  return inner;
}

/** Its own name stays that of the outer scope: inside a function it is what the function gives. */
function addSubroutine(
  walk: Walk,
  scope: Scope,
  { at, body, declarations, name, ports, result }: SubroutineItem,
): void {
  declare(scope, { kind: 'subroutine', name, at, detail: result === null ? 'task' : 'function' });
  const inner = innerScope(scope, at, null);
  for (const { declarator, direction } of ports) declareAll(inner, direction, [declarator], '');
  for (const item of declarations) addItem(walk, inner, item);
  addStatement(walk, inner, body);
}

/** Statements nest no deeper than reading lets them. */
function addStatement(walk: Walk, scope: Scope, statement: Statement): void {
  if (statement.kind === 'assign') {
    addWritten(walk, statement.target);
    return;
  }
  if (statement.kind !== 'block') {
    const seen = statement.kind === 'for' ? addLoopVariable(walk, scope, statement) : scope;
    for (const part of statementsIn(statement)) addStatement(walk, seen, part);
    return;
  }
  const { at, body, declarations, label } = statement;
  const opens = label !== null || declarations.length > 0;
  const inner = opens ? innerScope(scope, at, label) : scope;
  for (const item of declarations) addItem(walk, inner, item);
  for (const part of body) addStatement(walk, inner, part);
}

/** The scope that the loop's parts stand in. */
function addLoopVariable(
  walk: Walk,
  scope: Scope,
  { at, declares, variable }: Statement & { readonly kind: 'for' },
): Scope {
  if (declares && variable.kind === 'name') {
    const { end, start } = variable.at;
    return loopScope(scope, at, { start, end, name: variable.name });
  }
  addWritten(walk, variable);
  return scope;
}

function addWritten({ written }: Walk, target: Expression): void {
  for (const offset of writtenNames(target)) written.add(offset);
}

/** Offsets of the names that an assignment to `target` changes: not those that only choose a bit. */
export function* writtenNames(target: Expression): Generator<number> {
  const waiting: Expression[] = [target];
  for (let part = waiting.pop(); part !== undefined; part = waiting.pop()) {
    if (part.kind === 'name') yield part.at.start;
    else if (part.kind === 'index' || part.kind === 'range' || part.kind === 'member') waiting.push(part.base);
    else if (part.kind === 'concat') waiting.push(...part.parts);
  }
}
