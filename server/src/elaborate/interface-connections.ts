// Joins the signals of an interface with those that an instance's port has of it: what the instance takes in reads them,
// what it gives out drives them.

import { sliceOf } from '../netlist/node-makers';
import type { Expression, InterfaceReference, ModuleTable } from '../syntax/tables';
import { connectedExpressions } from './connection-lists';
import { contextIn } from './constants';
import { driveTarget } from './continuous';
import { importNode, readNode } from './draft-nodes';
import { interfaceAt, interfaceNamed, interfacesIn } from './interface-references';
import { membersOf } from './interface-scope';
import type { LocalSignal } from './local-signal';
import type { ChildDraft, InterfaceArgument, ModuleDraft } from './module-draft';
import type { InterfaceEntity } from './scope';
import type { PortMember, PortShape, Template } from './template';

/** What an instance's interface ports are connected to: the module below is read for that. */
export function interfaceArguments(
  draft: ModuleDraft,
  child: ChildDraft,
  table: ModuleTable | null,
): ReadonlyMap<string, InterfaceArgument> {
  const found = new Map<string, InterfaceArgument>();
  const ports = table?.ports ?? [];
  if (!ports.some((port) => port.interface !== undefined)) return found;
  const shapes = ports.map(({ declarator }) => ({ name: declarator.name.name }));
  const connected = connectedExpressions(draft, child, shapes);
  for (const [index, port] of ports.entries()) {
    const { interface: reference } = port;
    if (reference === undefined || isUnknown(draft, reference)) continue;
    const entity = interfaceAt(contextIn(draft, child.scope), port, connected[index], child.at);
    const [first] = typeof entity === 'number' ? [] : interfacesIn(entity);
    if (first !== undefined)
      found.set(port.declarator.name.name, { form: first.form, modport: first.modport?.name.name ?? null });
  }
  return found;
}

/** A type, or an interface that is not given: the module below knows which. */
function isUnknown({ library }: ModuleDraft, { name }: InterfaceReference): boolean {
  return name !== null && library.interface(name.name) === null;
}

export function connectInterface(
  draft: ModuleDraft,
  child: ChildDraft,
  template: Template,
  { members = [] }: PortShape,
  expression: Expression,
): void {
  const own = signalsByMember(interfacesFor(draft, child, expression, members));
  for (const member of members) {
    const signal = own.get(keyOf(member));
    if (signal !== undefined) connectMember(draft, child, template, member, signal, expression);
  }
}

/** An array of instances shares an array of interfaces out among its members, when their ports are no arrays. */
function interfacesFor(
  draft: ModuleDraft,
  { element, scope, table }: ChildDraft,
  expression: Expression,
  members: readonly PortMember[],
): readonly InterfaceEntity[] {
  const entity = interfaceNamed(contextIn(draft, scope), expression);
  if (entity === null || typeof entity === 'number') return [];
  const all = interfacesIn(entity);
  const isShared =
    entity.kind === 'interfaces' && table.range !== null && members.every((member) => member.element === 0);
  return isShared && all.length === element.count ? [all[all.length - 1 - element.position]] : all;
}

function signalsByMember(entities: readonly InterfaceEntity[]): ReadonlyMap<string, LocalSignal> {
  return new Map(
    entities.flatMap(({ scope }, element) =>
      membersOf(scope).map(({ path, signal }) => [keyOf({ element, path }), signal] as const),
    ),
  );
}

function keyOf({ element, path }: Pick<PortMember, 'element' | 'path'>): string {
  return `${element} ${path}`;
}

function connectMember(
  draft: ModuleDraft,
  child: ChildDraft,
  template: Template,
  { direction, driven, signal: below }: PortMember,
  signal: LocalSignal,
  { at }: Expression,
): void {
  const { width } = signal.shape;
  if (direction !== 'output') child.inputs.set(below, readNode(draft, signal, { low: 0, width }, at));
  if (direction === 'input' || (direction === 'inout' && !template.exports.has(below))) return;
  const entry =
    direction === 'inout'
      ? ({ kind: 'export', child: child.index, signal: below } as const)
      : ({ kind: 'below', path: [child.index], signal: below } as const);
  const whole = importNode(draft, entry, width, at);
  const releases = direction === 'inout' && template.releasing.has(below);
  for (const bits of driven) {
    const value = sliceOf(draft.nodes, whole, bits.low, bits.width, draft.source.place(at));
    const target = { parts: [{ kind: 'slice', signal, ...bits }], width: bits.width } as const;
    driveTarget(draft, child.scope, null, target, { at, value, delay: null, releases });
  }
}
