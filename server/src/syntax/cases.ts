// case, casez, casex and case … inside. The form with `matches` is not read.

import { readExpression, readRangeTests } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, isLeaf, kindOf, none } from './flat-tree';
import { type Reader, textOf } from './reader';
import type { CaseItem, Expression, Statement } from './tables';

/** Reads the statement below a node; handed in, so that statements and their parts need not know each other. */
export type StatementReader = (reader: Reader, node: number) => Statement;

type Case = Extract<Statement, { kind: 'case' }>;

/** Null for the forms that the tables do not hold. */
export function readCase(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const selector = childOf(reader.tree, node, 'case_expression');
  const keyword = childOf(reader.tree, node, 'case_keyword');
  if (childOf(reader.tree, node, 'inside') !== none) return readCaseInside(reader, node, readStatement);
  const items = childrenOfKind(reader.tree, node, 'case_item');
  if (keyword === none || items.length === 0) return null;
  return {
    kind: 'case',
    at: atOf(reader.tree, node),
    match: textOf(reader, keyword) as Case['match'],
    qualifier: qualifierOf(reader, node),
    selector: readExpression(reader, selector),
    items: items.map((item) => readItem(reader, item, readStatement)),
  };
}

function qualifierOf(reader: Reader, node: number): Case['qualifier'] {
  const qualifier = childOf(reader.tree, node, 'unique_priority');
  return qualifier === none ? null : (textOf(reader, qualifier) as Case['qualifier']);
}

/**
 * `case (x) inside` (IEEE 1800-2017 12.5.4). Without ranges its items match as those of casex do, digit by digit, with
 * the wildcards of the items alone; with one it asks of each item in turn whether its test is true.
 */
function readCaseInside(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const { tree } = reader;
  const items = childrenOfKind(tree, node, 'case_inside_item');
  const selected = readExpression(reader, childOf(tree, node, 'case_expression'));
  if (items.length === 0) return null;
  const valuesOf = (item: number) => {
    const list = childOf(tree, item, 'range_list');
    return list === none ? [] : childrenOf(tree, list).filter((part) => kindOf(tree, part) !== ',');
  };
  const hasRange = items.some((item) => valuesOf(item).some((part) => isRange(reader, part)));
  const one: Expression = { kind: 'number', at: selected.at, size: 1, signed: false, base: 'b', digits: '1' };
  return {
    kind: 'case',
    at: atOf(tree, node),
    match: hasRange ? 'case' : 'casex',
    qualifier: qualifierOf(reader, node),
    selector: hasRange ? one : selected,
    items: items.map((item): CaseItem => {
      const parts = childrenOf(tree, item);
      const values = valuesOf(item);
      return {
        at: atOf(tree, item),
        labels: hasRange
          ? readRangeTests(reader, selected, values)
          : values.map((value) => readExpression(reader, isLeaf(tree, value) ? value : value + 1)),
        isDefault: kindOf(tree, parts[0]) === 'default',
        body: readStatement(reader, parts[parts.length - 1]),
      };
    }),
  };
}

/** [low:high] */
function isRange(reader: Reader, node: number): boolean {
  return textOf(reader, node).startsWith('[');
}

function readItem(reader: Reader, node: number, readStatement: StatementReader): CaseItem {
  const parts = childrenOf(reader.tree, node);
  const labels = childrenOfKind(reader.tree, node, 'case_item_expression');
  return {
    at: atOf(reader.tree, node),
    labels: labels.map((label) => readExpression(reader, label)),
    isDefault: kindOf(reader.tree, parts[0]) === 'default',
    body: readStatement(reader, parts[parts.length - 1]),
  };
}
