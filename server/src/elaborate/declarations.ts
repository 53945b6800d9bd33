// Declares what one scope declares directly: parameters, nets, variables and ports (the two halves of a port with a
// non-ANSI header are joined). Generate constructs are scopes of their own and come afterwards.

import type { At, Declarator, Item, NetType, PortTable, TypeTable, VariableType } from '../syntax/tables';
import { signalsOf } from './assigned-signals';
import { contextIn } from './constants';
import { netShape, variableShape } from './declared-shape';
import type { LocalSignal, SignalShape } from './local-signal';
import { declareArray } from './arrays';
import { addSignal, type ModuleDraft } from './module-draft';
import { declareParameters } from './parameters';
import { declareTypes } from './types';
import { declareRecord, isTakenApart } from './records';
import { type ArrayEntity, lookUp, type RecordEntity, type Scope } from './scope';
import { wholeOf } from './whole-values';

type Declared = LocalSignal | RecordEntity | ArrayEntity;

/** Yields now and then. */
export function* declareItems(draft: ModuleDraft, scope: Scope, items: readonly Item[]): Generator<void, void> {
  draft.declareImports(scope, items);
  declareTypes(draft, scope, items);
  for (const item of items) if (item.kind === 'parameter') declareParameters(draft, scope, item);
  for (const [index, item] of items.entries()) {
    declareItem(draft, scope, item);
    if (index % 256 === 255) yield;
  }
  for (const item of items) if (item.kind === 'hole') declareHole(draft, scope, item);
}

function declareItem(draft: ModuleDraft, scope: Scope, item: Item): void {
  switch (item.kind) {
    case 'port':
      declarePort(draft, item.port);
      return;
    case 'net':
      for (const declarator of item.declarators) declareNet(draft, scope, item, declarator);
      return;
    case 'variable':
      for (const declarator of item.declarators) declareVariable(draft, scope, item, declarator);
      return;
  }
}

/** A port of an ANSI header or of the body. Without a type it is a net of the default type (12.3.3). */
export function declarePort(draft: ModuleDraft, port: PortTable): void {
  declarePortSignal(draft, draft.root, port, port.direction);
}

/** `seen`: its direction from outside; null for a port of an interface, which is a signal like any other. */
export function declarePortSignal(draft: ModuleDraft, scope: Scope, port: PortTable, seen: LocalSignal['port']): void {
  const { declarator, direction, type, at } = port;
  const context = contextIn(draft, scope);
  const written =
    port.variable !== null || (type.named !== undefined && port.net === null)
      ? variableShape(context, port.variable ?? 'logic', type, at)
      : netShape(context, port.net ?? defaultNet(draft), type);
  // `input logic a` names a data type, not a variable: what comes from outside is a net (IEEE 1800-2017 23.2.2.3).
  const shape = written !== null && direction !== 'output' ? { ...written, kind: 'net' as const } : written;
  const declared = declare(draft, scope, declarator, shape, seen);
  if (declared !== null && shape?.kind === 'variable') addInitializer(draft, scope, declared, declarator);
}

function defaultNet({ table }: ModuleDraft): NetType {
  return table.defaultNet === 'none' ? 'wire' : table.defaultNet;
}

function declareNet(
  draft: ModuleDraft,
  scope: Scope,
  item: Extract<Item, { kind: 'net' }>,
  declarator: Declarator,
): void {
  if (item.net === 'trireg') draft.log.add('construct', { what: 'trireg' }, draft.source.place(item.at));
  const shape = netShape(contextIn(draft, scope), item.net, item.type);
  const declared = declareOrJoin(draft, scope, declarator, shape, item.type);
  if (declared === null || declarator.value !== null || item.delay === null) return;
  for (const { index } of signalsOf(declared)) draft.netDelays.set(index, { table: item.delay, scope });
}

function declareVariable(
  draft: ModuleDraft,
  scope: Scope,
  item: { readonly variable: VariableType; readonly type: TypeTable; readonly at: At },
  declarator: Declarator,
): void {
  if (item.variable === 'genvar') {
    if (!isTaken(draft, scope, declarator))
      scope.names.set(declarator.name.name, { kind: 'genvar', at: declarator.name });
    return;
  }
  const shape = variableShape(contextIn(draft, scope), item.variable, item.type, item.at);
  const declared = declareOrJoin(draft, scope, declarator, shape, item.type);
  if (declared !== null) addInitializer(draft, scope, declared, declarator);
}

function addInitializer(draft: ModuleDraft, scope: Scope, declared: Declared, { value }: Declarator): void {
  if (value === null) return;
  if (scope.isPrivate) {
    draft.log.add('construct', { what: 'start value in a function or task' }, draft.source.place(value.at));
    return;
  }
  const whole = wholeOf(declared);
  if (whole !== null) draft.initializers.push({ ...whole, scope, value });
  else if (declared.kind === 'array' && declared.memory !== null)
    draft.log.add('construct', { what: 'start value of a whole memory' }, draft.source.place(value.at));
}

/** `output q; reg q;` declares one signal: the second half gives the kind, and the range where it writes one. */
function declareOrJoin(
  draft: ModuleDraft,
  scope: Scope,
  declarator: Declarator,
  shape: SignalShape | null,
  { ranges }: TypeTable,
): Declared | null {
  const known = scope.names.get(declarator.name.name);
  const mayJoin = scope.isPrivate || !draft.table.ansi;
  const isSecondHalf = known?.kind === 'signal' && known.port !== null && !known.isJoined && mayJoin;
  if (!isSecondHalf) return declare(draft, scope, declarator, shape, null);
  if (shape === null) return null;
  const { kind, type, signed } = shape;
  known.isJoined = true;
  known.shape =
    ranges.length === 0 && shape.width === 1
      ? { ...known.shape, kind, type, signed: signed || known.shape.signed }
      : { ...shape, signed: signed || known.shape.signed };
  return known;
}

function declare(
  draft: ModuleDraft,
  scope: Scope,
  declarator: Declarator,
  shape: SignalShape | null,
  port: LocalSignal['port'],
): Declared | null {
  if (isTaken(draft, scope, declarator)) return null;
  const at = declarator.name;
  const { name } = at;
  if (shape !== null && (declarator.dimensions.length > 0 || shape.dimensions !== undefined))
    return declareArray(draft, scope, declarator, shape, port);
  if (shape === null) {
    scope.names.set(name, { kind: 'hole', at, complaint: -1 });
    return null;
  }
  const added = { scope, name, at, port, isPrivate: false };
  if (!scope.isPrivate && isTakenApart(shape)) return declareRecord(draft, { ...added, shape });
  return addSignal(draft, { ...added, shape });
}

function isTaken(draft: ModuleDraft, scope: Scope, { name }: Declarator): boolean {
  if (!scope.names.has(name.name)) return false;
  draft.log.add('declared-twice', { name: name.name }, draft.source.place(name));
  return true;
}

/** Names that an item that could not be read declares are known, and unknown; those it drives get a hole. */
function declareHole(draft: ModuleDraft, scope: Scope, { names, at }: Extract<Item, { kind: 'hole' }>): void {
  for (const name of names) {
    const known = lookUp(scope, name.name);
    if (known === null) scope.names.set(name.name, { kind: 'hole', at: name, complaint: -1 });
    for (const signal of signalsOf(known)) draft.work.push({ kind: 'hole', signal, at, complaint: -1 });
  }
}
