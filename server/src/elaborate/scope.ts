// What names mean: module, generate blocks and procedural blocks, one scope each (IEEE 1364-2005 12.7). Looking a name
// up goes outward to the module and not beyond it.

import type { At, Statement } from '../syntax/tables';
import type { ConstantValue } from './constant-value';
import type { LocalSignal } from './local-signal';

export type Entity =
  | LocalSignal
  | ParameterEntity
  | { readonly kind: 'genvar'; readonly at: At }
  /** A generate or procedural block. */
  | { readonly kind: 'block'; readonly at: At; readonly scope: Scope }
  /** The blocks of a loop generate construct by the value of its variable. */
  | { readonly kind: 'blocks'; readonly at: At; readonly scopes: ReadonlyMap<number, Scope> }
  | InstanceEntity
  | { readonly kind: 'instances'; readonly at: At; readonly members: ReadonlyMap<number, InstanceEntity> }
  /** Declared, but not read: uses are unknown and not complained about again. */
  | { readonly kind: 'hole'; readonly at: At; readonly complaint: number };

export interface ParameterEntity {
  readonly kind: 'parameter';
  readonly name: string;
  readonly at: At;
  readonly local: boolean;
  /** Declared indices, for selects of the parameter. */
  readonly range: () => { readonly msb: number; readonly lsb: number };
  /** Worked out when first asked for; x where it is not constant. */
  readonly value: () => ConstantValue;
}

export interface InstanceEntity {
  readonly kind: 'instance';
  readonly at: At;
  /** Number of the child in its module. */
  readonly child: number;
}

export interface Scope {
  readonly parent: Scope | null;
  /** What stands before the names of this scope, with its dot: `g[2].`; empty for a module. */
  readonly prefix: string;
  readonly names: Map<string, Entity>;
  /** Procedural blocks directly inside that are scopes of their own. */
  readonly blocks: Map<Statement, Scope>;
}

export function createScope(parent: Scope | null, name: string | null): Scope {
  const prefix = parent === null || name === null ? (parent?.prefix ?? '') : `${parent.prefix}${name}.`;
  return { parent, prefix, names: new Map(), blocks: new Map() };
}

export function lookUp(scope: Scope, name: string): Entity | null {
  for (let at: Scope | null = scope; at !== null; at = at.parent) {
    const found = at.names.get(name);
    if (found !== undefined) return found;
  }
  return null;
}
