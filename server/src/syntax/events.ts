// @(…): what a process or a statement waits for.

import { atOf, childrenOf, kindOf, unwrap } from './flat-tree';
import { readExpression } from './expressions';
import { mayDescend, type Reader, textOf, unsupported } from './reader';
import type { EventControl, Sensitivity } from './tables';

/** @*, @(*), @name or @(list). */
export function readEventControl(reader: Reader, node: number): EventControl {
  const inner = unwrap(reader.tree, node);
  const parts = childrenOf(reader.tree, inner).filter((part) => !marks.has(kindOf(reader.tree, part)));
  const at = atOf(reader.tree, inner);
  if (parts.length === 1 && textOf(reader, parts[0]) === '*') return { at, implicit: true, items: [] };
  return { at, implicit: false, items: parts.flatMap((part) => readList(reader, part)) };
}

/** a or b, c: nested to the left, so walked down without descending. */
function readList(reader: Reader, node: number): readonly Sensitivity[] {
  const groups: number[] = [];
  let rest = node;
  for (let parts = listParts(reader, rest); parts !== null; parts = listParts(reader, rest)) {
    groups.push(parts[2]);
    rest = parts[0];
  }
  groups.push(rest);
  return groups.reverse().flatMap((group) => readOne(reader, group));
}

function listParts(reader: Reader, node: number): readonly number[] | null {
  const inner = innermostEvent(reader, node);
  const parts = childrenOf(reader.tree, inner);
  return parts.length === 3 && separators.has(kindOf(reader.tree, parts[1])) ? parts : null;
}

function innermostEvent(reader: Reader, node: number): number {
  const children = childrenOf(reader.tree, node);
  return children.length === 1 && kindOf(reader.tree, children[0]) === 'event_expression'
    ? innermostEvent(reader, children[0])
    : node;
}

function readOne(reader: Reader, node: number): readonly Sensitivity[] {
  const inner = innermostEvent(reader, node);
  const parts = childrenOf(reader.tree, inner);
  const kinds = parts.map((part) => kindOf(reader.tree, part));
  if (kinds[0] === '(') return readNested(reader, parts[1]);
  if (kinds.includes('iff')) unsupported(reader, inner, 'iff');
  const hasEdge = kinds[0] === 'edge_identifier';
  const edge = hasEdge ? (textOf(reader, parts[0]) as 'posedge' | 'negedge' | 'edge') : null;
  return [
    {
      at: atOf(reader.tree, inner),
      edge,
      expression: readExpression(reader, hasEdge ? parts[1] : (parts[0] ?? inner)),
    },
  ];
}

/** A list in parentheses of its own. */
function readNested(reader: Reader, node: number): readonly Sensitivity[] {
  if (!mayDescend(reader, node)) return [];
  reader.depth += 1;
  const items = readList(reader, node);
  reader.depth -= 1;
  return items;
}

const marks: ReadonlySet<string> = new Set(['@', '(', ')']);
const separators: ReadonlySet<string> = new Set(['or', ',']);
