// import p::x, q::*; in a header, in a body, in a block, or outside every unit (IEEE 1800-2017 26.3, 26.4).

import { atOf, childrenOf, childrenOfKind, kindOf } from './flat-tree';
import { isName, nameOf } from './names';
import type { Reader } from './reader';
import type { ImportItem } from './tables';

export function readImports(reader: Reader, node: number): readonly ImportItem[] {
  return childrenOfKind(reader.tree, node, 'package_import_item').map((item) => {
    const [from, , name] = childrenOf(reader.tree, item);
    return {
      kind: 'import',
      at: atOf(reader.tree, item),
      from: nameOf(reader, from),
      name: isName(kindOf(reader.tree, name)) ? nameOf(reader, name) : null,
    };
  });
}
