// A module: its header and its items. What stands in force around it (net type, time scale) is handed in.

import { readParameters } from './data-types';
import { atOf, childAmong, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none } from './flat-tree';
import { readImports } from './imports';
import { readItems } from './items';
import { isName, nameOf } from './names';
import { readAnsiPorts, readSlots } from './ports';
import type { Reader } from './reader';
import type { Item, ModuleTable, NetType } from './tables';

/** What compiler directives have set where the module begins. */
export interface InForce {
  readonly celldefine: boolean;
  /** In ps; null where no `timescale came before. */
  readonly timeUnit: number | null;
  readonly timePrecision: number | null;
  readonly defaultNet: NetType | 'none';
}

/** `node` is the grammar's module declaration. Null where it has no name. */
export function readModule(reader: Reader, node: number, inForce: InForce): Omit<ModuleTable, 'headerWhole'> | null {
  const header = childAmong(reader.tree, node, headerKinds);
  const head = header === none ? node : header;
  const name = childrenOf(reader.tree, head).find((part) => isName(kindOf(reader.tree, part)));
  if (name === undefined) return null;
  return {
    kind: 'module',
    at: atOf(reader.tree, node),
    name: nameOf(reader, name),
    ...readHeader(reader, head),
    items: [...readHeaderImports(reader, head), ...readBody(reader, node, header)],
    celldefine: inForce.celldefine,
    timeUnit: inForce.timeUnit,
    timePrecision: inForce.timePrecision,
    defaultNet: inForce.defaultNet,
  };
}

function readHeaderImports(reader: Reader, head: number): readonly Item[] {
  return childrenOfKind(reader.tree, head, 'package_import_declaration').flatMap((part) => readImports(reader, part));
}

type Header = Pick<ModuleTable, 'parameters' | 'ports' | 'slots' | 'ansi'>;

function readHeader(reader: Reader, head: number): Header {
  const parameters = childOf(reader.tree, head, 'parameter_port_list');
  const ports = childOf(reader.tree, head, 'list_of_port_declarations');
  const slots = childOf(reader.tree, head, 'list_of_ports');
  return {
    parameters: parameters === none ? [] : readHeaderParameters(reader, parameters),
    ports: ports === none ? [] : readAnsiPorts(reader, ports),
    slots: slots === none ? [] : readSlots(reader, slots),
    ansi: slots === none,
  };
}

/** #(…): the first may lack the word parameter, and so may those after a parameter that has it. */
function readHeaderParameters(reader: Reader, list: number): readonly Item[] {
  const declarations = childrenOf(reader.tree, list).filter((part) => !isLeaf(reader.tree, part));
  return declarations.flatMap((part) => {
    const local = childOf(reader.tree, part, 'local_parameter_declaration');
    const declared = local === none ? childOf(reader.tree, part, 'parameter_declaration') : local;
    return readParameters(reader, declared === none ? part : declared, { local: local !== none });
  });
}

function readBody(reader: Reader, node: number, header: number): readonly Item[] {
  const items: Item[] = [];
  for (const part of childrenOf(reader.tree, node)) {
    if (kindOf(reader.tree, part) === 'endmodule') break;
    if (part !== header) items.push(...readItems(reader, part));
  }
  return items;
}

const headerKinds: ReadonlySet<string> = new Set(['module_ansi_header', 'module_nonansi_header']);
