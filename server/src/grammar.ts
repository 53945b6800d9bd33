// The edge's way to the grammar: the only importer of the parser library as a value. Loads the two
// WebAssembly modules it is handed and gives a ready parser. Reads no file itself.

import { Language, Parser, type Tree, type TreeCursor } from 'web-tree-sitter';
import { readLog } from './syntax/parse-log';
import { errorKind, type Failure, type SliceParser } from './syntax/slice-parser';
import { impossible } from './text/impossible';

/** The bytes of the parser's runtime and of the grammar. */
export interface GrammarBytes {
  readonly runtime: Uint8Array;
  readonly grammar: Uint8Array;
}

export async function loadParser(bytes: GrammarBytes): Promise<SliceParser> {
  await Parser.init({ wasmBinary: exactBuffer(bytes.runtime) });
  const language = await Language.load(bytes.grammar);
  const parser = new Parser();
  parser.setLanguage(language);
  return {
    kinds: language.types,
    anonymous: language.types.map((_kind, id) => !language.nodeTypeIsNamed(id)),
    parse: (text) => parseText(parser, text),
    firstFailure: (text) => findFirstFailure(parser, text),
  };
}

function parseText(parser: Parser, text: string): Tree {
  return parser.parse(text) ?? impossible('the parser stopped although nothing asked it to');
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
