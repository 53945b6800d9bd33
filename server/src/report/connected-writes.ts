// Which names of a module are driven by the outputs of the modules that it instantiates: connecting them writes them.
// Only of modules that are given; of an unknown module nobody can tell.

import type { Connection, ModuleTable } from '../syntax/tables';
import { type KnownModule, type ModuleScopes, type PortConnection, writtenNames } from './scopes';

/** Offsets of names. */
export function* connectedWrites(
  { connected }: ModuleScopes,
  modules: ReadonlyMap<string, KnownModule>,
): Generator<number> {
  for (const each of connected) {
    const module = modules.get(each.module);
    if (module !== undefined && drives(module, each)) yield* namesIn(each.connection);
  }
}

function namesIn({ implied, name, value }: Connection): Iterable<number> {
  if (implied === 'name' && name !== null) return [name.start];
  return value === null ? [] : writtenNames(value);
}

function drives({ scopes, table }: KnownModule, { connection, index }: PortConnection): boolean {
  const port = connection.name?.name ?? portAt(table, index);
  const declared = scopes.scope.declarations.get(port ?? '') ?? [];
  return declared.some(({ kind }) => kind === 'output' || kind === 'inout');
}

/** The name that the header gives its port at that place; null where the header does not say. */
function portAt({ ansi, ports, slots }: ModuleTable, index: number): string | null {
  if (ansi) return ports[index]?.declarator.name.name ?? null;
  const slot = slots[index];
  if (slot === undefined) return null;
  return slot.external?.name ?? (slot.expression?.kind === 'name' ? slot.expression.name : null);
}
