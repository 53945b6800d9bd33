// Items of a module: one table item for each thing the item declares or drives.

import { wordsOf } from './production-words';
import { readParameters, readTypedef, readVariables } from './data-types';
import { readGenvar, readNet, unreadDeclaration } from './declarations';
import { readExpression } from './expressions';
import { atOf, childAmong, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none, unwrap } from './flat-tree';
import { readGenerate } from './generate';
import { readImports } from './imports';
import { readGate, readInstances, readPrimitiveInstances } from './instances';
import { readBodyPorts } from './ports';
import { type Reader, standInOf, textOf } from './reader';
import { isSpecify, readSpecify } from './specify';
import { readStatement } from './statements';
import { readSubroutine } from './subroutines';
import type { Item, ProcessFlavor } from './tables';
import { readDelayOf, remarkOnStrength } from './types';
import { unreadItem } from './unread';

export function readItems(reader: Reader, node: number): readonly Item[] {
  const kind = kindOf(reader.tree, node);
  if (isLeaf(reader.tree, node)) return readMark(reader, node);
  const read = itemReaders.get(kind);
  return read === undefined ? [unreadItem(reader, node, wordsOf(kind))] : read(reader, node);
}

/** A semicolon alone is nothing, unless it stands in for an item that could not be read. */
function readMark(reader: Reader, node: number): readonly Item[] {
  const standIn = standInOf(reader, node);
  if (standIn === null) return [];
  if (isSpecify(reader.text, standIn.at)) return readSpecify(reader, standIn.at);
  return [{ kind: 'hole', at: standIn.at, names: standIn.names }];
}

/** assign a = b, c = d; is two items. */
function readAssign(reader: Reader, node: number): readonly Item[] {
  const list = childAmong(reader.tree, node, assignmentLists);
  if (list === none) return [unreadItem(reader, node, 'assignment')];
  remarkOnStrength(reader, node);
  const delay = readDelayOf(reader, node);
  const assignments = childrenOf(reader.tree, list).filter((part) => kindOf(reader.tree, part) !== ',');
  return assignments.map((assignment): Item => {
    const [target, , value] = childrenOf(reader.tree, assignment);
    return {
      kind: 'assign',
      at: atOf(reader.tree, assignment),
      delay,
      target: readExpression(reader, target),
      value: readExpression(reader, value),
    };
  });
}

/** always and its kin, initial, final: a keyword and a statement. */
function readProcess(reader: Reader, node: number): readonly Item[] {
  const [keyword, body] = childrenOf(reader.tree, node);
  const flavor = textOf(reader, keyword) as ProcessFlavor;
  return [{ kind: 'process', at: atOf(reader.tree, node), flavor, body: readStatement(reader, body) }];
}

/** defparam a = b, c = d; is two items. */
function readDefparam(reader: Reader, node: number): readonly Item[] {
  const list = childOf(reader.tree, node, 'list_of_defparam_assignments');
  if (list === none) return [unreadItem(reader, node, 'defparam')];
  return childrenOfKind(reader.tree, list, 'defparam_assignment').map((assignment): Item => {
    const [target, , value] = childrenOf(reader.tree, assignment);
    return {
      kind: 'defparam',
      at: atOf(reader.tree, assignment),
      target: readExpression(reader, target),
      value: readExpression(reader, value),
    };
  });
}

function readOwnSubroutine(reader: Reader, node: number): readonly Item[] {
  return [readSubroutine(reader, node) ?? unreadItem(reader, node, wordsOf(kindOf(reader.tree, node)))];
}

function readConstruct(reader: Reader, node: number): readonly Item[] {
  return [readGenerate(reader, node, readItems) ?? unreadItem(reader, node, 'generate construct')];
}

function readRegion(reader: Reader, node: number): readonly Item[] {
  return childrenOf(reader.tree, node)
    .slice(1, -1)
    .flatMap((item) => readItems(reader, item));
}

/** The grammar wraps an item of a module with a non-ANSI header once more. */
function readWrapped(reader: Reader, node: number): readonly Item[] {
  return childrenOf(reader.tree, node).flatMap((part) => readItems(reader, part));
}

function readData(reader: Reader, node: number): readonly Item[] {
  const inner = unwrap(reader.tree, node);
  if (kindOf(reader.tree, inner) === 'package_import_declaration') return readImports(reader, inner);
  if (kindOf(reader.tree, inner) === 'type_declaration') return readTypedef(reader, inner);
  if (inner === node) return readVariables(reader, node);
  return [unreadDeclaration(reader, inner, wordsOf(kindOf(reader.tree, inner)))];
}

type Reading = (reader: Reader, node: number) => readonly Item[];

const assignmentLists: ReadonlySet<string> = new Set(['list_of_net_assignments', 'list_of_variable_assignments']);

const itemReaders: ReadonlyMap<string, Reading> = new Map<string, Reading>([
  ['module_item', readWrapped],
  ['generate_region', readRegion],
  ['net_declaration', (reader, node) => [readNet(reader, node)]],
  ['data_declaration', readData],
  ['parameter_declaration', (reader, node) => readParameters(reader, node, { local: false })],
  ['local_parameter_declaration', (reader, node) => readParameters(reader, node, { local: true })],
  ['package_import_declaration', readImports],
  ['specify_block', (reader, node) => readSpecify(reader, atOf(reader.tree, node))],
  ['specparam_declaration', (reader, node) => readSpecify(reader, atOf(reader.tree, node))],
  ['genvar_declaration', (reader, node) => [readGenvar(reader, node)]],
  ['port_declaration', readBodyPorts],
  ['continuous_assign', readAssign],
  ['gate_instantiation', (reader, node) => [readGate(reader, node)]],
  ['parameter_override', readDefparam],
  ['always_construct', readProcess],
  ['initial_construct', readProcess],
  ['final_construct', readProcess],
  ['module_instantiation', (reader, node) => [readInstances(reader, node)]],
  ['udp_instantiation', (reader, node) => [readPrimitiveInstances(reader, node)]],
  ['function_declaration', readOwnSubroutine],
  ['task_declaration', readOwnSubroutine],
  ['loop_generate_construct', readConstruct],
  ['conditional_generate_construct', readConstruct],
]);
