// Functions and tasks of an instance below, called by their hierarchical names (IEEE 1364-2005 12.5): declared once more in
// the module that calls, over the names around them as that module sees those. What they read of the instance is read
// below; what they would assign there is not followed.

import { withUnit } from './foreign-tables';
import type { ModuleDraft } from './module-draft';
import { createScope, type Entity, type Imports, type Scope, type SubroutineEntity } from './scope';
import { rememberedFrame } from './subroutines';

export interface Below {
  /** Instances from this module down. */
  readonly path: readonly number[];
  /** Of the last one's module. */
  readonly unit: number;
}

export function subroutineBelow(draft: ModuleDraft, entity: SubroutineEntity, below: Below): SubroutineEntity {
  const seen = seenEntity(draft, entity, below);
  return seen.kind === 'subroutine' ? seen : entity;
}

/** The scope with everything in it as it is seen from above. */
function seenScope(draft: ModuleDraft, scope: Scope, below: Below): Scope {
  const key = below.path.join(' ');
  const known = draft.seenBelow.get(scope)?.get(key);
  if (known !== undefined) return known;
  const seen: Scope = {
    ...createScope(scope.parent === null ? null : seenScope(draft, scope.parent, below), null),
    prefix: scope.prefix,
    outside: () => {
      const outside = scope.outside();
      return outside === null ? null : seenScope(draft, outside, below);
    },
  };
  const byPath = draft.seenBelow.get(scope) ?? new Map<string, Scope>();
  draft.seenBelow.set(scope, byPath.set(key, seen));
  for (const [name, entity] of scope.names) seen.names.set(name, seenEntity(draft, entity, below));
  seen.imports = scope.imports === null ? null : seenImports(draft, scope.imports, below);
  return seen;
}

function seenImports(draft: ModuleDraft, imports: Imports, below: Below): Imports {
  const named = [...imports.named].map(
    ([name, { from, entity }]) => [name, { from, entity: seenEntity(draft, entity, below) }] as const,
  );
  const wildcards = imports.wildcards.map(({ from, scope }) => ({ from, scope: seenScope(draft, scope, below) }));
  return { ...imports, named: new Map(named), wildcards };
}

function seenEntity(draft: ModuleDraft, entity: Entity, below: Below): Entity {
  switch (entity.kind) {
    case 'signal':
    case 'array':
      return { kind: 'below', at: entity.at, entity, path: below.path };
    case 'subroutine': {
      const { item: own, outer } = entity;
      const item = own.at.unit === undefined ? withUnit(own, below.unit) : own;
      const frame = () => rememberedFrame(draft, seenScope(draft, outer, below), item);
      return { ...entity, item, running: { count: 0 }, frame: onceOpened(frame) };
    }
    case 'block':
      return { ...entity, scope: seenScope(draft, entity.scope, below) };
    case 'parameter':
    case 'type':
    case 'genvar':
    case 'ambiguous':
      return entity;
    default:
      return { kind: 'hole', at: entity.at, complaint: -1 };
  }
}

/** The scope around is looked at when the first call asks: it may hold the function itself. */
function onceOpened(open: () => SubroutineEntity['frame']): SubroutineEntity['frame'] {
  let frame: SubroutineEntity['frame'] | null = null;
  return () => {
    frame ??= open();
    return frame();
  };
}
