// What a name means where it stands: the scopes around it, innermost first, what packages lend each of them (IEEE 1800-2017
// 26.3), then what stands outside every unit of its file. Also what a dot or `::` behind a name leads into.

import type { Reading, Unit } from '../syntax/read';
import type { ModuleTable } from '../syntax/tables';
import { type Declaration, type KnownModule, type Scope, scopesOf } from './scopes';

export interface KnownUnits {
  /** Whatever is read as modules are: in source order. */
  readonly all: readonly KnownModule[];
  /** Of two units with one name the first, as elaboration takes it. */
  readonly byName: ReadonlyMap<string, KnownModule>;
  /** By index of the file: what stands outside every unit. */
  readonly outside: ReadonlyMap<number, readonly KnownModule[]>;
  readonly fileOf: (known: KnownModule) => number;
}

export function knowUnits({ units }: Reading): KnownUnits {
  const all = units.flatMap((unit, index) => {
    const table = tableOf(unit);
    return table === null ? [] : [{ index, table, scopes: scopesOf(table, unit.text) }];
  });
  const isLoose = ({ index }: KnownModule) => kindOfUnit(units[index]) === 'loose';
  const byName = new Map<string, KnownModule>();
  const outside = new Map<number, readonly KnownModule[]>();
  for (const known of all) {
    const { file } = units[known.index];
    const { name } = known.table.name;
    if (isLoose(known)) outside.set(file, [...(outside.get(file) ?? []), known]);
    else if (!byName.has(name)) byName.set(name, known);
  }
  return { all, byName, outside, fileOf: ({ index }) => units[index].file };
}

/** A primitive's module is made from its table: its places are no places of names. */
function tableOf({ table }: Unit): ModuleTable | null {
  if (table.kind === 'module') return table;
  return table.what === 'primitive' ? null : table.describes;
}

function kindOfUnit({ table }: Unit): string {
  return table.kind === 'module' ? 'module' : table.what;
}

/** A name, and what is declared by it: nothing for an implicit net or a mistake that reading complains of. */
export interface LookedUp {
  readonly meaning: string;
  readonly declarations: readonly Declaration[];
  readonly known: KnownModule;
  readonly scope: Scope;
}

/** A name that nothing declares belongs to the unit that it stands in. */
export function lookUp(units: KnownUnits, known: KnownModule, name: string, offset: number): LookedUp {
  const around = scopesAround(known, offset);
  for (const scope of [...around].reverse()) {
    const found = foundIn(units, known, scope, name);
    if (found !== null) return found;
  }
  for (const loose of units.outside.get(units.fileOf(known)) ?? []) {
    const found = foundIn(units, loose, loose.scopes.scope, name);
    if (found !== null) return found;
  }
  const { scope } = known.scopes;
  return { meaning: meaningIn(known, scope, name), declarations: [], known, scope };
}

/** Outermost first. */
export function scopesAround({ scopes }: KnownModule, offset: number): readonly Scope[] {
  const around: Scope[] = [];
  for (let scope: Scope | null = scopes.scope; scope !== null; scope = innerAt(scope, offset)) around.push(scope);
  return around;
}

function innerAt(scope: Scope, offset: number): Scope | null {
  return scope.inner.find(({ at }) => at.start <= offset && offset < at.end) ?? null;
}

/** Its own declaration, else one that is imported by name, else by all names. */
function foundIn(units: KnownUnits, known: KnownModule, scope: Scope, name: string): LookedUp | null {
  const own = declaredIn(known, scope, name);
  if (own !== null) return own;
  const named = scope.imports.filter((each) => each.name?.name === name);
  const all = scope.imports.filter((each) => each.name === null);
  for (const { from } of [...named, ...all]) {
    const pack = units.byName.get(from?.name ?? '');
    const found = pack === undefined ? null : declaredIn(pack, pack.scopes.scope, name);
    if (found !== null) return found;
  }
  return null;
}

function declaredIn(known: KnownModule, scope: Scope, name: string): LookedUp | null {
  const declarations = scope.declarations.get(name) ?? [];
  return declarations.length === 0 ? null : { meaning: meaningIn(known, scope, name), declarations, known, scope };
}

export function meaningIn({ index }: KnownModule, { at, depth }: Scope, name: string): string {
  return `${index} ${at.start} ${depth} ${name}`;
}

/** What the next member is looked up in: an instance, block or package, a variable, or nobody knows. */
export type Where =
  | { readonly kind: 'scope'; readonly known: KnownModule; readonly scope: Scope }
  | { readonly kind: 'value'; readonly meaning: string }
  | { readonly kind: 'unknown' };

export function intoUnit({ byName }: KnownUnits, name: string): Where {
  const known = byName.get(name);
  return known === undefined ? { kind: 'unknown' } : { kind: 'scope', known, scope: known.scopes.scope };
}

/** Null where the scope declares no such member. */
export function memberOf({ known, scope }: Where & { readonly kind: 'scope' }, name: string): LookedUp | null {
  return declaredIn(known, scope, name);
}

/** An instance leads into its module, a block or subroutine into itself, anything else to members of its own. */
export function leadsTo(units: KnownUnits, { declarations, known, meaning, scope }: LookedUp): Where {
  const [declaration] = declarations;
  if (declaration === undefined) return { kind: 'unknown' };
  if (declaration.kind === 'instance' || declaration.kind === 'interface-port')
    return intoUnit(units, declaration.detail);
  const inner = scope.inner.find(({ at }) => at.start === declaration.at.start);
  const opens = declaration.kind === 'block' || declaration.kind === 'subroutine';
  return opens && inner !== undefined ? { kind: 'scope', known, scope: inner } : { kind: 'value', meaning };
}
