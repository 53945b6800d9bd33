// Types by their names: typedef, enumerations and type parameters (IEEE 1800-2017 6.18, 6.19, 6.20.3), each worked out when
// first asked for. A type here is what a declaration needs of it: width, range and sign.

import type { CompositeTable, DataTypeTable, EnumMember, EnumTable, Item, Named, TypeTable } from '../syntax/tables';
import { type ConstantValue, integerOf, integerValue, toBits } from './constant-value';
import { contextIn } from './constants';
import { declaredRange, intBase, variableShape } from './declared-shape';
import { memberNames } from './enum-names';
import type { DeclaredRange } from './local-signal';
import type { ModuleDraft } from './module-draft';
import { createParameter } from './parameters';
import type { ParameterEntity, Scope } from './scope';
import type { TypeForm } from './type-form';

type TypedefItem = Extract<Item, { kind: 'typedef' }>;
type TypeParameterItem = Extract<Item, { kind: 'type-parameter' }>;

export function declareTypes(draft: ModuleDraft, scope: Scope, items: readonly Item[]): void {
  for (const item of items) {
    if (item.kind === 'typedef') declareTypedef(draft, scope, item);
    if (item.kind === 'type-parameter') declareTypeParameter(draft, scope, item);
    if (item.kind === 'net' || item.kind === 'variable' || item.kind === 'parameter')
      declareNamesIn(draft, scope, item.type);
    if (item.kind === 'port') declareNamesIn(draft, scope, item.port.type);
  }
}

/** The names of enumerations that a declaration writes out are names of the scope it stands in (6.19). */
export function declareNamesIn(draft: ModuleDraft, scope: Scope, { inline }: TypeTable): void {
  if (inline === undefined) return;
  const pending: (CompositeTable | EnumTable)[] = [inline];
  for (let table = pending.pop(); table !== undefined; table = pending.pop()) {
    if (table.kind === 'enum') declareMembers(draft, scope, table);
    else for (const { type } of table.members) if (type.inline !== undefined) pending.push(type.inline);
  }
}

function declareTypedef(draft: ModuleDraft, scope: Scope, { name, type }: TypedefItem): void {
  if (isTaken(draft, scope, name)) return;
  scope.names.set(name.name, {
    kind: 'type',
    at: name,
    form: remembered(draft, name, () => (type === null ? null : formOf(draft, scope, type))),
  });
  if (type?.kind === 'enum') declareMembers(draft, scope, type);
  if (type?.kind === 'plain') declareNamesIn(draft, scope, type.type);
}

/** The surroundings' type, else its own. */
export function declareTypeParameter(draft: ModuleDraft, scope: Scope, item: TypeParameterItem): void {
  const { local, name, type } = item;
  if (isTaken(draft, scope, name)) return;
  const given = local ? undefined : scope.overrides?.get(name.name);
  const own = () => (type === null ? sayNoType(draft, name) : formOf(draft, scope, type));
  const form = given?.kind === 'type' ? () => given : remembered(draft, name, own);
  scope.names.set(name.name, { kind: 'type', at: name, form });
}

function sayNoType(draft: ModuleDraft, name: Named): null {
  draft.log.add('not-constant', { what: name.name }, draft.source.place(name));
  return null;
}

/** A scope is gone through once for what stands in a header, and once more with the rest. */
function isTaken(draft: ModuleDraft, scope: Scope, name: Named): boolean {
  const known = scope.names.get(name.name);
  if (known !== undefined && known.at !== name) {
    draft.log.add('declared-twice', { name: name.name }, draft.source.place(name));
  }
  return known !== undefined;
}

function remembered(draft: ModuleDraft, name: Named, work: () => TypeForm | null): () => TypeForm | null {
  let state: 'new' | 'running' | 'done' = 'new';
  let form: TypeForm | null = null;
  return () => {
    if (state === 'running') draft.log.add('cyclic-parameter', { name: name.name }, draft.source.place(name));
    if (state !== 'new') return form;
    state = 'running';
    form = work();
    state = 'done';
    return form;
  };
}

/** Null where it cannot be told, which has been said. */
export function formOf(draft: ModuleDraft, scope: Scope, table: DataTypeTable): TypeForm | null {
  const context = contextIn(draft, scope);
  const written =
    table.kind === 'plain' ? table : { ...table, variable: null, type: { signed: false, ranges: [], inline: table } };
  const shape = variableShape(context, written.variable ?? 'logic', written.type, table.at);
  const dimensions: DeclaredRange[] = [];
  for (const dimension of (table.kind === 'plain' ? table.dimensions : undefined) ?? []) {
    const range = declaredRange(context, dimension, 'memoryWords');
    if (range === null) return null;
    dimensions.push(range);
  }
  if (shape === null) return null;
  const all = [...dimensions, ...(shape.dimensions ?? [])];
  return { ...shape, ...(all.length === 0 ? {} : { dimensions: all }), kind: 'type' };
}

/** Each is a constant of the base type: 0, then one more than the name before it, unless it says a value (6.19.1). */
function declareMembers(draft: ModuleDraft, scope: Scope, table: EnumTable): void {
  let before: ParameterEntity | null = null;
  for (const member of table.members) {
    for (const { name, isFirst } of memberNames(contextIn(draft, scope), member)) {
      const entity: ParameterEntity = memberEntity(
        draft,
        scope,
        table,
        { ...member.name, name },
        isFirst ? member : null,
        before,
      );
      const known = scope.names.get(name);
      const isOther = known !== undefined && known.at.start !== member.name.start;
      if (isOther) draft.log.add('declared-twice', { name }, draft.source.place(member.name));
      if (known === undefined) scope.names.set(name, entity);
      before = entity;
    }
  }
}

function memberEntity(
  draft: ModuleDraft,
  scope: Scope,
  table: EnumTable,
  at: Named,
  member: EnumMember | null,
  before: ParameterEntity | null,
): ParameterEntity {
  const { variable, type } = table.base ?? intBase;
  const parameter = { kind: 'parameter', at: table.at, local: true, variable: variable ?? 'logic', type } as const;
  if (member !== null && member.value !== null) {
    const declarator = { at, name: at, dimensions: [], value: member.value };
    return createParameter(draft, scope, { ...parameter, declarators: [declarator] }, declarator, undefined);
  }
  const value = () => counted(draft, scope, table, before);
  return {
    kind: 'parameter',
    name: at.name,
    at,
    local: true,
    range: () => formOf(draft, scope, { ...table, members: [] }) ?? { msb: 31, lsb: 0 },
    value,
    lost: () => before?.lost() ?? null,
  };
}

function counted(draft: ModuleDraft, scope: Scope, table: EnumTable, before: ParameterEntity | null): ConstantValue {
  const form = formOf(draft, scope, { ...table, members: [] });
  const last = before === null ? -1 : (integerOf(before.value()) ?? -1);
  const { width, signed } = form ?? { width: 32, signed: true };
  return { kind: 'bits', bits: toBits(integerValue(last + 1), width), signed };
}
