// Generate constructs, with or without generate … endgenerate around them.

import { readAssignment } from './assignments';
import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, unwrap } from './flat-tree';
import { nameOf } from './names';
import { mayDescend, type Reader, textOf } from './reader';
import type { GenerateBlock, GenerateCaseItem, Item, Named } from './tables';

/** Reads the items at a node; handed in, so that items and their parts need not know each other. */
export type ItemReader = (reader: Reader, node: number) => readonly Item[];

/** if, for and case at the level of items. Null where the head is not one that the tables hold. */
export function readGenerate(reader: Reader, node: number, readItems: ItemReader): Item | null {
  const inner = unwrap(reader.tree, node);
  if (!mayDescend(reader, inner)) return { kind: 'hole', at: atOf(reader.tree, inner), names: [] };
  reader.depth += 1;
  const item = readConstruct(reader, inner, readItems);
  reader.depth -= 1;
  return item;
}

function readConstruct(reader: Reader, node: number, readItems: ItemReader): Item | null {
  switch (kindOf(reader.tree, node)) {
    case 'if_generate_construct':
      return readIf(reader, node, readItems);
    case 'loop_generate_construct':
      return readFor(reader, node, readItems);
    case 'case_generate_construct':
      return readCase(reader, node, readItems);
    default:
      return null;
  }
}

function readIf(reader: Reader, node: number, readItems: ItemReader): Item {
  const [then, otherwise] = childrenOfKind(reader.tree, node, 'generate_block');
  const at = atOf(reader.tree, node);
  const test = childrenOf(reader.tree, node)[2];
  if (isWrapping(reader, test)) return { kind: 'generate-block', at, block: readBlock(reader, then, readItems) };
  const condition = readExpression(reader, test);
  const thenBlock = readBlock(reader, then, readItems);
  const elseBlock = otherwise === undefined ? null : readBlock(reader, otherwise, readItems);
  return { kind: 'generate-if', at, condition, then: thenBlock, else: elseBlock };
}

/** A condition that mending put in front of a bare begin … end, which the grammar does not know as an item. */
function isWrapping(reader: Reader, test: number): boolean {
  return reader.tree.start[test] === reader.tree.end[test];
}

function readFor(reader: Reader, node: number, readItems: ItemReader): Item | null {
  const initialization = childOf(reader.tree, node, 'genvar_initialization');
  const advance = childOf(reader.tree, node, 'genvar_iteration');
  const parts = childrenOf(reader.tree, node);
  const start = childrenOf(reader.tree, initialization);
  const step = readAssignment(reader, advance);
  if (step === null) return null;
  return {
    kind: 'generate-for',
    at: atOf(reader.tree, node),
    variable: nameOf(reader, start[start.length - 3]),
    start: readExpression(reader, start[start.length - 1]),
    condition: readExpression(reader, parts[4]),
    step,
    body: readBlock(reader, parts[parts.length - 1], readItems),
  };
}

function readCase(reader: Reader, node: number, readItems: ItemReader): Item {
  const items = childrenOfKind(reader.tree, node, 'case_generate_item');
  return {
    kind: 'generate-case',
    at: atOf(reader.tree, node),
    selector: readExpression(reader, childrenOf(reader.tree, node)[2]),
    items: items.map((item) => readCaseItem(reader, item, readItems)),
  };
}

function readCaseItem(reader: Reader, node: number, readItems: ItemReader): GenerateCaseItem {
  const parts = childrenOf(reader.tree, node);
  const labels = parts.slice(0, -1).filter((part) => !caseMarks.has(kindOf(reader.tree, part)));
  return {
    at: atOf(reader.tree, node),
    labels: labels.map((label) => readExpression(reader, label)),
    isDefault: kindOf(reader.tree, parts[0]) === 'default',
    body: readBlock(reader, parts[parts.length - 1], readItems),
  };
}

/** label : begin … end, begin : label … end, or one item alone. */
function readBlock(reader: Reader, node: number, readItems: ItemReader): GenerateBlock {
  const parts = isLeaf(reader.tree, node) ? [] : childrenOf(reader.tree, node);
  const begin = parts.findIndex((part) => kindOf(reader.tree, part) === 'begin');
  const at = atOf(reader.tree, node);
  if (begin < 0) return { at, label: null, delimited: false, items: parts.flatMap((part) => readItems(reader, part)) };
  const end = parts.length - 1 - [...parts].reverse().findIndex((part) => kindOf(reader.tree, part) === 'end');
  const label = labelOf(reader, parts, begin);
  const first = begin + 1 + (kindOf(reader.tree, parts[begin + 1]) === ':' ? 2 : 0);
  return { at, label, delimited: true, items: parts.slice(first, end).flatMap((part) => readItems(reader, part)) };
}

function labelOf(reader: Reader, parts: readonly number[], begin: number): Named | null {
  if (begin > 0) return nameOf(reader, parts[0]);
  return textOf(reader, parts[begin + 1]) === ':' ? nameOf(reader, parts[begin + 2]) : null;
}

const caseMarks: ReadonlySet<string> = new Set(['default', ',', ':']);
