// The language server: a protocol thread, and a worker that loads the grammar from the first moment on. Only wires.

import path from 'node:path';
import { nodeBack } from './editor/front/node-back';

const back = nodeBack(path.join(__dirname, 'server-worker.js'));
// Behind the worker's start: the protocol's library takes longer to load than a worker to begin.
void import('./editor/front/serve').then(({ serve }) => serve(back));
