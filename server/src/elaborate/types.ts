// Types by their names: typedef, enumerations and type parameters (IEEE 1800-2017 6.18, 6.19, 6.20.3), each worked out when
// first asked for. A type here is what a declaration needs of it: width, range and sign.

import type { DataTypeTable, EnumMember, Item, Named } from '../syntax/tables';
import { type ConstantValue, integerOf, integerValue, toBits } from './constant-value';
import { contextIn } from './constants';
import { variableShape } from './declared-shape';
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
  const written = table.kind === 'plain' ? table : (table.base ?? intBase);
  const shape = variableShape(contextIn(draft, scope), written.variable ?? 'logic', written.type, table.at);
  if (shape === null) return null;
  const { type, width, msb, lsb, scalar, signed } = shape;
  return { kind: 'type', type, width, msb, lsb, scalar, signed };
}

/** 6.19: an enumeration that states no base is an int. */
const intBase = { variable: 'int', type: { signed: true, ranges: [] } } as const;

/** Each is a constant of the base type: 0, then one more than the name before it, unless it says a value (6.19.1). */
function declareMembers(draft: ModuleDraft, scope: Scope, table: Extract<DataTypeTable, { kind: 'enum' }>): void {
  let before: ParameterEntity | null = null;
  for (const member of table.members) {
    for (const { name, isFirst } of memberNames(draft, scope, member)) {
      const entity: ParameterEntity = memberEntity(
        draft,
        scope,
        table,
        { ...member.name, name },
        isFirst ? member : null,
        before,
      );
      if (scope.names.has(name)) draft.log.add('declared-twice', { name }, draft.source.place(member.name));
      else scope.names.set(name, entity);
      before = entity;
    }
  }
}

function memberNames(draft: ModuleDraft, scope: Scope, { name: { name }, range }: EnumMember) {
  if (range === null) return [{ name, isFirst: true }];
  const context = contextIn(draft, scope);
  const [first, last] = [range.msb, range.lsb].map((bound) => {
    const value = context.constant(bound);
    return value === null ? null : integerOf(value);
  });
  if (first === null || last === null || Math.abs(last - first) >= draft.limits.unroll) return [];
  const step = last >= first ? 1 : -1;
  return Array.from({ length: Math.abs(last - first) + 1 }, (_, index) => ({
    name: `${name}${first + index * step}`,
    isFirst: index === 0,
  }));
}

function memberEntity(
  draft: ModuleDraft,
  scope: Scope,
  table: Extract<DataTypeTable, { kind: 'enum' }>,
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

function counted(
  draft: ModuleDraft,
  scope: Scope,
  table: Extract<DataTypeTable, { kind: 'enum' }>,
  before: ParameterEntity | null,
): ConstantValue {
  const form = formOf(draft, scope, { ...table, members: [] });
  const last = before === null ? -1 : (integerOf(before.value()) ?? -1);
  const { width, signed } = form ?? { width: 32, signed: true };
  return { kind: 'bits', bits: toBits(integerValue(last + 1), width), signed };
}
