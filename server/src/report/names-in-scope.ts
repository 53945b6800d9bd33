// Which names are seen from a place in a file: those of the scopes around it, what packages lend them, what stands outside
// every unit. An inner name hides an outer one.

import type { Reading } from '../syntax/read';
import type { FileOffset } from '../text/place';
import { unitOffsetOf } from '../text/origin';
import {
  intoUnit,
  type KnownUnits,
  knowUnits,
  leadsTo,
  lookUp,
  memberOf,
  scopesAround,
  type Where,
} from './name-lookup';
import type { Declaration, KnownModule, Scope } from './scopes';

export interface NamesThere {
  readonly units: KnownUnits;
  /** The unit that the place stands in; null between units. */
  readonly known: KnownModule | null;
  /** Offset in that unit's text. */
  readonly offset: number;
}

/** `offset`: in the file as typed. */
export function namesThere(reading: Reading, path: string, offset: number): NamesThere {
  const units = knowUnits(reading);
  const file = reading.files.findIndex((each) => each.path === path);
  for (const known of units.all) {
    const { origin, text } = reading.units[known.index];
    const there = unitOffsetOf(origin, text.length, file, offset as FileOffset);
    if (there !== null && there > known.table.at.start) return { units, known, offset: there };
  }
  return { units, known: null, offset: 0 };
}

/** Each name once, innermost first. */
export function seenFrom({ known, offset, units }: NamesThere): readonly Declaration[] {
  if (known === null) return [];
  const outside = units.outside.get(units.fileOf(known)) ?? [];
  const scopes = [...[...scopesAround(known, offset)].reverse(), ...outside.map(({ scopes }) => scopes.scope)];
  const seen = new Map<string, Declaration>();
  for (const scope of scopes)
    for (const [name, declarations] of [...scope.declarations, ...lent(units, scope)])
      if (!seen.has(name)) seen.set(name, declarations[0]);
  return [...seen.values()];
}

function lent({ byName }: KnownUnits, { imports }: Scope): readonly [string, Declaration[]][] {
  return imports.flatMap(({ from, name }) => {
    const declarations = [...(byName.get(from?.name ?? '')?.scopes.scope.declarations ?? [])];
    return name === null ? declarations : declarations.filter(([each]) => each === name.name);
  });
}

/** What `a.b.` leads into; empty where nobody knows. */
export function membersOf(there: NamesThere, path: readonly string[]): readonly Declaration[] {
  const where = pathLeads(there, path);
  return where.kind === 'scope' ? [...where.scope.declarations.values()].map(([first]) => first) : [];
}

function pathLeads({ known, offset, units }: NamesThere, [first, ...rest]: readonly string[]): Where {
  if (known === null || first === undefined) return { kind: 'unknown' };
  const found = lookUp(units, known, first, offset);
  let where = found.declarations.length === 0 ? intoUnit(units, first) : leadsTo(units, found);
  for (const name of rest) {
    const member = where.kind === 'scope' ? memberOf(where, name) : null;
    where = member === null ? { kind: 'unknown' } : leadsTo(units, member);
  }
  return where;
}

/** What a name means there; null where nothing declares it. */
export function declarationThere(
  { known, offset, units }: NamesThere,
  name: string,
): { readonly declaration: Declaration; readonly known: KnownModule } | null {
  if (known === null) return null;
  const found = lookUp(units, known, name, offset);
  const [declaration] = found.declarations;
  return declaration === undefined ? null : { declaration, known: found.known };
}
