// Runs the back as a worker of Node. The first one starts as soon as this is called, so that the grammar loads while the
// rest of the server still does.

import { Worker } from 'node:worker_threads';
import type { Back, BackListener, StartBack } from './back-link';

/** `file`: the worker's bundle. */
export function nodeBack(file: string): StartBack {
  let early: Waiting | null = startWorker(file);
  return (listener) => {
    const started = early ?? startWorker(file);
    early = null;
    return started.adopt(listener);
  };
}

/** A worker that may have come to an end before anybody listened. */
interface Waiting {
  adopt(listener: BackListener): Back;
}

function startWorker(file: string): Waiting {
  const worker = new Worker(file);
  let why: string | null = null;
  worker.on('error', (error: unknown) => {
    why = error instanceof Error ? error.message : String(error);
  });
  const end = new Promise<string>((resolve) => worker.on('exit', (code) => resolve(why ?? `exit ${code}`)));
  return {
    adopt(listener) {
      worker.on('message', (message) => listener.hear(message));
      void end.then(listener.ended);
      return { post: (message) => worker.postMessage(message) };
    },
  };
}
