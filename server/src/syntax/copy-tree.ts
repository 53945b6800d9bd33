// Copies the parser's tree into columns, once, with one walk. Comments and attributes are left out. Crossing
// to the parser is what costs: an expression that is one name or one number is told from its text, and words
// are not asked for children.

import type { FlatTree } from './flat-tree';
import { isKeyword } from './keywords';
import { errorKind, type SliceParser, type TreeWalk } from './slice-parser';
import { isWordPart, isWordStart } from './tokens';

/** Translates an offset of the parsed text; called with rising offsets. */
export type OffsetMap = (offset: number) => number;

/** A parser with the columns that each of its trees is copied into: a tree holds until the next one. */
export interface TreeCopier {
  readonly parser: SliceParser;
  readonly treatments: readonly Treatment[];
  readonly nameKind: number;
  readonly numberKind: number;
  readonly columns: Columns;
}

/** How a kind is copied: with what is below it, without, not at all, or from its text where that is one word. */
type Treatment = 'whole' | 'leaf' | 'out' | 'word';

interface Columns {
  kind: Uint16Array;
  start: Int32Array;
  end: Int32Array;
  after: Int32Array;
  length: number;
}

/** One for a parser: a tree is read before the next is copied. */
export function copierOf(parser: SliceParser): TreeCopier {
  const known = copiers.get(parser);
  if (known !== undefined && known.columns.kind.length <= mostKept) return known;
  const copier = openCopier(parser);
  copiers.set(parser, copier);
  return copier;
}

const copiers = new WeakMap<SliceParser, TreeCopier>();
/** Nodes. What a very large module has asked for is given back. */
const mostKept = 1 << 20;

function openCopier(parser: SliceParser): TreeCopier {
  const { kinds, anonymous } = parser;
  return {
    parser,
    treatments: kinds.map((kind, index) => (anonymous[index] ? 'leaf' : (treatments.get(kind) ?? 'whole'))),
    nameKind: kinds.indexOf('simple_identifier'),
    numberKind: kinds.indexOf('unsigned_number'),
    columns: emptyColumns(),
  };
}

/** Parses `text` and copies its tree; the parser's own tree is gone when this returns. */
export function parseFlat(copier: TreeCopier, text: string, toUnit: OffsetMap): FlatTree {
  const tree = copier.parser.parse(text);
  const walk = copier.parser.walk(tree);
  copyNodes(copier, walk, text, toUnit);
  walk.close();
  const damaged = tree.rootNode.hasError;
  tree.delete();
  return { ...copier.columns, kinds: copier.parser.kinds, damaged };
}

function copyNodes(copier: TreeCopier, walk: TreeWalk, text: string, toUnit: OffsetMap): void {
  const { columns, treatments } = copier;
  const open: number[] = [];
  columns.length = 0;
  for (let more = true; more; ) {
    const kind = walk.kind();
    const treatment = kind === errorKind ? 'whole' : treatments[kind];
    const isWord = treatment === 'word' && copyWord(copier, walk, kind, text, toUnit);
    if (treatment !== 'out' && !isWord) {
      const node = appendNode(columns, kind);
      if (treatment !== 'leaf' && walk.down()) {
        open.push(node);
        continue;
      }
      columns.start[node] = toUnit(walk.start());
      columns.end[node] = toUnit(walk.end());
    }
    more = advance(walk, columns, open);
  }
}

/** To the next sibling of this node or of the nearest one above that has one, closing what is left behind. */
function advance(walk: TreeWalk, columns: Columns, open: number[]): boolean {
  while (!walk.next()) {
    if (!walk.up()) return false;
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

/** A node whose text is one name or one decimal number becomes itself and that word. False where it is more. */
function copyWord(copier: TreeCopier, walk: TreeWalk, kind: number, text: string, toUnit: OffsetMap): boolean {
  const start = walk.start();
  const end = walk.end();
  const word = wordKind(copier, text, start, end);
  if (word === 0) return false;
  const { columns } = copier;
  const node = appendNode(columns, kind);
  const leaf = appendNode(columns, word);
  columns.after[node] = columns.length;
  columns.start[node] = toUnit(start);
  columns.start[leaf] = columns.start[node];
  columns.end[node] = toUnit(end);
  columns.end[leaf] = columns.end[node];
  return true;
}

/** The kind of the one word that the stretch is; 0 where it is none. */
function wordKind({ nameKind, numberKind }: TreeCopier, text: string, start: number, end: number): number {
  if (end - start > longestWord || start === end) return 0;
  const isName = isWordStart(text.charCodeAt(start));
  for (let offset = start; offset < end; offset += 1) {
    const code = text.charCodeAt(offset);
    if (isName ? !isWordPart(code) : !isDecimal(code, offset > start)) return 0;
  }
  if (!isName) return numberKind;
  return isKeyword(text.slice(start, end)) ? 0 : nameKind;
}

function isDecimal(code: number, underscore: boolean): boolean {
  return (code >= 0x30 && code <= 0x39) || (underscore && code === 0x5f);
}

/** Looking at every character of long expressions again at every level would be slow. */
const longestWord = 64;

function appendNode(columns: Columns, kind: number): number {
  const node = columns.length;
  if (node === columns.kind.length) grow(columns);
  columns.kind[node] = kind;
  columns.after[node] = node + 1;
  columns.length = node + 1;
  return node;
}

function emptyColumns(): Columns {
  const size = 16_384;
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

const treatments: ReadonlyMap<string, Treatment> = new Map<string, Treatment>([
  ['one_line_comment', 'out'],
  ['block_comment', 'out'],
  ['attribute_instance', 'out'],
  // The grammar's inner tokens of these leave gaps.
  ['escaped_identifier', 'leaf'],
  ['quoted_string', 'leaf'],
  ['triple_quoted_string', 'leaf'],
  ['simple_identifier', 'leaf'],
  ['unsigned_number', 'leaf'],
  ['fixed_point_number', 'leaf'],
  ['binary_base', 'leaf'],
  ['octal_base', 'leaf'],
  ['decimal_base', 'leaf'],
  ['hex_base', 'leaf'],
  ['binary_value', 'leaf'],
  ['octal_value', 'leaf'],
  ['hex_value', 'leaf'],
  ['system_tf_identifier', 'leaf'],
  ['expression', 'word'],
  ['constant_expression', 'word'],
  ['primary', 'word'],
  ['constant_primary', 'word'],
  ['net_lvalue', 'word'],
  ['variable_lvalue', 'word'],
]);
