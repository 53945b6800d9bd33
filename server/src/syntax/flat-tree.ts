// The parser's tree copied into columns of our own, in reading order, so that reading may look ahead and back
// without asking the parser again. Comments and attributes are left out. A node's children are the nodes
// between it and `after`.

import type { Tree, TreeCursor } from 'web-tree-sitter';
import type { UnitOffset } from '../text/place';
import { errorKind, type SliceParser } from './slice-parser';
import type { At } from './tables';

export interface FlatTree {
  readonly kinds: readonly string[];
  /** Index into `kinds`, or `errorKind`. */
  readonly kind: Uint16Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** Index behind the last node below this one. */
  readonly after: Int32Array;
  readonly length: number;
  readonly damaged: boolean;
}

/** Translates an offset of the parsed text; called with rising offsets. */
export type OffsetMap = (offset: number) => number;

export const none = -1;

/** Parses `text` and copies its tree; the parser's own tree is gone when this returns. */
export function parseFlat(parser: SliceParser, text: string, toUnit: OffsetMap): FlatTree {
  const tree = parser.parse(text);
  const flat = copyTree(tree, parser.kinds, toUnit);
  tree.delete();
  return flat;
}

export function kindOf(tree: FlatTree, node: number): string {
  const kind = tree.kind[node];
  return kind === errorKind ? 'ERROR' : tree.kinds[kind];
}

export function isLeaf(tree: FlatTree, node: number): boolean {
  return tree.after[node] === node + 1;
}

export function childrenOf(tree: FlatTree, node: number): readonly number[] {
  const children: number[] = [];
  const end = tree.after[node];
  for (let child = node + 1; child < end; child = tree.after[child]) children.push(child);
  return children;
}

/** The first child of that kind, or `none`. */
export function childOf(tree: FlatTree, node: number, kind: string): number {
  const end = tree.after[node];
  for (let child = node + 1; child < end; child = tree.after[child]) {
    if (kindOf(tree, child) === kind) return child;
  }
  return none;
}

/** The first child of one of those kinds, or `none`. */
export function childAmong(tree: FlatTree, node: number, kinds: ReadonlySet<string>): number {
  const end = tree.after[node];
  for (let child = node + 1; child < end; child = tree.after[child]) {
    if (kinds.has(kindOf(tree, child))) return child;
  }
  return none;
}

export function childrenOfKind(tree: FlatTree, node: number, kind: string): readonly number[] {
  return childrenOf(tree, node).filter((child) => kindOf(tree, child) === kind);
}

/** The node itself, or what it holds where each level down holds one thing only. */
export function unwrap(tree: FlatTree, node: number): number {
  let inner = node;
  while (inner + 1 < tree.after[inner] && tree.after[inner + 1] === tree.after[inner]) inner += 1;
  return inner;
}

/** As `unwrap`, but no further than a node of that kind; `none` where there is none on the way. */
export function unwrapTo(tree: FlatTree, node: number, kind: string): number {
  for (let inner = node; ; inner += 1) {
    if (kindOf(tree, inner) === kind) return inner;
    if (inner + 1 >= tree.after[inner] || tree.after[inner + 1] !== tree.after[inner]) return none;
  }
}

export function atOf(tree: FlatTree, node: number): At {
  return { start: tree.start[node] as UnitOffset, end: tree.end[node] as UnitOffset };
}

/** These mean nothing to the tables. */
const leftOut: ReadonlySet<string> = new Set(['one_line_comment', 'block_comment', 'attribute_instance']);
/** Taken whole: the grammar's inner tokens of these leave gaps. */
const takenWhole: ReadonlySet<string> = new Set(['escaped_identifier', 'quoted_string', 'triple_quoted_string']);

interface Columns {
  kind: Uint16Array;
  start: Int32Array;
  end: Int32Array;
  after: Int32Array;
  length: number;
}

function copyTree(tree: Tree, kinds: readonly string[], toUnit: OffsetMap): FlatTree {
  const columns = emptyColumns();
  const cursor = tree.walk();
  const open: number[] = [];
  for (let more = true; more; ) {
    const kind = cursor.nodeTypeId;
    const name = kind === errorKind ? 'ERROR' : kinds[kind];
    if (!leftOut.has(name)) {
      const node = appendNode(columns, kind);
      if (!takenWhole.has(name) && cursor.gotoFirstChild()) {
        open.push(node);
        continue;
      }
      columns.start[node] = toUnit(cursor.startIndex);
      columns.end[node] = toUnit(cursor.endIndex);
    }
    more = advance(cursor, columns, open);
  }
  cursor.delete();
  return { ...columns, kinds, damaged: tree.rootNode.hasError };
}

/** To the next sibling of this node or of the nearest one above that has one, closing what is left behind. */
function advance(cursor: TreeCursor, columns: Columns, open: number[]): boolean {
  while (!cursor.gotoNextSibling()) {
    if (!cursor.gotoParent()) return false;
    closeNode(columns, open.pop() ?? 0);
  }
  return true;
}

/** A node reaches from its first leaf to its last one; one whose leaves are all left out, nowhere. */
function closeNode(columns: Columns, node: number): void {
  const isEmpty = columns.length === node + 1;
  const before = node === 0 ? 0 : columns.end[node - 1];
  columns.after[node] = columns.length;
  columns.start[node] = isEmpty ? before : columns.start[node + 1];
  columns.end[node] = isEmpty ? before : columns.end[columns.length - 1];
}

function appendNode(columns: Columns, kind: number): number {
  const node = columns.length;
  if (node === columns.kind.length) grow(columns);
  columns.kind[node] = kind;
  columns.after[node] = node + 1;
  columns.length = node + 1;
  return node;
}

function emptyColumns(): Columns {
  const size = 1024;
  return {
    kind: new Uint16Array(size),
    start: new Int32Array(size),
    end: new Int32Array(size),
    after: new Int32Array(size),
    length: 0,
  };
}

function grow(columns: Columns): void {
  const size = columns.kind.length * 2;
  columns.kind = extended(new Uint16Array(size), columns.kind);
  columns.start = extended(new Int32Array(size), columns.start);
  columns.end = extended(new Int32Array(size), columns.end);
  columns.after = extended(new Int32Array(size), columns.after);
}

function extended<Column extends Uint16Array | Int32Array>(column: Column, old: Column): Column {
  column.set(old);
  return column;
}
