// The names of one interface, declared in a scope of the module that holds it (IEEE 1800-2017 25.3): where the interface is
// instantiated, and once more, as ports, in every module that it is connected to. Both hold the same signals by the same
// names, which is how they are joined.

import type { ModportItem, ModuleTable } from '../syntax/tables';
import { signalsOf } from './assigned-signals';
import { declareItems, declarePortSignal } from './declarations';
import type { InterfaceForm } from './library';
import type { LocalSignal } from './local-signal';
import type { ModuleDraft } from './module-draft';
import { declareParameters } from './parameters';
import { createScope, type InterfaceEntity, type Scope } from './scope';
import { declareSubroutines } from './subroutines';
import { declareTypes } from './types';

/** `outer`: only for what stands before the names. Names outside it mean nothing inside an interface. */
export function createInterfaceScope(draft: ModuleDraft, outer: Scope, name: string, form: InterfaceForm): Scope {
  return {
    ...createScope(null, null),
    prefix: `${outer.prefix}${name}.`,
    overrides: form.overrides,
    outside: () => draft.outside(form.unit.unit),
  };
}

/** Parameters, ports and modports; signals and subroutines are left to whoever goes through the items. */
export function declareHead(draft: ModuleDraft, scope: Scope, table: ModuleTable): void {
  draft.declareImports(scope, table.items);
  declareSubroutines(draft, scope, table.items);
  declareTypes(draft, scope, [...table.parameters, ...table.items]);
  for (const item of table.parameters) if (item.kind === 'parameter') declareParameters(draft, scope, item);
  for (const port of table.ports) if (port.interface === undefined) declarePortSignal(draft, scope, port, null);
  for (const item of table.items) {
    if (item.kind === 'port') refuseBodyPort(draft, scope, item.port.declarator.name);
  }
}

function refuseBodyPort(draft: ModuleDraft, scope: Scope, name: ModportItem['name']): void {
  const what = 'port in the body of an interface';
  const complaint = draft.log.add('construct', { what }, draft.source.place(name));
  scope.names.set(name.name, { kind: 'hole', at: name, complaint });
}

/** The signals that everything connected to the interface shares. */
export function* declareSignals(draft: ModuleDraft, scope: Scope, table: ModuleTable): Generator<void, void> {
  yield* declareItems(
    draft,
    scope,
    table.items.filter(({ kind }) => kind !== 'port'),
  );
}

/** After its signals: a modport names them. */
export function declareModports(draft: ModuleDraft, entity: Omit<InterfaceEntity, 'kind'>, table: ModuleTable): void {
  const { scope } = entity;
  for (const item of table.items) {
    if (item.kind !== 'modport') continue;
    const { name } = item;
    if (scope.names.has(name.name)) draft.log.add('declared-twice', { name: name.name }, draft.source.place(name));
    else scope.names.set(name.name, { ...entity, kind: 'interface', at: name, modport: item });
    for (const member of item.members) {
      const isKnown = member.expression !== null || scope.names.has(member.name.name);
      if (!isKnown) draft.log.add('undeclared-name', { name: member.name.name }, draft.source.place(member.name));
    }
  }
}

export interface InterfaceMember {
  /** From the interface down. */
  readonly path: string;
  /** Of the declaration that it belongs to: a modport lists that. */
  readonly name: string;
  readonly signal: LocalSignal;
}

/** In order of declaration. */
export function membersOf(scope: Scope): readonly InterfaceMember[] {
  const members = new Map<LocalSignal, InterfaceMember>();
  for (const [name, entity] of scope.names) {
    for (const signal of signalsOf(entity)) {
      const path = signal.path.slice(scope.prefix.length);
      const known = members.get(signal);
      // The words of an array are listed beside it, each under its own name.
      if (known === undefined || entity.kind !== 'signal') members.set(signal, { path, name, signal });
    }
  }
  return [...members.values()];
}
