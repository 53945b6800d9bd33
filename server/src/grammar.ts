// The edge's way to the grammar: the only importer of the parser library as a value. Loads the two
// WebAssembly modules it is handed and gives a ready parser. Reads no file itself.

import { Language, Parser, type Tree } from 'web-tree-sitter';
import { readLog } from './syntax/parse-log';
import type { Failure, SliceParser } from './syntax/slice-parser';
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
    parse: (text) => parseText(parser, text),
    firstFailure: (text) => findFirstFailure(parser, text),
  };
}

function parseText(parser: Parser, text: string): Tree {
  return parser.parse(text) ?? impossible('the parser stopped although nothing asked it to');
}

function findFirstFailure(parser: Parser, text: string): Failure | null {
  const log = readLog(text);
  parser.setLogger(log.hear);
  const tree = parseText(parser, text);
  parser.setLogger(null);
  const damaged = tree.rootNode.hasError;
  tree.delete();
  return damaged ? (log.failure() ?? { start: text.length, end: text.length }) : null;
}

function exactBuffer(bytes: Uint8Array): ArrayBuffer {
  const copy = new ArrayBuffer(bytes.byteLength);
  new Uint8Array(copy).set(bytes);
  return copy;
}
