// Packages as a module sees them (IEEE 1800-2017 26.2 to 26.6): their names by `pack::name`, imported one by one or all at
// once, and handed on by export. A package is declared once in each module that names it; units may stand in any order.

import type { ImportItem, Item, Named } from '../syntax/tables';
import { declareItems } from './declarations';
import type { ModuleDraft } from './module-draft';
import { createScope, type Entity, importsOf, packageMember, type PackageState, type Scope } from './scope';
import { declareSubroutines } from './subroutines';

/** The names of a package; where it is not given, or imports itself, that has been said. */
export function packageScope(draft: ModuleDraft, from: Named): PackageState {
  const known = draft.packages.get(from.name);
  if (known?.kind === 'open') {
    const args = { package: from.name };
    return { kind: 'lost', complaint: draft.log.add('import-cycle', args, draft.source.place(from)) };
  }
  return known ?? declarePackage(draft, from);
}

function declarePackage(draft: ModuleDraft, from: Named): PackageState {
  const { name } = from;
  const given = draft.library.package(name);
  if (given === null) {
    const isSaid = draft.library.isUnread(name);
    const complaint = isSaid ? -1 : draft.log.add('unknown-package', { package: name }, draft.source.place(from));
    draft.packages.set(name, { kind: 'lost', complaint });
    return { kind: 'lost', complaint };
  }
  const scope = {
    ...createScope(null, null),
    prefix: `${name}::`,
    // Asked for when a name is looked up: what stands there may import this very package.
    outside: () => scopeOutside(draft, given.unit),
  };
  draft.packages.set(name, { kind: 'open', scope });
  declareImports(draft, scope, given.table.items);
  draft.packages.set(name, { kind: 'declared', scope });
  declareForeign(draft, scope, given.table.items);
  return { kind: 'declared', scope };
}

/** What stands outside every unit in the file of a unit: the scope around its module (3.12.1). Null where nothing does. */
export function scopeOutside(draft: ModuleDraft, unit: number): Scope | null {
  const { file, items } = draft.library.outside(unit);
  const known = draft.outsides.get(file);
  if (known !== undefined) return known;
  const scope = items.length === 0 ? null : { ...createScope(null, null), prefix: '$unit::' };
  draft.outsides.set(file, scope);
  if (scope === null) return null;
  declareImports(draft, scope, items);
  declareForeign(draft, scope, items);
  return scope;
}

/** Of parameters, types and subroutines every module has its own; a variable would be one for all of them. */
function declareForeign(draft: ModuleDraft, scope: Scope, items: readonly Item[]): void {
  declareSubroutines(draft, scope, items);
  const steps = declareItems(
    draft,
    scope,
    items.filter((item) => item.kind !== 'net' && item.kind !== 'variable'),
  );
  // Nothing is unfolded: there is nothing to interrupt.
  for (let step = steps.next(); step.done !== true; step = steps.next());
  for (const item of items) {
    if (item.kind !== 'net' && item.kind !== 'variable') continue;
    for (const { name } of item.declarators) scope.names.set(name.name, sharedVariable(draft, name));
  }
}

/** Said only where it is used. */
function sharedVariable(draft: ModuleDraft, at: Named): Entity {
  return {
    kind: 'hole',
    at,
    get complaint() {
      return draft.log.add('construct', { what: `variable ${at.name} of a package` }, draft.source.place(at));
    },
  };
}

/** Before anything else of a scope: the types of its ports and parameters may be imported. */
export function declareImports(draft: ModuleDraft, scope: Scope, items: readonly Item[]): void {
  for (const item of items) {
    if (item.kind === 'import') declareImport(draft, scope, item);
    if (item.kind === 'export') importsOf(scope).exports.push(item);
  }
}

function declareImport(draft: ModuleDraft, scope: Scope, { at, from, name }: ImportItem): void {
  const imports = importsOf(scope);
  if (from === null || imports.places.has(at)) return;
  imports.places.add(at);
  const found = packageScope(draft, from);
  if (found.kind === 'lost') {
    if (name === null) imports.lost ??= found.complaint;
    else imports.named.set(name.name, { from: from.name, entity: { kind: 'hole', at, complaint: found.complaint } });
    return;
  }
  if (name === null) imports.wildcards.push({ from: from.name, scope: found.scope });
  else importOne(draft, scope, from, name, found.scope);
}

function importOne(draft: ModuleDraft, scope: Scope, from: Named, name: Named, package_: Scope): void {
  const { log, source } = draft;
  const entity = packageMember(package_, name.name) ?? {
    kind: 'hole',
    at: name,
    complaint: log.add('not-in-package', { package: from.name, name: name.name }, source.place(name)),
  };
  const known = importsOf(scope).named.get(name.name);
  if (known !== undefined && known.entity !== entity)
    log.add('declared-twice', { name: name.name }, source.place(name));
  else importsOf(scope).named.set(name.name, { from: from.name, entity });
}

/** What pack::name means. */
export function findScoped(draft: ModuleDraft, scope: Scope, from: Named, name: Named): Entity {
  const { log, source } = draft;
  const found = from.name === '$unit' ? ownOutside(scope) : packageScope(draft, from);
  if (found.kind === 'lost') return { kind: 'hole', at: name, complaint: found.complaint };
  const entity = packageMember(found.scope, name.name);
  if (entity !== null) return entity;
  const args = { package: from.name, name: name.name };
  return { kind: 'hole', at: name, complaint: log.add('not-in-package', args, source.place(name)) };
}

function ownOutside(scope: Scope): PackageState {
  let outermost = scope;
  while (outermost.parent !== null) outermost = outermost.parent;
  return { kind: 'declared', scope: outermost.outside() ?? createScope(null, null) };
}
