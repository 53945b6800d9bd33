// The parser's tree in columns of our own, in reading order, so that reading may look ahead and back without
// asking the parser again. A node's children are the nodes between it and `after`.

import type { UnitOffset } from '../text/place';
import { errorKind } from './slice-parser';
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

export const none = -1;

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
