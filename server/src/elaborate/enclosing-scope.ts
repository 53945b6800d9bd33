// Which block or task around a statement a `disable` leaves (IEEE 1364-2005 10.3).

import { lookUp, type Scope } from './scope';

/** Null where the name means no block or task around the statement: one of another process, or none at all. */
export function enclosingScope(scope: Scope, name: string): Scope | null {
  const target = scopeNamed(scope, name);
  for (let at: Scope | null = scope; at !== null; at = at.parent) if (at === target) return at;
  return null;
}

/** Inside a function its name is also its result. */
function scopeNamed(scope: Scope, name: string): Scope | null {
  const entity = lookUp(scope, name);
  if (entity?.kind === 'block') return entity.scope;
  if (entity?.kind === 'subroutine') return entity.frame()?.scope ?? null;
  if (entity?.kind !== 'signal' || !entity.isPrivate) return null;
  let inner = scope;
  while (inner.parent !== null && inner.names.get(name) !== entity) inner = inner.parent;
  return inner.isPrivate && inner.parent?.isPrivate === false ? inner : null;
}
