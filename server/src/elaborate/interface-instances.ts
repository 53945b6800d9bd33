// Instances of interfaces: their signals, processes and functions become those of the module around, under the instance's
// name; what is connected to an interface's ports is assigned.

import type { At, Expression, InstanceTable, Item, Named, PortTable } from '../syntax/tables';
import { connectedExpressions } from './connection-lists';
import { contextIn } from './constants';
import { declaredRange } from './declared-shape';
import { createInterfaceScope, declareHead, declareModports } from './interface-scope';
import { interfaceAt } from './interface-references';
import type { InterfaceForm } from './library';
import type { ModuleDraft } from './module-draft';
import type { InterfaceEntity, Scope } from './scope';

type InstancesItem = Extract<Item, { kind: 'instances' }>;

/** How the items of an interface are gone through: as those of any scope. */
export type ExpandItems = (scope: Scope, items: readonly Item[]) => Generator<void, void>;

export function* addInterfaces(
  draft: ModuleDraft,
  scope: Scope,
  item: InstancesItem,
  form: InterfaceForm,
  expand: ExpandItems,
): Generator<void, void> {
  for (const table of item.instances) {
    const name = table.name?.name ?? item.module.name;
    if (scope.names.has(name)) draft.log.add('declared-twice', { name }, draft.source.place(table.name ?? table.at));
    else if (table.range === null)
      scope.names.set(name, yield* addInterface(draft, scope, { item, table, form, name, index: null }, expand));
    else yield* addArray(draft, scope, { item, table, form, name }, expand);
  }
}

interface NewInterface {
  readonly item: InstancesItem;
  readonly table: InstanceTable;
  readonly form: InterfaceForm;
  readonly name: string;
  readonly index: number | null;
}

function* addArray(
  draft: ModuleDraft,
  scope: Scope,
  instance: Omit<NewInterface, 'index'>,
  expand: ExpandItems,
): Generator<void, void> {
  const { table, name } = instance;
  const range = table.range === null ? null : declaredRange(contextIn(draft, scope), table.range);
  if (range === null) {
    scope.names.set(name, { kind: 'hole', at: table.at, complaint: -1 });
    return;
  }
  const members = new Map<number, InterfaceEntity>();
  scope.names.set(name, { kind: 'interfaces', at: table.at, members });
  for (const index of indicesFrom(range)) {
    members.set(index, yield* addInterface(draft, scope, { ...instance, index }, expand));
  }
}

/** The leftmost first. */
export function indicesFrom({
  msb,
  width,
  lsb,
}: {
  readonly msb: number;
  readonly lsb: number;
  readonly width: number;
}) {
  return Array.from({ length: width }, (_, position) => (msb >= lsb ? msb - position : msb + position));
}

function* addInterface(
  draft: ModuleDraft,
  outer: Scope,
  instance: NewInterface,
  expand: ExpandItems,
): Generator<void, InterfaceEntity> {
  const { form, index, table } = instance;
  const name = index === null ? instance.name : `${instance.name}[${index}]`;
  const { table: unit } = form.unit;
  const scope = createInterfaceScope(draft, outer, name, form);
  const at = table.name ?? table.at;
  const entity: InterfaceEntity = { kind: 'interface', at, name: unit.name.name, form, scope, modport: null };
  declareHead(draft, scope, unit);
  connectPorts(draft, outer, instance, scope);
  yield* expand(
    scope,
    unit.items.filter(({ kind }) => kind !== 'port'),
  );
  declareModports(draft, entity, unit);
  return entity;
}

function connectPorts(
  draft: ModuleDraft,
  outer: Scope,
  { form, item, table, name, index }: NewInterface,
  inner: Scope,
): void {
  const { ansi, ports } = form.unit.table;
  // What is wrong with ports declared in the body has been said there.
  if (!ansi) return;
  const shapes = ports.map(({ declarator }) => ({ name: declarator.name.name }));
  const connected = connectedExpressions(draft, { item, table, scope: outer }, shapes);
  for (const [position, port] of ports.entries()) {
    const expression = connected[position];
    if (port.interface !== undefined) connectInterface(draft, outer, table.at, port, expression, inner);
    else if (expression !== null)
      connectSignal(draft, outer, port, expression, memberOf(table, name, index, port.declarator.name));
  }
}

/** The port's own name of what is connected. */
function connectInterface(
  draft: ModuleDraft,
  outer: Scope,
  at: At,
  port: PortTable,
  expression: Expression | null,
  inner: Scope,
): void {
  const found = interfaceAt(contextIn(draft, outer), port, expression, at);
  const { name } = port.declarator;
  inner.names.set(name.name, typeof found === 'number' ? { kind: 'hole', at: name, complaint: found } : found);
}

/** An assignment, toward the interface or out of it. */
function connectSignal(
  draft: ModuleDraft,
  outer: Scope,
  { direction, at }: PortTable,
  expression: Expression,
  member: Expression,
): void {
  if (direction === 'inout') {
    draft.log.add('construct', { what: 'inout port of an interface' }, draft.source.place(at));
    return;
  }
  const [target, value] = direction === 'input' ? [member, expression] : [expression, member];
  draft.work.push({
    kind: 'item',
    scope: outer,
    item: { kind: 'assign', at: expression.at, delay: null, target, value },
  });
}

/** instance.port, as the module around may write it. */
function memberOf(table: InstanceTable, name: string, index: number | null, port: Named): Expression {
  const at = table.name ?? table.at;
  const own: Expression = { kind: 'name', at, name };
  const digits = `${index ?? 0}`;
  const number: Expression = { kind: 'number', at, size: null, signed: true, base: 'd', digits };
  const base: Expression = index === null ? own : { kind: 'index', at, base: own, index: number };
  return { kind: 'member', at, base, name: port };
}
