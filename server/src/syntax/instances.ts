// Instances of modules and gates. A primitive of the user's own, and a module instance without a name or with
// a delay in place of parameters, look alike to the grammar: both are instances here.

import { readConnections } from './connections';
import { unreadItem } from './unread';
import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, kindOf, none } from './flat-tree';
import { nameOf } from './names';
import { type Reader, textOf } from './reader';
import type { Connection, GateType, InstanceTable, Item, Named, Range } from './tables';
import { readDelayOf, readRange, remarkOnStrength } from './types';
import { gateWords } from './gate-words';

export function readInstances(reader: Reader, node: number): Item {
  const module = nameOf(reader, childrenOf(reader.tree, node)[0]);
  const assignment = childOf(reader.tree, node, 'parameter_value_assignment');
  const list = assignment === none ? none : childOf(reader.tree, assignment, 'list_of_parameter_value_assignments');
  return {
    kind: 'instances',
    at: atOf(reader.tree, node),
    module,
    parameters: readConnections(reader, list),
    instances: childrenOfKind(reader.tree, node, 'hierarchical_instance').map((instance) =>
      readInstance(reader, instance),
    ),
  };
}

function readInstance(reader: Reader, node: number): InstanceTable {
  const connections = readConnections(reader, childOf(reader.tree, node, 'list_of_port_connections'));
  return { at: atOf(reader.tree, node), ...readInstanceName(reader, node), connections };
}

function readInstanceName(reader: Reader, node: number): { readonly name: Named | null; readonly range: Range | null } {
  const whole = childOf(reader.tree, node, 'name_of_instance');
  if (whole === none) return { name: null, range: null };
  const dimension = childOf(reader.tree, whole, 'unpacked_dimension');
  const range = dimension === none ? null : (readRange(reader, dimension)[0] ?? null);
  return { name: nameOf(reader, whole + 1), range };
}

/** name #delay (terminals): a user-defined primitive, or a module instance that lacks its name. */
export function readPrimitiveInstances(reader: Reader, node: number): Item {
  remarkOnStrength(reader, node);
  // `#` before a primitive's terminals is a delay, before a module's connections its parameters: who knows which it is
  // tells them apart.
  const values = readDelayOf(reader, node)?.values ?? [];
  return {
    kind: 'instances',
    at: atOf(reader.tree, node),
    module: nameOf(reader, childrenOf(reader.tree, node)[0]),
    parameters: values.map((value) => ({ at: value.at, name: null, value, implied: 'none' })),
    instances: childrenOfKind(reader.tree, node, 'udp_instance').map((instance) => readTerminals(reader, instance)),
  };
}

export function readGate(reader: Reader, node: number): Item {
  const gate = textOf(reader, childrenOf(reader.tree, node)[0]);
  if (!gateWords.has(gate)) return unreadItem(reader, node, gate);
  remarkOnStrength(reader, node);
  const instances = childrenOf(reader.tree, node).filter((child) => kindOf(reader.tree, child).endsWith('_instance'));
  return {
    kind: 'gate',
    at: atOf(reader.tree, node),
    gate: gate as GateType,
    delay: readDelayOf(reader, node),
    instances: instances.map((instance) => readTerminals(reader, instance)),
  };
}

function readTerminals(reader: Reader, node: number): InstanceTable {
  const terminals = childrenOf(reader.tree, node).filter((child) => kindOf(reader.tree, child).endsWith('_terminal'));
  const connections = terminals.map((terminal): Connection => {
    return { at: atOf(reader.tree, terminal), name: null, value: readExpression(reader, terminal), implied: 'none' };
  });
  return { at: atOf(reader.tree, node), ...readInstanceName(reader, node), connections };
}
