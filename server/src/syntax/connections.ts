// What stands in the parentheses of an instance: ports or parameters, by order or by name.

import { readExpression } from './expressions';
import { readDataType } from './data-types';
import { atOf, childrenOf, kindOf, none, unwrapTo } from './flat-tree';
import { isName, nameOf } from './names';
import { type Reader, emptyAt, standInOf } from './reader';
import type { Connection, DataTypeTable } from './tables';

/**
 * `list` is the grammar's list node, `none` for empty parentheses. A place left empty between commas is an
 * open connection at that place (IEEE 1364-2005 12.3.5); its commas alone tell of it.
 */
export function readConnections(reader: Reader, list: number): readonly Connection[] {
  if (list === none) return [];
  const connections: Connection[] = [];
  let open = reader.tree.start[list];
  let filled = false;
  for (const part of childrenOf(reader.tree, list)) {
    if (kindOf(reader.tree, part) === ',') {
      if (!filled) connections.push(openConnection(open));
      filled = false;
      open = reader.tree.end[part];
    } else {
      connections.push(readConnection(reader, part));
      filled = true;
    }
  }
  if (!filled) connections.push(openConnection(open));
  return connections;
}

function openConnection(offset: number): Connection {
  return { at: emptyAt(offset), name: null, value: null, implied: 'none' };
}

function readConnection(reader: Reader, node: number): Connection {
  const parts = childrenOf(reader.tree, node);
  const first = parts.length === 0 ? '' : kindOf(reader.tree, parts[0]);
  if (first === '.') return readNamed(reader, node, parts);
  const at = atOf(reader.tree, node);
  const type = typeIn(reader, node);
  if (type !== null) return { at, name: null, value: null, implied: 'none', type };
  if (first === '.*') return { at, name: null, value: null, implied: 'all' };
  return {
    at,
    name: null,
    value: standInOf(reader, node) !== null ? null : readExpression(reader, node),
    implied: 'none',
  };
}

/** A parameter's value that is a type by its keywords, or p::t; a type's name alone is read as an expression. */
function typeIn(reader: Reader, node: number): DataTypeTable | null {
  const inner = unwrapTo(reader.tree, node, 'data_type');
  const read = inner === none ? null : readDataType(reader, inner);
  return typeof read === 'string' ? null : read;
}

/** .name, .name() or .name(value) */
function readNamed(reader: Reader, node: number, parts: readonly number[]): Connection {
  const name = nameOf(reader, parts[1]);
  const type = parts.length === 5 ? typeIn(reader, parts[3]) : null;
  if (type !== null) return { at: atOf(reader.tree, node), name, value: null, implied: 'none', type };
  const value = parts.length === 5 ? readExpression(reader, parts[3]) : null;
  const implied = parts.length === 2 && isName(kindOf(reader.tree, parts[1])) ? 'name' : 'none';
  return { at: atOf(reader.tree, node), name, value, implied };
}
