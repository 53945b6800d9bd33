// The worker's entry in Node: loads the grammar from beside the bundle, which begins at once, and listens. Only wires.

import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { parentPort } from 'node:worker_threads';
import { loadParser } from '../../grammar';
import { compileModule } from '../../module-compiler';
import { createBack } from './back';

// The grammar's scanner is one function so large that optimizing it takes as long as reading ten thousand lines, and fifty
// megabytes, just when the first findings are waited for. What is read while somebody types is short: `npm run bench` tells
// what the start costs. An engine that does not know the flag goes on without it.
setFlagsFromString('--liftoff-only');

const bytesOf = (name: string) => readFile(path.join(__dirname, name));

async function loadGrammar() {
  const [runtime, grammar] = await Promise.all(['web-tree-sitter.wasm', 'tree-sitter-systemverilog.wasm'].map(bytesOf));
  return loadParser({ runtime, grammar });
}

const port = parentPort;
if (port !== null) {
  const clockwork = { now: () => performance.now(), turn: (go: () => void) => void setImmediate(go) };
  port.on(
    'message',
    createBack({
      parser: loadGrammar(),
      compile: compileModule,
      clockwork,
      say: (message) => port.postMessage(message),
    }),
  );
}
