// Functions and tasks: their ports in either form, declarations and body (IEEE 1364-2005 10.2, 10.4). What the tables
// cannot hold of one (a port by reference, a method of a class) leaves the whole of it unread.

import { beginAnew } from './automatic-starts';
import { readBlockDeclarations } from './block-declarations';
import { unreadType } from './declarations';
import { atOf, childAmong, childOf, childrenOf, childrenOfKind, kindOf, none } from './flat-tree';
import { isName, nameOf } from './names';
import { directionIn, readListed, splitNames } from './ports';
import { type Reader, textOf } from './reader';
import { readStatement } from './statements';
import type { At, Direction, PortTable, Statement, SubroutineItem } from './tables';
import { readType } from './types';
import type { WrittenType } from './written-type';

/** `node` is the grammar's function or task. Null for the forms that the tables do not hold. */
export function readSubroutine(reader: Reader, node: number): SubroutineItem | null {
  const body = childAmong(reader.tree, node, bodies);
  const name =
    body === none ? undefined : childrenOf(reader.tree, body).find((part) => isName(kindOf(reader.tree, part)));
  if (name === undefined) return null;
  const result = readResult(reader, body, name);
  const ports = readPorts(reader, body);
  if (result === 'unread' || ports === null) return null;
  reader.jumps.subroutines.push({ name: nameOf(reader, name), hasResult: result !== null });
  const automatic = isAutomatic(reader, node);
  const { declarations, starts } = beginAnew(
    reader,
    blockItemsIn(reader, body),
    automatic ? 'all' : 'explicit',
    (each) => readBlockDeclarations(reader, [each]),
  );
  const item: SubroutineItem = {
    kind: 'subroutine',
    at: atOf(reader.tree, node),
    name: nameOf(reader, name),
    automatic,
    result,
    ports,
    declarations,
    body: readBody(reader, body, atOf(reader.tree, node), starts),
  };
  reader.jumps.subroutines.pop();
  return item;
}

/** Behind a header with ports they stand alone, else among the declarations of ports. */
function blockItemsIn(reader: Reader, body: number): readonly number[] {
  return childrenOf(reader.tree, body)
    .map((part) =>
      kindOf(reader.tree, part) === 'tf_item_declaration' ? childOf(reader.tree, part, 'block_item_declaration') : part,
    )
    .filter((part) => part !== none && kindOf(reader.tree, part) === 'block_item_declaration');
}

function isAutomatic(reader: Reader, node: number): boolean {
  const lifetime = childOf(reader.tree, node, 'lifetime');
  return lifetime !== none && textOf(reader, lifetime) === 'automatic';
}

function readResult(reader: Reader, body: number, name: number): SubroutineItem['result'] | 'unread' {
  if (kindOf(reader.tree, body) === 'task_body_declaration') return null;
  const before = childrenOf(reader.tree, body).filter((part) => part < name);
  // A function that gives nothing is a task that takes no time (IEEE 1800-2017 13.4.1).
  if (before.some((part) => textOf(reader, part) === 'void')) return null;
  const written = readType(reader, before);
  if (written.unread !== null) return 'unread';
  return { variable: written.variable, type: written.type };
}

/** Between parentheses, or declared one by one before the body; null where one of them cannot be held. */
function readPorts(reader: Reader, body: number): readonly PortTable[] | null {
  const list = childOf(reader.tree, body, 'tf_port_list');
  return list === none ? readDeclaredPorts(reader, body) : readListedPorts(reader, list);
}

interface Head {
  readonly direction: Direction;
  readonly written: WrittenType;
}

/** A port that says nothing of its own takes over what the port before it said; the first is an input. */
function readListedPorts(reader: Reader, list: number): readonly PortTable[] | null {
  const ports: PortTable[] = [];
  let head: Head = { direction: 'input', written: readType(reader, []) };
  for (const node of childrenOfKind(reader.tree, list, 'tf_port_item')) {
    const parts = childrenOf(reader.tree, node);
    const heads = parts.filter((part) => headKinds.has(kindOf(reader.tree, part)));
    const next = heads.length === 0 ? head : readHead(reader, heads, head.direction);
    if (next === null) return null;
    head = next;
    const declarator = readListed(
      reader,
      parts.filter((part) => !heads.includes(part)),
    );
    ports.push(portOf(head, declarator));
  }
  return ports;
}

function readDeclaredPorts(reader: Reader, body: number): readonly PortTable[] | null {
  const ports: PortTable[] = [];
  for (const item of childrenOfKind(reader.tree, body, 'tf_item_declaration')) {
    const node = childOf(reader.tree, item, 'tf_port_declaration');
    if (node === none) continue;
    const list = childOf(reader.tree, node, 'list_of_tf_variable_identifiers');
    const heads = childrenOf(reader.tree, node).filter((part) => headKinds.has(kindOf(reader.tree, part)));
    const head = readHead(reader, heads, 'input');
    if (list === none || head === null) return null;
    for (const parts of splitNames(reader, list)) ports.push(portOf(head, readListed(reader, parts)));
  }
  return ports;
}

function readHead(reader: Reader, heads: readonly number[], before: Direction): Head | null {
  const given = heads.find((part) => kindOf(reader.tree, part) === 'tf_port_direction');
  const direction = given === undefined ? before : directionIn(reader, given);
  const written = readType(reader, heads);
  if (direction === null || direction === 'ref' || unreadType(written) !== null) return null;
  return { direction, written };
}

function portOf({ direction, written }: Head, declarator: PortTable['declarator']): PortTable {
  return { at: declarator.at, direction, net: null, variable: written.variable, type: written.type, declarator };
}

/** One statement; several of them (IEEE 1800-2017 13.3) are a block. */
function readBody(reader: Reader, body: number, at: At, starts: readonly Statement[]): Statement {
  const statements = childrenOf(reader.tree, body)
    .filter((part) => statementKinds.has(kindOf(reader.tree, part)))
    .map((part) => readStatement(reader, part));
  if (statements.length === 1 && starts.length === 0) return statements[0];
  return { kind: 'block', at, label: null, parallel: false, declarations: [], body: [...starts, ...statements] };
}

const bodies: ReadonlySet<string> = new Set(['function_body_declaration', 'task_body_declaration']);
const headKinds: ReadonlySet<string> = new Set(['tf_port_direction', 'data_type_or_implicit']);
const statementKinds: ReadonlySet<string> = new Set(['function_statement_or_null', 'statement_or_null']);
