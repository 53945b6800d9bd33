// What names mean: module, generate blocks and procedural blocks, one scope each (IEEE 1364-2005 12.7). Looking a name
// up goes outward to the module, and then to what stands outside every unit of its file (IEEE 1800-2017 3.12.1, 26.3).

import type { PackedForm, RecordForm } from '../netlist/packed-form';
import type { At, Direction, ImportItem, ModportItem, Statement, SubroutineItem } from '../syntax/tables';
import type { ConstantValue } from './constant-value';
import type { InterfaceForm } from './library';
import type { MemoryContents } from '../netlist/memory-contents';
import type { LocalSignal, SignalShape } from './local-signal';
import type { Override, TypeForm } from './type-form';

export type Entity =
  | LocalSignal
  | ParameterEntity
  | { readonly kind: 'genvar'; readonly at: At }
  /** A generate or procedural block. */
  | { readonly kind: 'block'; readonly at: At; readonly scope: Scope }
  /** The blocks of a loop generate construct by the value of its variable. */
  | { readonly kind: 'blocks'; readonly at: At; readonly scopes: ReadonlyMap<number, Scope> }
  | ArrayEntity
  | RecordEntity
  | SubroutineEntity
  /** What a function of an instance below means by a name of that instance. */
  | {
      readonly kind: 'below';
      readonly at: At;
      readonly entity: LocalSignal | ArrayEntity | RecordEntity;
      readonly path: readonly number[];
    }
  | InstanceEntity
  | { readonly kind: 'instances'; readonly at: At; readonly members: ReadonlyMap<number, InstanceEntity> }
  | InterfaceEntity
  | InterfaceArray
  /** A type by its name; `form` null where it cannot be told, which has been said. */
  | { readonly kind: 'type'; readonly at: At; readonly form: () => TypeForm | null }
  /** Imported by `*` from packages that mean different things by it (IEEE 1800-2017 26.3). */
  | { readonly kind: 'ambiguous'; readonly at: At; readonly packages: readonly string[] }
  /** Declared, but not read: uses are unknown and not complained about again. */
  | { readonly kind: 'hole'; readonly at: At; readonly complaint: number };

export interface ParameterEntity {
  readonly kind: 'parameter';
  readonly name: string;
  readonly at: At;
  readonly local: boolean;
  /** Declared indices, for selects of the parameter. */
  readonly range: () => { readonly msb: number; readonly lsb: number };
  /** Where its bits are no plain vector, or have names. */
  readonly form?: () => PackedForm | null;
  /** Worked out when first asked for; x where it is not constant. */
  readonly value: () => ConstantValue;
  /** Why its value is not known: the complaint that says so. Null where it is known. */
  readonly lost: () => number | null;
}

/** An interface as the module sees it that instantiates it or has it as a port. */
export interface InterfaceEntity {
  readonly kind: 'interface';
  readonly at: At;
  readonly name: string;
  readonly form: InterfaceForm;
  /** All of its names. */
  readonly scope: Scope;
  /** Which of them may be used; null: all. */
  readonly modport: ModportItem | null;
}

export interface InterfaceArray {
  readonly kind: 'interfaces';
  readonly at: At;
  /** By index, the leftmost first. */
  readonly members: ReadonlyMap<number, InterfaceEntity>;
}

export interface InstanceEntity {
  readonly kind: 'instance';
  readonly at: At;
  /** Number of the child in its module. */
  readonly child: number;
}

/** An array of nets or variables (IEEE 1364-2005 4.9): every word is a signal of its own, or all are one content. */
export interface ArrayEntity {
  readonly kind: 'array';
  readonly at: At;
  readonly name: string;
  /** Outermost first; `size` words or rows from index `first` on. */
  readonly dimensions: readonly ArrayDimension[];
  /** Of one word. */
  readonly shape: SignalShape;
  /** The last index runs fastest; null where they are one content, or too many to be followed, by `complaint`. */
  readonly words: readonly LocalSignal[] | null;
  readonly memory: ArrayMemory | null;
  readonly complaint: number;
}

/** An array kept as one content (`netlist/memory-contents.ts`). */
export interface ArrayMemory {
  /** Holds the content. */
  readonly signal: LocalSignal;
  readonly contents: MemoryContents;
  /** Its place in the draft's list of arrays: what memory operators of the draft carry. */
  readonly number: number;
}

export interface ArrayDimension {
  readonly first: number;
  readonly size: number;
  /** The left bound is the greater one: as a whole the array begins with its last word. */
  readonly descends: boolean;
}

/** A variable or net of a structure's type: every member is a signal, or a structure, of its own. */
export interface RecordEntity {
  readonly kind: 'record';
  readonly at: At;
  readonly name: string;
  /** From the module down. */
  readonly path: string;
  readonly shape: SignalShape;
  readonly form: RecordForm;
  readonly members: ReadonlyMap<string, LocalSignal | RecordEntity>;
  /** All signals in it, the most significant first; `low`: where each stands in the whole. */
  readonly parts: readonly RecordPart[];
}

export interface RecordPart {
  readonly signal: LocalSignal;
  readonly low: number;
}

/** A function or a task. */
export interface SubroutineEntity {
  readonly kind: 'subroutine';
  readonly at: At;
  readonly item: SubroutineItem;
  /** Where it is declared. */
  readonly outer: Scope;
  /** Calls being run on real constants. */
  readonly running: { count: number };
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
  /** What is imported here, once something is. */
  imports: Imports | null;
  /** Of a module or an interface: values for its parameters. */
  readonly overrides: ReadonlyMap<string, Override> | null;
  /** Of a module, an interface or a package: what stands outside every unit of its file. */
  readonly outside: () => Scope | null;
  /** Inside a function or task: what it declares is private. */
  readonly isPrivate: boolean;
  /** Procedural blocks directly inside that are scopes of their own. */
  readonly blocks: Map<Statement, Scope>;
}

/** A package that a module has asked for: `open` while its own imports are being followed. */
export type PackageState =
  | { readonly kind: 'open' | 'declared'; readonly scope: Scope }
  | { readonly kind: 'lost'; readonly complaint: number };

export interface Imports {
  readonly named: Map<string, { readonly from: string; readonly entity: Entity }>;
  readonly wildcards: { readonly from: string; readonly scope: Scope }[];
  /** In a package: what of that it hands on. */
  readonly exports: ImportItem[];
  /** Which imports have been followed. */
  readonly places: Set<At>;
  /** The complaint about an import of everything that led nowhere: any name may have come from there. */
  lost: number | null;
}

export function createScope(parent: Scope | null, name: string | null): Scope {
  const prefix = parent === null || name === null ? (parent?.prefix ?? '') : `${parent.prefix}${name}.`;
  return {
    parent,
    prefix,
    names: new Map(),
    imports: null,
    overrides: null,
    outside: () => null,
    isPrivate: parent?.isPrivate ?? false,
    blocks: new Map(),
  };
}

export function importsOf(scope: Scope): Imports {
  scope.imports ??= { named: new Map(), wildcards: [], exports: [], places: new Set(), lost: null };
  return scope.imports;
}

/** The scope of a function or task. */
export function createPrivateScope(parent: Scope, name: string): Scope {
  return { ...createScope(parent, name), isPrivate: true };
}

export function lookUp(scope: Scope, name: string): Entity | null {
  let lost: number | null = null;
  for (let at: Scope | null = scope; at !== null; at = at.parent ?? at.outside()) {
    const found = at.names.get(name) ?? importedName(at.imports, name);
    if (found !== null) return found;
    lost ??= at.imports?.lost ?? null;
  }
  return lost === null ? null : { kind: 'hole', at: nowhere, complaint: lost };
}

const nowhere = { start: 0, end: 0 } as At;

/** A name imported by itself hides those imported by `*`. */
function importedName(imports: Imports | null, name: string): Entity | null {
  if (imports === null) return null;
  const named = imports.named.get(name);
  if (named !== undefined) return named.entity;
  const found = imports.wildcards.flatMap(({ from, scope }) => {
    const entity = packageMember(scope, name);
    return entity === null ? [] : [{ from, entity }];
  });
  if (found.length === 0) return null;
  const [{ entity }] = found;
  if (found.every((other) => other.entity === entity)) return entity;
  return { kind: 'ambiguous', at: entity.at, packages: found.map(({ from }) => from) };
}

/** What a package means by a name from outside: its own, and what it exports (26.6). */
export function packageMember({ names, imports }: Scope, name: string): Entity | null {
  const own = names.get(name);
  if (own !== undefined || imports === null) return own ?? null;
  for (const { from, name: exported } of imports.exports) {
    if (exported !== null && exported.name !== name) continue;
    const found = importedName(from === null ? imports : importsFrom(imports, from.name), name);
    if (found !== null) return found;
  }
  return null;
}

function importsFrom(imports: Imports, package_: string): Imports {
  const named = [...imports.named].filter(([, { from }]) => from === package_);
  return { ...imports, named: new Map(named), wildcards: imports.wildcards.filter(({ from }) => from === package_) };
}
