// The edge's way to the grammar: the only importer of the parser library as a value. Loads the two
// WebAssembly modules it is handed and gives a ready parser. Reads no file itself.

import { Language, Parser, type Tree, type TreeCursor } from 'web-tree-sitter';
import { readLog } from './syntax/parse-log';
import { errorKind, type Failure, type SliceParser, type TreeWalk } from './syntax/slice-parser';
import { impossible } from './text/impossible';

/** The bytes of the parser's runtime and of the grammar. */
export interface GrammarBytes {
  readonly runtime: Uint8Array;
  readonly grammar: Uint8Array;
}

export async function loadParser(bytes: GrammarBytes): Promise<SliceParser> {
  const runtime = { wasmBinary: exactBuffer(bytes.runtime) };
  await Parser.init(runtime);
  const steps = stepsOf(runtime);
  const language = await Language.load(bytes.grammar);
  const parser = new Parser();
  parser.setLanguage(language);
  return {
    kinds: language.types,
    anonymous: language.types.map((_kind, id) => !language.nodeTypeIsNamed(id)),
    parse: (text) => parseText(parser, text),
    walk: (tree) => walkOf(steps, tree),
    firstFailure: (text) => findFirstFailure(parser, text),
  };
}

function parseText(parser: Parser, text: string): Tree {
  return parser.parse(text) ?? impossible('the parser stopped although nothing asked it to');
}

/**
 * The runtime's own functions, which the library hangs on the options it is begun with. Its cursor carries its state over to
 * the runtime and back at every step, though it stays there: that took more than twice as long as the steps themselves.
 */
type Steps = Readonly<Record<(typeof stepNames)[number], (tree: number) => number>>;

const stepNames = [
  '_ts_tree_root_node_wasm',
  '_ts_tree_cursor_new_wasm',
  '_ts_tree_cursor_current_node_type_id_wasm',
  '_ts_tree_cursor_start_index_wasm',
  '_ts_tree_cursor_end_index_wasm',
  '_ts_tree_cursor_goto_first_child_wasm',
  '_ts_tree_cursor_goto_next_sibling_wasm',
  '_ts_tree_cursor_goto_parent_wasm',
  '_ts_tree_cursor_delete_wasm',
] as const;

function stepsOf(runtime: object): Steps {
  const found = runtime as Partial<Steps>;
  const missing = stepNames.find((name) => typeof found[name] !== 'function');
  if (missing !== undefined) impossible(`the parser's runtime has no ${missing}: not the version this was made for`);
  return found as Steps;
}

/** The runtime keeps in one place what it was asked last, the root at first and then the cursor: nobody else may ask between. */
function walkOf(steps: Steps, tree: Tree): TreeWalk {
  // The library keeps the tree's address in the runtime's memory as its property 0, and says nothing of it in its types.
  const address = (tree as unknown as readonly [number])[0];
  steps._ts_tree_root_node_wasm(address);
  steps._ts_tree_cursor_new_wasm(address);
  return {
    kind: () => steps._ts_tree_cursor_current_node_type_id_wasm(address),
    start: () => steps._ts_tree_cursor_start_index_wasm(address),
    end: () => steps._ts_tree_cursor_end_index_wasm(address),
    down: () => steps._ts_tree_cursor_goto_first_child_wasm(address) === 1,
    next: () => steps._ts_tree_cursor_goto_next_sibling_wasm(address) === 1,
    up: () => steps._ts_tree_cursor_goto_parent_wasm(address) === 1,
    close: () => void steps._ts_tree_cursor_delete_wasm(address),
  };
}

/** Listening to the parser's log costs many times what parsing does: long texts are answered from the tree. */
const longestLogged = 20_000;

function findFirstFailure(parser: Parser, text: string): Failure | null {
  if (text.length > longestLogged) return findFirstError(parser, text);
  const log = readLog(text);
  parser.setLogger(log.hear);
  // How the parser would go on behind the failure is of no use.
  const tree = parser.parse(text, null, { progressCallback: () => log.failure() !== null });
  parser.setLogger(null);
  if (tree === null) parser.reset();
  const damaged = tree === null || tree.rootNode.hasError;
  tree?.delete();
  return damaged ? (log.failure() ?? { start: text.length, end: text.length }) : null;
}

/** The first stretch that the parser skipped or made up; often a little before or behind the token it failed at. */
function findFirstError(parser: Parser, text: string): Failure | null {
  const tree = parseText(parser, text);
  const cursor = tree.walk();
  let failure: Failure | null = null;
  for (let more = tree.rootNode.hasError; more; more = failure === null && nextNode(cursor)) {
    const isError = cursor.nodeTypeId === errorKind || cursor.nodeIsMissing;
    if (isError) failure = { start: cursor.startIndex, end: cursor.endIndex };
  }
  cursor.delete();
  tree.delete();
  return failure;
}

/** To the next node in reading order; false behind the last. */
function nextNode(cursor: TreeCursor): boolean {
  if (cursor.currentNode.hasError && cursor.gotoFirstChild()) return true;
  while (!cursor.gotoNextSibling()) if (!cursor.gotoParent()) return false;
  return true;
}

function exactBuffer(bytes: Uint8Array): ArrayBuffer {
  const copy = new ArrayBuffer(bytes.byteLength);
  new Uint8Array(copy).set(bytes);
  return copy;
}
