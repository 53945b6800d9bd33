// Types that are written out where a keyword or a name could stand: structures, unions and enumerations (IEEE 1800-2017
// 6.19, 7.2, 7.3). A member of a type that the tables cannot hold leaves the whole of it unread, by that member's words.

import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, kindOf, none } from './flat-tree';
import { nameOf } from './names';
import { plainDecimal } from './numbers';
import { mayDescend, type Reader, textOf, unsupported } from './reader';
import type { At, CompositeTable, EnumMember, EnumTable, Expression, MemberTable, Range } from './tables';
import type { WrittenType } from './written-type';

/** Reads the types that stand inside; handed in, so that both files need not know each other. */
export interface InnerTypes {
  type(reader: Reader, nodes: readonly number[]): WrittenType;
  dimensions(reader: Reader, nodes: readonly number[]): readonly Range[];
}

/** The first node at or below `nodes` that writes such a type out, or `none`. */
export function inlineTypeIn(reader: Reader, nodes: readonly number[]): number {
  for (const node of nodes) {
    for (let part = node; part < reader.tree.after[node]; part += 1) {
      if (kindOf(reader.tree, part) === 'data_type' && isInline(reader, part)) return part;
    }
  }
  return none;
}

export function isInline(reader: Reader, node: number): boolean {
  return childOf(reader.tree, node, '{') !== none;
}

export function isEnum(reader: Reader, node: number): boolean {
  return childOf(reader.tree, node, 'enum') !== none && isInline(reader, node);
}

/** What it is, in the source's words, where the tables cannot hold it. */
export function readInline(reader: Reader, node: number, inner: InnerTypes): CompositeTable | EnumTable | string {
  if (!mayDescend(reader, node)) return textOf(reader, node).slice(0, 6);
  reader.depth += 1;
  const read = isEnum(reader, node) ? readEnum(reader, node, inner) : readComposite(reader, node, inner);
  reader.depth -= 1;
  return read;
}

function readComposite(reader: Reader, node: number, inner: InnerTypes): CompositeTable | string {
  const heading = childOf(reader.tree, node, 'struct_union');
  const words = heading === none ? [] : childrenOf(reader.tree, heading).map((part) => textOf(reader, part));
  if (heading !== none && words.length === 0) words.push(textOf(reader, heading));
  const [what, tagged] = words;
  if ((what !== 'struct' && what !== 'union') || tagged !== undefined) return words.join(' ');
  const members: MemberTable[] = [];
  for (const member of childrenOfKind(reader.tree, node, 'struct_union_member')) {
    const read = readMembers(reader, member, inner);
    if (typeof read === 'string') return `${what} with ${read}`;
    members.push(...read);
  }
  const packed = childOf(reader.tree, node, 'packed') !== none;
  return { kind: 'composite', at: atOf(reader.tree, node), what, packed, members };
}

function readMembers(reader: Reader, node: number, inner: InnerTypes): readonly MemberTable[] | string {
  const type = childOf(reader.tree, node, 'data_type_or_void');
  const list = childOf(reader.tree, node, 'list_of_variable_decl_assignments');
  const written = inner.type(reader, type === none ? [] : [type]);
  if (type === none || list === none || written.unread !== null) return written.unread ?? 'member of this form';
  return childrenOfKind(reader.tree, list, 'variable_decl_assignment').map((declarator): MemberTable => {
    const parts = childrenOf(reader.tree, declarator);
    if (childOf(reader.tree, declarator, '=') !== none) unsupported(reader, declarator, 'start value of a member');
    const dimensions = inner.dimensions(reader, parts);
    const name = nameOf(reader, parts[0] ?? declarator);
    const { variable, type: table } = written;
    return { ...atOf(reader.tree, declarator), name, variable, type: table, dimensions };
  });
}

function readEnum(reader: Reader, node: number, inner: InnerTypes): EnumTable | string {
  const base = childOf(reader.tree, node, 'enum_base_type');
  const written = base === none ? null : inner.type(reader, [base]);
  if (written !== null && written.unread !== null) return `type ${written.unread}`;
  return {
    kind: 'enum',
    at: atOf(reader.tree, node),
    base: written === null ? null : { variable: written.variable, type: written.type },
    members: childrenOfKind(reader.tree, node, 'enum_name_declaration').map((member) => readMember(reader, member)),
  };
}

/** name, name[n] or name[a:b], each with or without a value. */
function readMember(reader: Reader, node: number): EnumMember {
  const parts = childrenOf(reader.tree, node);
  const sign = parts.findIndex((part) => kindOf(reader.tree, part) === '=');
  const numbers = parts.filter((part) => kindOf(reader.tree, part) === 'integral_number');
  return {
    ...atOf(reader.tree, node),
    name: nameOf(reader, parts[0] ?? node),
    range:
      numbers.length === 0
        ? null
        : rangeOf(
            numbers.map((number) => plainNumber(reader, number)),
            atOf(reader.tree, node),
          ),
    value: sign < 0 ? null : readExpression(reader, parts[sign + 1]),
  };
}

function plainNumber(reader: Reader, node: number): number {
  return Number(textOf(reader, node).replaceAll('_', ''));
}

/** [n] counts from 0 to n - 1 (6.19.2). */
function rangeOf([first, last]: readonly number[], at: At): Range {
  const number = (value: number): Expression => plainDecimal(at, `${value}`);
  return last === undefined
    ? { at, msb: number(0), lsb: number(first - 1) }
    : { at, msb: number(first), lsb: number(last) };
}
