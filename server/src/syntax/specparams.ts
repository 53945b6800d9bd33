// specparam outside a specify block (IEEE 1364-2005 4.10.3): a constant of the module that nothing overrides.

import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, none } from './flat-tree';
import { nameOf } from './names';
import type { Reader } from './reader';
import type { Declarator, Item } from './tables';
import { readRange } from './types';

export function readSpecparams(reader: Reader, node: number): Item {
  const list = childOf(reader.tree, node, 'list_of_specparam_assignments');
  const dimension = childOf(reader.tree, node, 'packed_dimension');
  const declarators = list === none ? [] : childrenOfKind(reader.tree, list, 'specparam_assignment');
  return {
    kind: 'parameter',
    at: atOf(reader.tree, node),
    local: true,
    variable: null,
    type: { signed: false, ranges: dimension === none ? [] : readRange(reader, dimension) },
    declarators: declarators.map((declarator) => readDeclarator(reader, declarator)),
  };
}

function readDeclarator(reader: Reader, node: number): Declarator {
  const [name, , value] = childrenOf(reader.tree, node);
  return {
    at: atOf(reader.tree, node),
    name: nameOf(reader, name),
    dimensions: [],
    value: readExpression(reader, value),
  };
}
