// The front's line to the worker: tells it what changed, asks it, and starts it anew when it comes to an end, with what was
// open. A question under way is then answered as failed; one worker after another that dies at once is not tried for ever.

import type { FindFilesReply, FindFilesRequest } from '../file-messages';
import type { Answer, BackMessage, FrontMessage, Question } from '../worker-messages';

/** A running worker. */
export interface Back {
  post(message: FrontMessage): void;
}

export interface BackListener {
  hear(message: BackMessage): void;
  /** Once, when it has come to an end by itself. */
  ended(why: string): void;
}

export type StartBack = (listener: BackListener) => Back;

export interface LinkEvents {
  /** Reads a file that is not open. Never rejects. */
  readFile(uri: string): Promise<string | null>;
  /** Lists the files of a folder. Never rejects. */
  findFiles(request: FindFilesRequest): Promise<FindFilesReply>;
  /** Something that a person should know. */
  notice(words: string): void;
  changed(documents: readonly string[], edited: string | null): void;
  /** What a new worker is to be told. */
  memory(): readonly FrontMessage[];
  /** A new worker runs and has been told. */
  restarted(): void;
  /** The worker ended so often that no new one is started before the next change of a text. */
  gaveUp(why: string): void;
}

/** unavailable: the worker came to an end. */
export type LinkAnswer = Answer | { readonly kind: 'failed'; readonly reason: 'unavailable'; readonly words: string };

export interface BackLink {
  tell(message: FrontMessage): void;
  ask(question: Question): Pending<LinkAnswer>;
}

export interface Pending<Result> {
  readonly answer: Promise<Result>;
  /** Nobody waits any more. */
  cancel(): void;
}

/** Deaths within this time, ms, that count as one illness. */
const illness = 60_000;
const deathsBorne = 3;

export function linkBack(start: StartBack, events: LinkEvents): BackLink {
  const waiting = new Map<number, (answer: LinkAnswer) => void>();
  const deaths: number[] = [];
  let last = 0;
  let back: Back | null = begin();

  function begin(): Back {
    return start({ hear, ended });
  }

  function hear(message: BackMessage): void {
    switch (message.kind) {
      case 'answer':
        waiting.get(message.id)?.(message.answer);
        waiting.delete(message.id);
        break;
      case 'changed':
        events.changed(message.documents, message.edited);
        break;
      case 'read': {
        const { number, uri } = message;
        const reader = back;
        void events.readFile(uri).then((text) => reader?.post({ kind: 'file', number, text }));
        break;
      }
      case 'list': {
        const { number, request } = message;
        const lister = back;
        void events.findFiles(request).then((reply) => lister?.post({ kind: 'listed', number, reply }));
        break;
      }
      case 'notice':
        events.notice(message.words);
        break;
    }
  }

  function ended(why: string): void {
    back = null;
    const words = `the worker came to an end: ${why}`;
    for (const answer of waiting.values()) answer({ kind: 'failed', reason: 'unavailable', words });
    waiting.clear();
    const now = Date.now();
    deaths.push(now);
    if (deaths.filter((at) => now - at < illness).length > deathsBorne) events.gaveUp(why);
    else restart();
  }

  function restart(): Back {
    const started = begin();
    back = started;
    for (const message of events.memory()) started.post(message);
    events.restarted();
    return started;
  }

  return {
    tell(message) {
      if (back !== null) back.post(message);
      // The memory that a new worker is told holds this message too.
      else if (message.kind === 'text') restart();
    },
    ask(question) {
      last += 1;
      const id = last;
      const running = back;
      if (running === null) {
        const failed = { kind: 'failed', reason: 'unavailable', words: 'the worker came to an end' } as const;
        return { answer: Promise.resolve(failed), cancel: () => {} };
      }
      const answer = new Promise<LinkAnswer>((resolve) => waiting.set(id, resolve));
      running.post({ kind: 'ask', id, question });
      return { answer, cancel: () => running.post({ kind: 'cancel', id }) };
    },
  };
}
