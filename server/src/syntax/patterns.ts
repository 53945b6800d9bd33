// Assignment patterns and streams (IEEE 1800-2017 10.9, 11.4.14) as the grammar gives them.

import { atOf, childOf, childrenOf, childrenOfKind, type FlatTree, isLeaf, kindOf, none, unwrap } from './flat-tree';
import { nameOf } from './names';
import { type Reader, textOf } from './reader';
import type { Expression, PatternEntry } from './tables';

/** Reads the expressions inside; handed in, so that they and their parts need not know each other. */
export type ExpressionReader = (reader: Reader, node: number) => Expression;

/** `node` is a pattern, with or without a type before it. */
export function readPattern(reader: Reader, node: number, read: ExpressionReader): Expression {
  const at = atOf(reader.tree, node);
  const isBare = kindOf(reader.tree, node) === 'assignment_pattern';
  const pattern = isBare ? node : childOf(reader.tree, node, 'assignment_pattern');
  const type = isBare ? null : readTypeBefore(reader, node, pattern);
  const parts = childrenOf(reader.tree, pattern);
  const brace = parts.findIndex((part) => kindOf(reader.tree, part) === '{');
  if (brace > 0) {
    const entries = readEntries(reader, parts.slice(brace + 1), read);
    return { kind: 'pattern', at, type, count: read(reader, parts[brace - 1]), entries };
  }
  return { kind: 'pattern', at, type, count: null, entries: readEntries(reader, parts.slice(1), read) };
}

function readTypeBefore(reader: Reader, node: number, pattern: number): Expression | null {
  const before = childrenOf(reader.tree, node).filter((part) => part < pattern);
  const [first, second] = before;
  if (first === undefined) return null;
  const at = { start: atOf(reader.tree, first).start, end: atOf(reader.tree, before[before.length - 1]).end };
  if (kindOf(reader.tree, first) === 'package_scope' && second !== undefined)
    return { kind: 'scoped', at, scope: nameOf(reader, first + 1), name: nameOf(reader, unwrap(reader.tree, second)) };
  return { kind: 'name', at, name: textOf(reader, first) };
}

/** value, or key: value; between commas, up to the closing brace. */
function readEntries(reader: Reader, parts: readonly number[], read: ExpressionReader): readonly PatternEntry[] {
  const entries: PatternEntry[] = [];
  for (let index = 0; index < parts.length; index += 1) {
    if (marks.has(kindOf(reader.tree, parts[index]))) continue;
    const hasKey = index + 2 < parts.length && kindOf(reader.tree, parts[index + 1]) === ':';
    const key = hasKey ? readKey(reader, parts[index], read) : null;
    if (hasKey) index += 2;
    entries.push({ key, value: read(reader, parts[index]) });
  }
  return entries;
}

/** `default`, a member's name, a type's, or an index. */
function readKey(reader: Reader, node: number, read: ExpressionReader): PatternEntry['key'] {
  const text = textOf(reader, node);
  if (text === 'default') return 'default';
  if (kindOf(reader.tree, node) === 'assignment_pattern_key' && /^[a-z]+$/.test(text))
    return { kind: 'name', at: atOf(reader.tree, node), name: text };
  return read(reader, node);
}

const marks: ReadonlySet<string> = new Set([',', '}', "'{"]);

/** {<<size{…}}, {>>{…}} */
export function readStream(reader: Reader, node: number, read: ExpressionReader): Expression {
  const { tree } = reader;
  const operator = childOf(tree, node, 'stream_operator');
  const size = childOf(tree, node, 'slice_size');
  const inner = childOf(tree, node, 'stream_concatenation');
  const parts = inner === none ? [] : childrenOfKind(tree, inner, 'stream_expression');
  return {
    kind: 'stream',
    at: atOf(tree, node),
    reversed: textOf(reader, operator) === '<<',
    size: size === none ? null : readSize(reader, size, read),
    parts: parts.map((part) => read(reader, withoutWith(tree, part))),
  };
}

/** A number, or a type that gives its width. */
function readSize(reader: Reader, node: number, read: ExpressionReader): Expression {
  const word = textOf(reader, node);
  return /^[a-z]+$/.test(word) ? { kind: 'name', at: atOf(reader.tree, node), name: word } : read(reader, node);
}

function withoutWith(tree: FlatTree, node: number): number {
  return isLeaf(tree, node) ? node : node + 1;
}

/** '{a, b} left of an assignment: its parts as those of a concatenation, with the widths that they have. */
export function readPatternTarget(reader: Reader, node: number, read: ExpressionReader): Expression {
  const parts = childrenOf(reader.tree, node).filter((part) => !marks.has(kindOf(reader.tree, part)));
  return { kind: 'concat', at: atOf(reader.tree, node), parts: parts.map((part) => read(reader, part)) };
}
