// typedef, enumerations and type parameters (IEEE 1800-2017 6.18, 6.19, 6.20.3). What the tables cannot hold of a type
// leaves its name known and the type unread.

import { declaredNames, readDeclarators, readParameter, readVariable, unreadType } from './declarations';
import { atOf, childAmong, childOf, childrenOf, childrenOfKind, kindOf, none } from './flat-tree';
import { isEnum } from './inline-types';
import { isName, nameOf } from './names';
import { type Reader, unsupported } from './reader';
import type { DataTypeTable, Item, Range } from './tables';
import { plainType, readDimensions, readType } from './types';

/** A typedef; nothing for one that only announces a name. */
export function readTypedef(reader: Reader, node: number): readonly Item[] {
  const parts = childrenOf(reader.tree, node);
  const names = parts.filter((part) => isName(kindOf(reader.tree, part)));
  const name = names[names.length - 1];
  const type = parts.find((part) => part !== name && typeKinds.has(kindOf(reader.tree, part)));
  if (name === undefined || type === undefined) return [];
  const dimensions = readDimensions(reader, parts);
  const plain = readDataType(reader, type);
  const read = typeof plain === 'string' || dimensions.length === 0 ? plain : withDimensions(plain, dimensions);
  const typedef = { kind: 'typedef', at: atOf(reader.tree, node), name: nameOf(reader, name) } as const;
  if (typeof read !== 'string') return [{ ...typedef, type: read }];
  unsupported(reader, node, `typedef of ${read}`);
  const others = declaredNames(reader, node).filter(({ start }) => start !== typedef.name.start);
  const lost: Item = { kind: 'hole', at: typedef.at, names: others };
  return [{ ...typedef, type: null }, ...(others.length === 0 ? [] : [lost])];
}

function withDimensions(type: DataTypeTable, dimensions: readonly Range[]): DataTypeTable {
  if (type.kind === 'plain') return { ...type, dimensions };
  return { kind: 'plain', at: type.at, variable: null, type: { ...plainType, inline: type }, dimensions };
}

/** What it is, in the source's words, where the tables cannot hold it. */
export function readDataType(reader: Reader, node: number): DataTypeTable | string {
  const at = atOf(reader.tree, node);
  const written = readType(reader, [node]);
  const { inline, ranges } = written.type;
  if (inline?.kind === 'enum' && ranges.length === 0) return inline;
  const unread = unreadType(written);
  return unread ?? { kind: 'plain', at, variable: written.variable, type: written.type };
}

/** A declaration of variables; the type of an enumeration that has no name gets one that no text could use. */
export function readVariables(reader: Reader, node: number): readonly Item[] {
  const written = childOf(reader.tree, node, 'data_type_or_implicit');
  const type = written === none ? none : childOf(reader.tree, written, 'data_type');
  const list = childOf(reader.tree, node, 'list_of_variable_decl_assignments');
  const read = type === none || list === none || !isEnum(reader, type) ? '' : readDataType(reader, type);
  if (typeof read === 'string' || read.kind !== 'enum') return [readVariable(reader, node)];
  const name = { ...read.at, name: `enum ${read.at.start}` };
  const named = { ...read.at, scope: null, name };
  const declarators = readDeclarators(reader, list, 'variable_decl_assignment');
  const at = atOf(reader.tree, node);
  return [
    { kind: 'typedef', at: read.at, name, type: read },
    { kind: 'variable', at, variable: 'logic', type: { signed: false, ranges: [], named }, declarators },
  ];
}

/** Parameters of values or of types. */
export function readParameters(reader: Reader, node: number, { local }: { readonly local: boolean }): readonly Item[] {
  const types = childOf(reader.tree, node, 'type_parameter_declaration');
  return types === none ? [readParameter(reader, node, { local })] : readTypeParameters(reader, types, { local });
}

/** parameter type T = …, U = …: one item a name. */
function readTypeParameters(reader: Reader, node: number, { local }: { readonly local: boolean }): readonly Item[] {
  const list = childOf(reader.tree, node, 'list_of_type_assignments');
  return childrenOfKind(reader.tree, list, 'type_assignment').map((assignment): Item => {
    const parts = childrenOf(reader.tree, assignment);
    const name = nameOf(reader, parts[0]);
    const given = childAmong(reader.tree, assignment, typeKinds);
    const type = parts.length < 3 ? null : readDataType(reader, parts[2]);
    if (typeof type !== 'string')
      return { kind: 'type-parameter', at: atOf(reader.tree, assignment), local, name, type };
    unsupported(reader, given, `type parameter of ${type}`);
    return { kind: 'hole', at: atOf(reader.tree, assignment), names: [name] };
  });
}

const typeKinds: ReadonlySet<string> = new Set(['data_type', 'class_type', 'simple_identifier', 'escaped_identifier']);
