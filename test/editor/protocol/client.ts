// A plain client of the protocol: writes and reads messages over a process's standard streams (protocol 3.17, Base Protocol)
// and knows nothing of the server but its command line. Keeps what the server says by itself.

import { type ChildProcess, spawn } from 'node:child_process';

export interface Reply {
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string; readonly data?: unknown };
}

export interface Said {
  readonly method: string;
  readonly params: unknown;
}

type AnswerOfClient = (params: never) => unknown;

export interface TestClient {
  readonly process: ChildProcess;
  /** Notifications and requests of the server, in order. */
  readonly said: readonly Said[];
  request(method: string, params?: unknown): Promise<Reply>;
  /** The number of the request, to cancel it, beside its answer. */
  send(method: string, params?: unknown): { readonly id: number; readonly reply: Promise<Reply> };
  notify(method: string, params?: unknown): void;
  /** Sends bytes as they are. */
  write(bytes: Buffer): void;
  /** Answers requests of the server by method; one that is not named here is answered with null. */
  answer(method: string, answer: AnswerOfClient): void;
  /** Waits for something that the server says by itself, from now on or earlier behind `from`. */
  heard(matches: (said: Said) => boolean, from?: number): Promise<Said>;
  /** Waits for the end of the process and gives its exit code. */
  ended(): Promise<number | null>;
  /** What stood on standard error. */
  complaints(): string;
}

/** The streams of the protocol, and a channel beside them for what tests say to the process itself. */
export function startClient(command: readonly string[]): TestClient {
  const child = spawn(process.execPath, [...command], { stdio: ['pipe', 'pipe', 'pipe', 'ipc'] });
  const waiting = new Map<number, (reply: Reply) => void>();
  const answers = new Map<string, AnswerOfClient>();
  const said: Said[] = [];
  const listeners = new Set<() => void>();
  const end = new Promise<number | null>((resolve) => child.on('exit', resolve));
  let complaints = '';
  let last = 0;

  child.stderr?.on('data', (bytes: Buffer) => {
    complaints += bytes.toString('utf8');
  });
  readMessages(child, (message) => {
    const { error, id, method, params, result } = message;
    if (method === undefined) {
      waiting.get(Number(id))?.({ ...(error === undefined ? { result } : { error }) } as Reply);
      waiting.delete(Number(id));
      return;
    }
    said.push({ method, params });
    if (id !== undefined) write({ id, result: answers.get(method)?.(params as never) ?? null });
    for (const listener of [...listeners]) listener();
  });

  function write(message: object): void {
    child.stdin?.write(framed(JSON.stringify({ jsonrpc: '2.0', ...message })));
  }

  function send(method: string, params?: unknown): { readonly id: number; readonly reply: Promise<Reply> } {
    last += 1;
    const id = last;
    const reply = new Promise<Reply>((resolve) => waiting.set(id, resolve));
    write({ id, method, ...(params === undefined ? {} : { params }) });
    return { id, reply };
  }

  return {
    process: child,
    said,
    send,
    request: (method, params) => send(method, params).reply,
    notify: (method, params) => write({ method, ...(params === undefined ? {} : { params }) }),
    write: (bytes) => void child.stdin?.write(bytes),
    answer: (method, answer) => void answers.set(method, answer),
    heard: (matches, from = 0) =>
      new Promise((resolve) => {
        const look = () => {
          const found = said.slice(from).find(matches);
          if (found === undefined) return;
          listeners.delete(look);
          resolve(found);
        };
        listeners.add(look);
        look();
      }),
    ended: () => end,
    complaints: () => complaints,
  };
}

/** The length counts bytes, not characters. */
export function framed(content: string): Buffer {
  const body = Buffer.from(content, 'utf8');
  return Buffer.concat([Buffer.from(`Content-Length: ${body.length}\r\n\r\n`, 'ascii'), body]);
}

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: Reply['error'];
}

function readMessages({ stdout }: ChildProcess, hear: (message: Message) => void): void {
  let held = Buffer.alloc(0);
  stdout?.on('data', (bytes: Buffer) => {
    held = Buffer.concat([held, bytes]);
    for (;;) {
      const head = held.indexOf('\r\n\r\n');
      if (head < 0) return;
      const length = /^Content-Length: (\d+)$/im.exec(held.subarray(0, head).toString('ascii'));
      if (length === null) throw new Error('a message without a length');
      const end = head + 4 + Number(length[1]);
      if (held.length < end) return;
      const message = JSON.parse(held.subarray(head + 4, end).toString('utf8'));
      held = held.subarray(end);
      hear(message);
    }
  });
}
