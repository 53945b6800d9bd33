// Variables that begin anew each time their block or subroutine is entered (IEEE 1800-2017 6.21): their values are
// assignments ahead of the body. A static one's value is what it holds at power-up, once.

import { childOf, kindOf, none, unwrap } from './flat-tree';
import { type Reader, textOf } from './reader';
import type { Declarator, Item, Statement } from './tables';

/** `explicit`: one that says so. `all`: of an automatic subroutine, all but those that say `static`. */
export type Lifetime = 'explicit' | 'all';

export interface Begun {
  readonly declarations: readonly Item[];
  /** In order, to stand before the body. */
  readonly starts: readonly Statement[];
}

/** `read` gives the items of one of the grammar's block items. */
export function beginAnew(
  reader: Reader,
  nodes: readonly number[],
  lifetime: Lifetime,
  read: (node: number) => readonly Item[],
): Begun {
  const starts: Statement[] = [];
  const declarations = nodes.flatMap((node) => {
    const items = read(node);
    return isAutomatic(reader, unwrap(reader.tree, node), lifetime)
      ? items.map((item) => withoutValues(item, starts))
      : items;
  });
  return { declarations, starts };
}

function isAutomatic(reader: Reader, node: number, lifetime: Lifetime): boolean {
  if (kindOf(reader.tree, node) !== 'data_declaration') return false;
  const written = childOf(reader.tree, node, 'lifetime');
  return written === none ? lifetime === 'all' : textOf(reader, written) === 'automatic';
}

function withoutValues(item: Item, starts: Statement[]): Item {
  if (item.kind !== 'variable') return item;
  const declarators = item.declarators.map((declarator) => withoutValue(declarator, starts));
  return { ...item, declarators };
}

function withoutValue(declarator: Declarator, starts: Statement[]): Declarator {
  const { at, name, value } = declarator;
  if (value === null) return declarator;
  starts.push({
    kind: 'assign',
    at,
    blocking: true,
    target: { kind: 'name', at: name, name: name.name },
    delay: null,
    event: null,
    value,
  });
  return { ...declarator, value: null };
}
