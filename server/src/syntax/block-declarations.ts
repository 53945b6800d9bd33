// Declarations at the head of a begin … end block.

import { readParameters, readTypedef, readVariables } from './data-types';
import { unreadDeclaration } from './declarations';
import { kindOf, unwrap } from './flat-tree';
import { readImports } from './imports';
import { type Reader, standInOf } from './reader';
import type { Item } from './tables';

/** `nodes` are the grammar's block items. */
export function readBlockDeclarations(reader: Reader, nodes: readonly number[]): readonly Item[] {
  return nodes.flatMap((node): readonly Item[] => {
    const inner = unwrap(reader.tree, node);
    const standIn = standInOf(reader, inner);
    if (standIn !== null) return [{ kind: 'hole', at: standIn.at, names: standIn.names }];
    switch (kindOf(reader.tree, inner)) {
      case 'data_declaration':
        return readVariables(reader, inner);
      case 'type_declaration':
        return readTypedef(reader, inner);
      case 'parameter_declaration':
        return readParameters(reader, inner, { local: false });
      case 'local_parameter_declaration':
        return readParameters(reader, inner, { local: true });
      case 'package_import_declaration':
        return readImports(reader, inner);
      default:
        return [unreadDeclaration(reader, inner, null)];
    }
  });
}
