// Ports that are interfaces: every signal of the interface is a port of the module under the port's name, with the
// direction that the modport gives it (IEEE 1800-2017 25.5). Where none does, it is whatever the module makes of it.

import type { Expression, ModportItem, ModportMember, Named, PortTable } from '../syntax/tables';
import { contextIn } from './constants';
import { declaredRange } from './declared-shape';
import type { BitRange } from './draft-nodes';
import { indicesFrom } from './interface-instances';
import {
  createInterfaceScope,
  declareHead,
  declareModports,
  declareSignals,
  type InterfaceMember,
  membersOf,
} from './interface-scope';
import type { InterfaceForm } from './library';
import type { LocalSignal } from './local-signal';
import { type ModuleDraft, type PortDraft, signalAt } from './module-draft';
import { type InterfaceEntity, lookUp, type Scope } from './scope';

/** Whether the name in a port's place is an interface's and no type's. */
export function isInterfacePort({ root }: ModuleDraft, { interface: reference }: PortTable): boolean {
  if (reference === undefined) return false;
  return reference.name === null || reference.modport !== null || lookUp(root, reference.name.name) === null;
}

export function* declareInterfacePort(draft: ModuleDraft, port: PortTable): Generator<void, void> {
  const { root } = draft;
  const at = port.declarator.name;
  const form = formOf(draft, port);
  if (typeof form === 'number') root.names.set(at.name, { kind: 'hole', at, complaint: form });
  else if (port.declarator.dimensions.length === 0)
    root.names.set(at.name, yield* declareOne(draft, port, form, at.name));
  else yield* declareArray(draft, port, form);
}

/** What is connected; without that, the interface as it stands. A number: neither is known, by that complaint. */
function formOf({ interfaces, library, log, source }: ModuleDraft, port: PortTable): InterfaceForm | number {
  const argument = interfaces.get(port.declarator.name.name);
  if (argument !== undefined) return argument.form;
  const name = port.interface?.name ?? null;
  if (name === null) return log.add('construct', { what: 'port of any interface' }, source.place(port.at));
  const unit = library.interface(name.name);
  if (unit !== null) return { unit, overrides: new Map() };
  return log.add('interface-not-given', { interface: name.name }, source.place(name));
}

function* declareArray(draft: ModuleDraft, port: PortTable, form: InterfaceForm): Generator<void, void> {
  const { declarator } = port;
  const [dimension, ...more] = declarator.dimensions;
  const { name } = declarator.name;
  const range = more.length > 0 ? null : declaredRange(contextIn(draft, draft.root), dimension);
  if (range === null) {
    const what = 'array of interfaces of more than one dimension';
    const complaint = more.length === 0 ? -1 : draft.log.add('construct', { what }, draft.source.place(declarator.at));
    draft.root.names.set(name, { kind: 'hole', at: declarator.name, complaint });
    return;
  }
  const members = new Map<number, InterfaceEntity>();
  for (const index of indicesFrom(range)) members.set(index, yield* declareOne(draft, port, form, `${name}[${index}]`));
  draft.root.names.set(name, { kind: 'interfaces', at: declarator.name, members });
}

function* declareOne(
  draft: ModuleDraft,
  port: PortTable,
  form: InterfaceForm,
  name: string,
): Generator<void, InterfaceEntity> {
  const { table } = form.unit;
  const scope = createInterfaceScope(draft, draft.root, name, form);
  const entity: InterfaceEntity = {
    kind: 'interface',
    at: port.declarator.name,
    name: table.name.name,
    form,
    scope,
    modport: null,
  };
  declareHead(draft, scope, table);
  yield* declareSignals(draft, scope, table);
  declareModports(draft, entity, table);
  const seen = throughModport(draft, port, entity);
  for (const member of membersOf(scope)) directSignal(draft, member, seen.modport);
  return seen;
}

function throughModport(draft: ModuleDraft, port: PortTable, entity: InterfaceEntity): InterfaceEntity {
  const written = port.interface?.modport ?? null;
  const name = written?.name ?? draft.interfaces.get(port.declarator.name.name)?.modport ?? null;
  if (name === null) return entity;
  const found = entity.scope.names.get(name);
  if (found?.kind === 'interface' && found.modport !== null) return found;
  const args = { interface: entity.name, modport: name };
  draft.log.add('unknown-modport', args, draft.source.place(written ?? port.at));
  return entity;
}

function directSignal(draft: ModuleDraft, { name, signal }: InterfaceMember, modport: ModportItem | null): void {
  const direction = directionIn(modport, name);
  // A net is delayed once, where the interface is instantiated.
  draft.netDelays.delete(signal.index);
  signal.port = direction ?? 'inout';
  if (direction === null) draft.undirected.push({ signal, modport: null });
  if (direction === 'input') draft.undirected.push({ signal, modport: modport?.name.name ?? null });
}

/** Null where the modport leaves it open: there is none, or its functions and tasks may do more than it says. */
function directionIn(modport: ModportItem | null, name: string): LocalSignal['port'] {
  const members = modport?.members ?? [];
  const mayCall = members.some(({ role }) => isSubroutine(role));
  for (const { role, name: own, expression } of members) {
    if (isSubroutine(role)) continue;
    const isMeant = expression === null ? own.name === name : baseNames(expression).includes(name);
    if (isMeant) return mayCall && role === 'input' ? null : role;
  }
  return null;
}

function isSubroutine(role: ModportMember['role']): role is 'import' | 'export' {
  return role === 'import' || role === 'export';
}

function baseNames(expression: Expression): readonly string[] {
  if (expression.kind === 'name') return [expression.name];
  if (expression.kind === 'concat') return expression.parts.flatMap(baseNames);
  return expression.kind === 'index' || expression.kind === 'range' || expression.kind === 'member'
    ? baseNames(expression.base)
    : [];
}

export function interfacePort({ root }: ModuleDraft, at: Named): PortDraft {
  const entity = root.names.get(at.name);
  const scopes: readonly Scope[] =
    entity?.kind === 'interface'
      ? [entity.scope]
      : entity?.kind === 'interfaces'
        ? [...entity.members.values()].map(({ scope }) => scope)
        : [];
  const members = scopes.flatMap((scope, element) =>
    membersOf(scope).map(({ path, signal }) => ({ element, path, signal })),
  );
  return { name: at.name, at, direction: 'input', parts: [], width: 0, members };
}

/** Once all that drives is known: what the module drives whole it gives out, what it does not drive it takes in. */
export function directSignals(draft: ModuleDraft): void {
  const driven = drivenStretches(draft);
  for (const { signal, modport } of draft.undirected) {
    const stretches = driven.get(signal.index) ?? [];
    const isWhole = stretches.length === 1 && stretches[0].width === signal.shape.width;
    if (stretches.length > 0 && modport !== null) sayDrivenInput(draft, signal, modport);
    if (stretches.length === 0) signal.port = 'input';
    else signal.port = isWhole && !canRelease(draft, signal) ? 'output' : 'inout';
  }
}

/** Against its modport: taken as what the module does. */
function sayDrivenInput(
  { drivers, latches, log, registers, source }: ModuleDraft,
  signal: LocalSignal,
  modport: string,
): void {
  const places = [
    ...drivers.flatMap((driver) => (driver.signal === signal.index ? [driver.at] : [])),
    ...registers.flatMap((register) => (register.signal === signal.index ? [register.sampleAt] : [])),
    ...latches.flatMap((latch) => (latch.signal === signal.index ? [latch.at] : [])),
  ];
  log.add('modport-input', { name: signal.name, modport }, source.place(places[0] ?? signal.at));
}

/** By signal, the bits that the module drives, lowest first: other modules may drive the rest. */
export function drivenStretches(draft: ModuleDraft): ReadonlyMap<number, readonly BitRange[]> {
  const driven = new Map<number, BitRange[]>();
  const add = (signal: number, bits: BitRange) => {
    const known = driven.get(signal);
    if (known === undefined) driven.set(signal, [bits]);
    else known.push(bits);
  };
  for (const { signal, low, width } of [...draft.drivers, ...draft.registers, ...draft.latches]) {
    add(signal, { low, width });
  }
  // What no rule gives a clock, and what stimulus assigns, is driven too, by nobody knows what.
  for (const { signal } of [...draft.unclocked, ...draft.stimulated]) {
    add(signal, { low: 0, width: signalAt(draft, signal).shape.width });
  }
  return new Map([...driven].map(([signal, stretches]) => [signal, united(stretches)] as const));
}

function united(stretches: readonly BitRange[]): readonly BitRange[] {
  const result: BitRange[] = [];
  for (const { low, width } of [...stretches].sort((left, right) => left.low - right.low)) {
    const last = result[result.length - 1];
    if (last === undefined || low > last.low + last.width) result.push({ low, width });
    else result[result.length - 1] = { low: last.low, width: Math.max(last.low + last.width, low + width) - last.low };
  }
  return result;
}

function canRelease({ drivers }: ModuleDraft, { index }: LocalSignal): boolean {
  return drivers.some((driver) => driver.signal === index && driver.canRelease);
}
