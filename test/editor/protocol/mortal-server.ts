// The server with a worker that can be killed from outside: the same front and the same worker, and a parent process that
// says `kill`.

import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { StartBack } from '../../../server/src/editor/front/back-link';
import { serve } from '../../../server/src/editor/front/serve';

let running: Worker | null = null;

const startBack: StartBack = (listener) => {
  const worker = new Worker(path.join(__dirname, 'server-worker.js'));
  running = worker;
  worker.on('message', (message) => listener.hear(message));
  worker.on('exit', (code) => listener.ended(`exit ${code}`));
  return { post: (message) => worker.postMessage(message) };
};

process.on('message', (word) => {
  if (word === 'kill') void running?.terminate();
});

serve(startBack);
