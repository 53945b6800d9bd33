// What names mean: module, generate blocks and procedural blocks, one scope each (IEEE 1364-2005 12.7). Looking a name
// up goes outward to the module and not beyond it.

import type { At, Direction, Statement, SubroutineItem } from '../syntax/tables';
import type { ConstantValue } from './constant-value';
import type { LocalSignal, SignalShape } from './local-signal';

export type Entity =
  | LocalSignal
  | ParameterEntity
  | { readonly kind: 'genvar'; readonly at: At }
  /** A generate or procedural block. */
  | { readonly kind: 'block'; readonly at: At; readonly scope: Scope }
  /** The blocks of a loop generate construct by the value of its variable. */
  | { readonly kind: 'blocks'; readonly at: At; readonly scopes: ReadonlyMap<number, Scope> }
  | ArrayEntity
  | SubroutineEntity
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

/** An array of nets or variables (IEEE 1364-2005 4.9): every word is a signal of its own. */
export interface ArrayEntity {
  readonly kind: 'array';
  readonly at: At;
  readonly name: string;
  /** Outermost first; `size` words or rows from index `first` on. */
  readonly dimensions: readonly ArrayDimension[];
  /** Of one word. */
  readonly shape: SignalShape;
  /** The last index runs fastest; null where they are too many to be followed, by `complaint`. */
  readonly words: readonly LocalSignal[] | null;
  readonly complaint: number;
}

export interface ArrayDimension {
  readonly first: number;
  readonly size: number;
}

/** A function or a task. */
export interface SubroutineEntity {
  readonly kind: 'subroutine';
  readonly at: At;
  readonly item: SubroutineItem;
  /** Its variables, worked out when first asked for; null where they cannot be told. */
  readonly frame: () => Frame | null;
}

/** The variables of a function or task. Every call has values of its own for them. */
export interface Frame {
  readonly scope: Scope;
  readonly ports: readonly { readonly signal: LocalSignal; readonly direction: Direction }[];
  /** Null for a task. */
  readonly result: LocalSignal | null;
  /** All of them: ports, result, locals, those of blocks inside. */
  readonly variables: readonly LocalSignal[];
  /** How deep its statements and their expressions nest. */
  readonly height: number;
  /** Calls being followed, one inside the other. */
  readonly running: { count: number };
}

export interface Scope {
  readonly parent: Scope | null;
  /** What stands before the names of this scope, with its dot: `g[2].`; empty for a module. */
  readonly prefix: string;
  readonly names: Map<string, Entity>;
  /** Inside a function or task: what it declares is private. */
  readonly isPrivate: boolean;
  /** Procedural blocks directly inside that are scopes of their own. */
  readonly blocks: Map<Statement, Scope>;
}

export function createScope(parent: Scope | null, name: string | null): Scope {
  const prefix = parent === null || name === null ? (parent?.prefix ?? '') : `${parent.prefix}${name}.`;
  return { parent, prefix, names: new Map(), isPrivate: parent?.isPrivate ?? false, blocks: new Map() };
}

/** The scope of a function or task. */
export function createPrivateScope(parent: Scope, name: string): Scope {
  return { ...createScope(parent, name), isPrivate: true };
}

export function lookUp(scope: Scope, name: string): Entity | null {
  for (let at: Scope | null = scope; at !== null; at = at.parent) {
    const found = at.names.get(name);
    if (found !== undefined) return found;
  }
  return null;
}
