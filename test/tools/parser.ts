// A ready parser for tests: both WebAssembly modules loaded once a test process, from the installed packages.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { loadParser } from '../../server/src/grammar';
import type { SliceParser } from '../../server/src/syntax/slice-parser';

let loading: Promise<SliceParser> | null = null;

export function readyParser(): Promise<SliceParser> {
  loading ??= load();
  return loading;
}

async function load(): Promise<SliceParser> {
  const find = createRequire(import.meta.url).resolve;
  const runtime = await readFile(find('web-tree-sitter/web-tree-sitter.wasm'));
  const grammar = await readFile(find('tree-sitter-systemverilog/tree-sitter-systemverilog.wasm'));
  return loadParser({ runtime, grammar });
}
