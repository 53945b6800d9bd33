// case, casez and casex. The forms with `inside` and `matches` are not read.

import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, kindOf, none } from './flat-tree';
import { type Reader, textOf } from './reader';
import type { CaseItem, Statement } from './tables';

/** Reads the statement below a node; handed in, so that statements and their parts need not know each other. */
export type StatementReader = (reader: Reader, node: number) => Statement;

type Case = Extract<Statement, { kind: 'case' }>;

/** Null for the forms that the tables do not hold. */
export function readCase(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const selector = childOf(reader.tree, node, 'case_expression');
  const keyword = childOf(reader.tree, node, 'case_keyword');
  const items = childrenOfKind(reader.tree, node, 'case_item');
  if (keyword === none || items.length === 0) return null;
  const qualifier = childOf(reader.tree, node, 'unique_priority');
  return {
    kind: 'case',
    at: atOf(reader.tree, node),
    match: textOf(reader, keyword) as Case['match'],
    qualifier: qualifier === none ? null : (textOf(reader, qualifier) as Case['qualifier']),
    selector: readExpression(reader, selector),
    items: items.map((item) => readItem(reader, item, readStatement)),
  };
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
