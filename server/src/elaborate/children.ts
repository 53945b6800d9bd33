// Instances as a module's text lists them: each with its name, its place in an array, and the parameters it is given
// (IEEE 1364-2005 12.1.2, 12.2.2). Which module that makes is asked for later, by whoever keeps the templates.

import type { Connection, Expression, InstanceTable, Item, TypeName } from '../syntax/tables';
import { contextIn } from './constants';
import { declaredRange } from './declared-shape';
import { defparamsFor } from './defparams';
import type { ChildDraft, ModuleDraft } from './module-draft';
import { sayNotConstant } from './not-constant';
import type { InstanceEntity, Scope } from './scope';
import type { Override, TypeForm } from './type-form';
import { formOf } from './types';

type InstancesItem = Extract<Item, { kind: 'instances' }>;

export function addChildren(draft: ModuleDraft, scope: Scope, item: InstancesItem): void {
  const overrides = parameterValues(draft, scope, item);
  for (const table of item.instances) {
    if (table.range === null) addSingle(draft, scope, item, table, overrides);
    else addArray(draft, scope, item, table, overrides);
  }
}

type Overrides = ChildDraft['overrides'];

function addSingle(
  draft: ModuleDraft,
  scope: Scope,
  item: InstancesItem,
  table: InstanceTable,
  overrides: Overrides,
): void {
  const name = table.name?.name ?? item.module.name;
  const child = addChild(draft, { scope, item, table, overrides, name, element: { position: 0, count: 1 } });
  declareInstance(draft, scope, table, name, { kind: 'instance', at: child.at, child: child.index });
}

/** The rightmost index is position 0: it is connected to the least significant bits (7.1.6). */
function addArray(
  draft: ModuleDraft,
  scope: Scope,
  item: InstancesItem,
  table: InstanceTable,
  overrides: Overrides,
): void {
  const range = table.range === null ? null : declaredRange(contextIn(draft, scope), table.range);
  if (range === null) return;
  const name = table.name?.name ?? item.module.name;
  const members = new Map<number, InstanceEntity>();
  for (let position = range.width - 1; position >= 0; position--) {
    const index = range.msb >= range.lsb ? range.lsb + position : range.lsb - position;
    const element = { position, count: range.width };
    const child = addChild(draft, { scope, item, table, overrides, name: `${name}[${index}]`, element });
    members.set(index, { kind: 'instance', at: child.at, child: child.index });
  }
  declareInstance(draft, scope, table, name, { kind: 'instances', at: table.at, members });
}

interface NewChild extends Pick<ChildDraft, 'scope' | 'item' | 'table' | 'overrides' | 'element'> {
  readonly name: string;
}

function addChild(draft: ModuleDraft, { name, ...rest }: NewChild): ChildDraft {
  const path = `${rest.scope.prefix}${name}`;
  const module = rest.item.module.name;
  const given = defparamsFor(draft, path, { name: module, parameters: draft.parameterNames(module) });
  const child: ChildDraft = {
    ...rest,
    overrides: given.size === 0 ? rest.overrides : new Map([...rest.overrides, ...given]),
    index: draft.children.length,
    path,
    at: rest.table.at,
    template: null,
    missing: -1,
    inputs: new Map(),
  };
  draft.children.push(child);
  draft.work.push({ kind: 'child', child });
  return child;
}

function declareInstance(
  draft: ModuleDraft,
  scope: Scope,
  table: InstanceTable,
  name: string,
  entity: InstanceEntity | { kind: 'instances'; at: InstanceTable['at']; members: ReadonlyMap<number, InstanceEntity> },
): void {
  if (scope.names.has(name)) draft.log.add('declared-twice', { name }, draft.source.place(table.name ?? table.at));
  else scope.names.set(name, entity);
}

/** By name, or by order in the module's header; what is no constant keeps the module's own value. */
export function parameterValues(draft: ModuleDraft, scope: Scope, item: InstancesItem): Overrides {
  if (draft.isPrimitive(item.module.name)) return withoutDelay(draft, item);
  const names = draft.parameterNames(item.module.name);
  const values = new Map<string, Override>();
  const types = draft.typeParameters(item.module.name);
  if (names === null) return values;
  const byOrder = item.parameters.filter(({ name }) => name === null).length;
  if (byOrder > names.length) {
    const args = { module: item.module.name, given: byOrder, parameters: names.length };
    draft.log.add('too-many-parameters', args, draft.source.place(item.parameters[names.length].at));
  }
  item.parameters.forEach((connection, index) => {
    const name = connection.name === null ? names[index] : knownName(draft, item, connection, names);
    if (name !== undefined && types.includes(name)) {
      const type = givenType(draft, scope, connection);
      if (type !== null) values.set(name, type);
      return;
    }
    const value = connection.value === null ? null : contextIn(draft, scope).constant(connection.value);
    if (name === undefined) return;
    if (value !== null) values.set(name, value);
    else if (connection.value !== null) sayNotConstant(contextIn(draft, scope), connection.value);
  });
  return values;
}

/** A type's name reads like that of a value. */
function givenType(draft: ModuleDraft, scope: Scope, { at, type, value }: Connection): TypeForm | null {
  if (type !== undefined) return formOf(draft, scope, type);
  if (value === null || value.kind === 'hole') return null;
  const named = typeNameOf(value);
  if (named !== null) {
    return formOf(draft, scope, { kind: 'plain', at, variable: null, type: { signed: false, ranges: [], named } });
  }
  draft.log.add('not-a-type', { name: draft.source.textOf(value.at) }, draft.source.place(value.at));
  return null;
}

function typeNameOf(value: Expression): TypeName | null {
  if (value.kind === 'name') return { ...value.at, scope: null, name: { ...value.at, name: value.name } };
  return value.kind === 'scoped' ? { ...value.at, scope: value.scope, name: value.name } : null;
}

/** What stands where a module takes parameters is the delay of a primitive's output (8.7). */
function withoutDelay({ log, source }: ModuleDraft, { parameters }: InstancesItem): Overrides {
  for (const { at } of parameters) log.add('ignored-delay', { text: `#${source.textOf(at)}` }, source.place(at));
  return new Map();
}

function knownName(
  draft: ModuleDraft,
  item: InstancesItem,
  { name, at }: Connection,
  names: readonly string[],
): string | undefined {
  if (name === null || names.includes(name.name)) return name?.name;
  const args = { module: item.module.name, parameter: name.name };
  draft.log.add('unknown-parameter', args, draft.source.place(name ?? at));
  return undefined;
}
