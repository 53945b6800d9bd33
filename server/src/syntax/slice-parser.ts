// What reading needs of a parser: it is handed in ready, so that nothing below the edge loads one. The tree
// lives outside the language's own memory; whoever asks for one deletes it.

import type { Tree } from 'web-tree-sitter';

export interface SliceParser {
  /** Kinds of node by the grammar's number; `errorKind` is not among them. */
  readonly kinds: readonly string[];
  /** Whether a kind is a word or mark of the language itself: such a node has nothing below it. */
  readonly anonymous: readonly boolean[];
  /** The tree of `text`; damaged text has a tree too. */
  parse(text: string): Tree;
  /** Begins at the root. One walk at a time: nothing else is asked of the parser before it is closed. */
  walk(tree: Tree): TreeWalk;
  /** The first token that no reading of `text` allows, as a stretch of it; null where the text is whole. */
  firstFailure(text: string): Failure | null;
}

/** Where a walk through a tree stands, and its steps from there: false where there is no way, and then nothing has moved. */
export interface TreeWalk {
  /** By the grammar's number, or `errorKind`. */
  kind(): number;
  /** Offsets in the text. */
  start(): number;
  end(): number;
  /** To the first child. */
  down(): boolean;
  /** To the next sibling. */
  next(): boolean;
  up(): boolean;
  close(): void;
}

export interface Failure {
  readonly start: number;
  readonly end: number;
}

/** The grammar's number for a stretch that it had to skip. */
export const errorKind = 65535;
