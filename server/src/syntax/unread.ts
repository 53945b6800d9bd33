// Items that are recognized and not in the tables: a hole with the names that it may declare or drive.

import { namesDrivenIn, namesUsedIn } from './driven-names';
import { atOf, childOf, childrenOf, kindOf, none } from './flat-tree';
import { nameOf } from './names';
import { type Reader, unsupported } from './reader';
import type { Item, Named } from './tables';

export function unreadItem(reader: Reader, node: number, what: string): Item {
  unsupported(reader, node, what);
  return { kind: 'hole', at: atOf(reader.tree, node), names: namesTouched(reader, node) };
}

/** The name a function or task declares; all that switches and primitives connect; else what is assigned. */
function namesTouched(reader: Reader, node: number): readonly Named[] {
  const at = atOf(reader.tree, node);
  const kind = kindOf(reader.tree, node);
  if (kind === 'function_declaration' || kind === 'task_declaration') return [subroutineName(reader, node)];
  if (connecting.has(kind)) return namesUsedIn(reader.text, at);
  return assigning.has(kind) ? namesDrivenIn(reader.text, at) : [];
}

function subroutineName(reader: Reader, node: number): Named {
  const body =
    childrenOf(reader.tree, node).find((child) => kindOf(reader.tree, child).endsWith('_body_declaration')) ?? node;
  const names = childrenOf(reader.tree, body).filter((child) => nameKinds.has(kindOf(reader.tree, child)));
  const plain = childOf(reader.tree, body, 'simple_identifier');
  return nameOf(reader, plain === none ? (names[0] ?? body) : plain);
}

const nameKinds: ReadonlySet<string> = new Set(['simple_identifier', 'escaped_identifier']);
const connecting: ReadonlySet<string> = new Set([
  'gate_instantiation',
  'udp_instantiation',
  'net_alias',
  'checker_instantiation',
]);
const assigning: ReadonlySet<string> = new Set(['final_construct', 'clocking_declaration']);
