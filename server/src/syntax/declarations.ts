// Nets, variables, parameters and genvars, in modules and in blocks. A declaration whose type the tables
// cannot hold becomes a hole that still names what it declares.

import { atOf, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none, unwrap, unwrapTo } from './flat-tree';
import { readExpression } from './expressions';
import { isName, nameOf } from './names';
import { type Reader, textOf, unsupported } from './reader';
import type { Declarator, Item, Named } from './tables';
import { plainType, readDelayOf, readDimensions, readType, remarkOnStrength } from './types';
import type { WrittenType } from './written-type';

export function readNet(reader: Reader, node: number): Item {
  const list = childOf(reader.tree, node, 'list_of_net_decl_assignments');
  const written = readType(reader, partsBefore(reader, node, list));
  if (list !== none && written.net === null && written.type.named !== undefined)
    return readNamed(reader, node, list, written);
  if (list === none || written.net === null || written.unread !== null)
    return unreadDeclaration(reader, node, unreadType(written));
  remarkOnStrength(reader, node);
  const delay = readDelayOf(reader, node);
  const declarators = readDeclarators(reader, list, 'net_decl_assignment');
  return { kind: 'net', at: atOf(reader.tree, node), net: written.net, type: written.type, delay, declarators };
}

/** `state_t s;`: to the grammar a net, of a type of the user's own; a variable (IEEE 1800-2017 6.8). */
function readNamed(reader: Reader, node: number, list: number, { type }: WrittenType): Item {
  const declarators = readDeclarators(reader, list, 'net_decl_assignment');
  return { kind: 'variable', at: atOf(reader.tree, node), variable: 'logic', type, declarators };
}

export function readVariable(reader: Reader, node: number): Item {
  const list = childOf(reader.tree, node, 'list_of_variable_decl_assignments');
  const written = readType(reader, partsBefore(reader, node, list));
  if (list === none || written.unread !== null) return unreadDeclaration(reader, node, unreadType(written));
  const declarators = readDeclarators(reader, list, 'variable_decl_assignment');
  // IEEE 1800-2017 6.8: `var` and a bare range declare a logic.
  return {
    kind: 'variable',
    at: atOf(reader.tree, node),
    variable: written.variable ?? 'logic',
    type: written.type,
    declarators,
  };
}

/** parameter or localparam, in a header or in a body; `list` holds the names where the grammar gives no node around them. */
export function readParameter(reader: Reader, node: number, { local }: { readonly local: boolean }): Item {
  const list = unwrapTo(reader.tree, node, 'list_of_param_assignments');
  const names = list === none ? childOf(reader.tree, node, 'list_of_param_assignments') : list;
  const written = readType(
    reader,
    partsBefore(reader, node, names).filter((part) => !isKeywordOf(reader, part)),
  );
  if (names === none) return unreadDeclaration(reader, node, 'type parameter');
  if (written.unread !== null) return unreadDeclaration(reader, node, unreadType(written));
  const declarators = readDeclarators(reader, names, 'param_assignment');
  return {
    kind: 'parameter',
    at: atOf(reader.tree, node),
    local,
    variable: written.variable,
    type: written.type,
    declarators,
  };
}

export function readGenvar(reader: Reader, node: number): Item {
  const names = namesIn(reader, childOf(reader.tree, node, 'list_of_genvar_identifiers'));
  const declarators = names.map((name) => ({ at: name, name, dimensions: [], value: null }));
  return { kind: 'variable', at: atOf(reader.tree, node), variable: 'genvar', type: plainType, declarators };
}

export function readDeclarators(reader: Reader, list: number, kind: string): readonly Declarator[] {
  return childrenOfKind(reader.tree, list, kind).map((node) => readDeclarator(reader, node));
}

/** name dimensions = value */
function readDeclarator(reader: Reader, node: number): Declarator {
  const parts = childrenOf(reader.tree, node);
  const value = kindOf(reader.tree, parts[parts.length - 2] ?? node) === '=' ? parts[parts.length - 1] : none;
  return {
    at: atOf(reader.tree, node),
    name: nameOf(reader, parts[0]),
    dimensions: readDimensions(reader, parts),
    value: value === none ? null : readExpression(reader, value),
  };
}

export function unreadType({ unread }: WrittenType): string | null {
  return unread === null ? null : `type ${unread}`;
}

/** A declaration we recognize and cannot hold: its names stay known. */
export function unreadDeclaration(reader: Reader, node: number, what: string | null): Item {
  unsupported(reader, node, what ?? 'declaration');
  return { kind: 'hole', at: atOf(reader.tree, node), names: declaredNames(reader, node) };
}

/** Names that declarators below `node` declare, enumeration names and a typedef's own name included. */
export function declaredNames(reader: Reader, node: number): readonly Named[] {
  const names: Named[] = [];
  for (let part = node; part < reader.tree.after[node]; part += 1) {
    const kind = kindOf(reader.tree, part);
    if (kind === 'struct_union_member') part = reader.tree.after[part] - 1;
    else if (kind === 'type_declaration') names.push(...namesIn(reader, part));
    else if (declaratorKinds.has(kind)) names.push(nameOf(reader, unwrapFirst(reader, part)));
  }
  return names.sort((left, right) => left.start - right.start);
}

function unwrapFirst(reader: Reader, node: number): number {
  return isLeaf(reader.tree, node) ? node : unwrap(reader.tree, node + 1);
}

function namesIn(reader: Reader, list: number): readonly Named[] {
  if (list === none) return [];
  return childrenOf(reader.tree, list)
    .filter((child) => isName(kindOf(reader.tree, child)))
    .map((child) => nameOf(reader, child));
}

function partsBefore(reader: Reader, node: number, list: number): readonly number[] {
  return childrenOf(reader.tree, node).filter(
    (part) => (list === none || part < list) && part !== list && !isDelay(reader, part),
  );
}

function isDelay(reader: Reader, part: number): boolean {
  return kindOf(reader.tree, part).startsWith('delay');
}

function isKeywordOf(reader: Reader, part: number): boolean {
  const word = textOf(reader, part);
  return word === 'parameter' || word === 'localparam';
}

const declaratorKinds: ReadonlySet<string> = new Set([
  'net_decl_assignment',
  'variable_decl_assignment',
  'param_assignment',
  'enum_name_declaration',
  'type_assignment',
]);
