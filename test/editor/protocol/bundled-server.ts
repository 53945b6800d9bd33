// The server as it is shipped, bundled afresh into a folder of its own: what runs is the source as it stands, whatever an
// earlier build has left behind.

import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { packGrammar } from '../../../client/pack-grammar.mjs';

/** The repository, for who runs from its source. */
const ownRoot = fileURLToPath(new URL('../../..', import.meta.url));
const { resolve } = createRequire(import.meta.url);

export interface BundledServer {
  readonly folder: string;
  /** Path of a bundle: `server.js`, `mortal-server.js`, `cli.js`. */
  path(name: string): string;
  remove(): void;
}

export function bundleServer(root: string = ownRoot): BundledServer {
  const folder = mkdtempSync(path.join(tmpdir(), 'foretick-server-'));
  const entries = {
    server: 'server/src/main.ts',
    'server-worker': 'server/src/editor/back/worker.ts',
    cli: 'server/src/cli/main.ts',
    'mortal-server': 'test/editor/protocol/mortal-server.ts',
  };
  buildSync({
    absWorkingDir: root,
    entryPoints: entries,
    outdir: folder,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    alias: { 'web-tree-sitter': resolve('web-tree-sitter') },
  });
  copyFileSync(resolve('web-tree-sitter/web-tree-sitter.wasm'), path.join(folder, 'web-tree-sitter.wasm'));
  const grammar = readFileSync(resolve('tree-sitter-systemverilog/tree-sitter-systemverilog.wasm'));
  writeFileSync(path.join(folder, 'tree-sitter-systemverilog.wasm'), packGrammar(grammar));
  return {
    folder,
    path: (name) => path.join(folder, name),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
