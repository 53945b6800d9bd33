// The world of Node: files of the machine, and the grammar from beside the bundle.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { loadParser } from '../grammar';
import { refuse } from '../report/refusal';
import type { World } from './world';

/** `bundleFolder` holds the two WebAssembly files; the package is one above. */
export function nodeWorld(bundleFolder: string): World {
  const wasm = (name: string) => readFileSync(path.join(bundleFolder, name));
  return {
    currentFolder: process.cwd(),
    packageFolder: path.dirname(bundleFolder),
    readText,
    writeText,
    loadParser: () =>
      loadParser({ runtime: wasm('web-tree-sitter.wasm'), grammar: wasm('tree-sitter-systemverilog.wasm') }),
    serve: () => becomeServer(path.join(bundleFolder, 'server.js')),
  };
}

/** A bundle of its own: the other commands do without the protocol's library. It reads `--stdio` from the arguments. */
async function becomeServer(bundle: string): Promise<never> {
  await import(pathToFileURL(bundle).href);
  return new Promise(() => {});
}

/** Bytes that are not UTF-8 become U+FFFD: reading then says where it stumbles, and a comment in another code is nothing. */
function readText(file: string): string | null {
  try {
    return new TextDecoder().decode(readFileSync(file));
  } catch {
    return null;
  }
}

function writeText(file: string, text: string): void {
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, text);
  } catch {
    refuse(`${file} cannot be written`);
  }
}
