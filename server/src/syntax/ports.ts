// Ports: the two forms of a module's header, and port declarations in a body. In an ANSI header a port that
// says nothing of its own takes over what the port before it said (IEEE 1364-2005 12.3.4).

import { unreadDeclaration, unreadType } from './declarations';
import { readExpression } from './expressions';
import { atOf, childAmong, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none, unwrap } from './flat-tree';
import { isName, nameOf } from './names';
import { holeExpression, type Reader, standInOf, textOf, unsupported } from './reader';
import type { Declarator, Direction, InterfaceReference, Item, PortSlot, PortTable } from './tables';
import { readDimensions, readType } from './types';
import type { WrittenType } from './written-type';

/** `list` is the grammar's list of ANSI port declarations. */
export function readAnsiPorts(reader: Reader, list: number): readonly PortTable[] {
  const ports: PortTable[] = [];
  let before: PortHead = { direction: 'inout', written: nothingWritten };
  for (const node of childrenOfKind(reader.tree, list, 'ansi_port_declaration')) {
    before = readHead(reader, node, before);
    ports.push({ at: atOf(reader.tree, node), ...headColumns(before), declarator: readPortName(reader, node) });
  }
  return ports;
}

interface PortHead {
  readonly direction: Direction;
  readonly written: Pick<WrittenType, 'net' | 'variable' | 'type'>;
  readonly interface?: InterfaceReference;
}

const nothingWritten: PortHead['written'] = { net: null, variable: null, type: { signed: false, ranges: [] } };

function readHead(reader: Reader, node: number, before: PortHead): PortHead {
  const header = childAmong(reader.tree, node, headKinds);
  if (header === none) return before;
  const written = readType(reader, [header]);
  const direction = directionIn(reader, header);
  const reference = direction === null ? interfaceIn(reader, header) : null;
  if (reference !== null)
    return {
      direction: before.direction,
      written: reference.modport === null && reference.name !== null ? written : nothingWritten,
      interface: reference,
    };
  if (written.unread !== null || direction === 'ref') unsupported(reader, node, `port ${textOf(reader, header)}`);
  return { direction: direction === null || direction === 'ref' ? before.direction : direction, written };
}

/** bus.master, interface, interface.master; a name alone, which may turn out to be a type's, too. */
function interfaceIn(reader: Reader, header: number): InterfaceReference | null {
  const at = atOf(reader.tree, header);
  const inner = unwrap(reader.tree, header);
  const isLoneName = kindOf(reader.tree, header) === 'variable_port_header' && isName(kindOf(reader.tree, inner));
  if (isLoneName) return { ...at, name: nameOf(reader, inner), modport: null };
  if (kindOf(reader.tree, header) !== 'interface_port_header') return null;
  const [first, , modport] = childrenOf(reader.tree, header);
  return {
    ...at,
    name: isName(kindOf(reader.tree, first)) ? nameOf(reader, first) : null,
    modport: modport === undefined ? null : nameOf(reader, modport),
  };
}

function headColumns(head: PortHead) {
  const { net, variable, type } = head.written;
  const common = { direction: head.direction, net, variable, type };
  return head.interface === undefined ? common : { ...common, interface: head.interface };
}

export function directionIn(reader: Reader, header: number): Direction | 'ref' | null {
  const first = isLeaf(reader.tree, header) ? header : unwrap(reader.tree, header + 1);
  const word = textOf(reader, first);
  return directions.has(word) ? (word as Direction | 'ref') : null;
}

function readPortName(reader: Reader, node: number): Declarator {
  const parts = childrenOf(reader.tree, node);
  const name = parts.find((part) => isName(kindOf(reader.tree, part))) ?? node;
  if (kindOf(reader.tree, parts[0]) === '.' || childOf(reader.tree, node, '.') !== none) {
    unsupported(reader, node, 'named port expression in an ANSI header');
  }
  const sign = parts.findIndex((part) => kindOf(reader.tree, part) === '=');
  const value = sign < 0 ? null : readExpression(reader, parts[sign + 1]);
  return { at: atOf(reader.tree, node), name: nameOf(reader, name), dimensions: readDimensions(reader, parts), value };
}

/** `list` is the grammar's list of port references: a, b[3:0]. */
export function readSlots(reader: Reader, list: number): readonly PortSlot[] {
  return childrenOfKind(reader.tree, list, 'port').map((port) => readSlot(reader, port));
}

function readSlot(reader: Reader, node: number): PortSlot {
  const at = atOf(reader.tree, node);
  const external = reader.externals.get(at.start) ?? null;
  const standIn = standInOf(reader, node);
  if (standIn === null) return { at, external, expression: readExpression(reader, node) };
  if (standIn.expression !== undefined) return { at, external, expression: standIn.expression };
  if (standIn.names.length === 0) return { at, external, expression: null };
  return { at, external, expression: holeExpression(reader, node, 'port expression of this form') };
}

/** input [3:0] a, b; in the body of a module with a non-ANSI header: one item a name. */
export function readBodyPorts(reader: Reader, node: number): readonly Item[] {
  const declaration = unwrap(reader.tree, node);
  const list = childAmong(reader.tree, declaration, nameLists);
  const written = readType(
    reader,
    childrenOf(reader.tree, declaration).filter((part) => part < list),
  );
  const direction = directionIn(reader, declaration);
  if (list === none || written.unread !== null || direction === null || direction === 'ref') {
    return [unreadDeclaration(reader, node, unreadType(written) ?? 'port')];
  }
  return splitNames(reader, list).map((parts): Item => {
    const declarator = readListed(reader, parts);
    const port = {
      at: declarator.at,
      direction,
      net: written.net,
      variable: written.variable,
      type: written.type,
      declarator,
    };
    return { kind: 'port', at: declarator.at, port };
  });
}

/** The parts between commas: name, dimensions, = value. */
export function splitNames(reader: Reader, list: number): readonly (readonly number[])[] {
  const groups: number[][] = [[]];
  for (const part of childrenOf(reader.tree, list)) {
    if (kindOf(reader.tree, part) === ',') groups.push([]);
    else groups[groups.length - 1].push(part);
  }
  return groups.filter((group) => group.length > 0);
}

export function readListed(reader: Reader, parts: readonly number[]): Declarator {
  const sign = parts.findIndex((part) => kindOf(reader.tree, part) === '=');
  return {
    at: { start: atOf(reader.tree, parts[0]).start, end: atOf(reader.tree, parts[parts.length - 1]).end },
    name: nameOf(reader, parts[0]),
    dimensions: readDimensions(reader, parts),
    value: sign < 0 ? null : readExpression(reader, parts[sign + 1]),
  };
}

const headKinds: ReadonlySet<string> = new Set([
  'net_port_header',
  'variable_port_header',
  'interface_port_header',
  'port_direction',
]);
const directions: ReadonlySet<string> = new Set(['input', 'output', 'inout', 'ref']);
const nameLists: ReadonlySet<string> = new Set([
  'list_of_port_identifiers',
  'list_of_variable_identifiers',
  'list_of_variable_port_identifiers',
  'list_of_interface_identifiers',
]);
