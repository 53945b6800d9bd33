// Typing in a document that a language server holds open, over real standard streams: one character at a time, now here, now
// there, and what is told of it. What the server does in between does not disturb others: it is held (signals of POSIX).

import type { DocumentDiagnosticReport, Position } from 'vscode-languageserver';
import type { TestClient } from '../editor/protocol/client';
import { begin, clients, end, serverCancelled } from '../editor/protocol/conversation';

export interface Document {
  readonly uri: string;
  readonly languageId: string;
  /** With one mistake, so that there is something to tell. */
  readonly text: string;
}

export interface Typist {
  /** Types a character or takes the last one away again. ms from the edit to the first findings. */
  type(): Promise<number>;
  /** The same, to all findings: a server may tell what it found in steps, and ask for a look at the next. */
  typeAndWait(): Promise<number>;
  /** The server's process stands still until it is asked again. */
  hold(): void;
  readonly process: number;
  end(): Promise<void>;
}

/** Opens the document and waits for its first findings. */
export async function openTypist(command: readonly string[], document: Document): Promise<Typist> {
  const { languageId, text, uri } = document;
  const client = await begin(command, { capabilities: clients.pulling });
  const pid = client.process.pid ?? 0;
  const places = placesIn(text);
  let edits = 0;
  let result: string | undefined;
  client.notify('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } });
  await pull();

  /** Whether more is going to be told. */
  async function pull(): Promise<{ readonly isWhole: boolean }> {
    const { items, resultId } = await pullOnce(client, uri, result);
    if (items !== undefined && items.length === 0) throw new Error(`nothing was found in ${uri}`);
    result = resultId;
    return { isWhole: resultId === undefined || !/ (?:reading|early)$/.test(resultId) };
  }

  function edit(): void {
    const start = places[Math.floor(edits / 2) % places.length];
    const isTyped = edits % 2 === 0;
    const end = isTyped ? start : { line: start.line, character: start.character + 1 };
    edits += 1;
    const textDocument = { uri, version: edits + 1 };
    const contentChanges = [{ range: { start, end }, text: isTyped ? '1' : '' }];
    client.notify('textDocument/didChange', { textDocument, contentChanges });
  }

  return {
    process: pid,
    async type() {
      process.kill(pid, 'SIGCONT');
      const before = performance.now();
      edit();
      await pull();
      return performance.now() - before;
    },
    async typeAndWait() {
      process.kill(pid, 'SIGCONT');
      let heard = client.said.length;
      const before = performance.now();
      edit();
      for (let step = await pull(); !step.isWhole; step = await pull()) {
        await client.heard(({ method }) => method === 'workspace/diagnostic/refresh', heard);
        heard = client.said.length;
      }
      return performance.now() - before;
    },
    hold: () => void process.kill(pid, 'SIGSTOP'),
    async end() {
      process.kill(pid, 'SIGCONT');
      await end(client);
    },
  };
}

async function pullOnce(client: TestClient, uri: string, previousResultId: string | undefined): Promise<Pulled> {
  for (;;) {
    const params = { textDocument: { uri }, ...(previousResultId === undefined ? {} : { previousResultId }) };
    const { error, result } = await client.request('textDocument/diagnostic', params);
    if (error === undefined) return result as Pulled;
    if (error.code !== serverCancelled) throw new Error(error.message);
  }
}

/** No items where nothing has changed. */
type Pulled = DocumentDiagnosticReport & { readonly items?: readonly unknown[] };

/** Behind a number, in eight parts of the text. */
function placesIn(text: string): readonly Position[] {
  const places = text.split('\n').flatMap((line, index) => {
    const number = /(?:8'd|\bauto )\d/.exec(line);
    return number === null ? [] : [{ line: index, character: number.index + number[0].length }];
  });
  return Array.from({ length: 8 }, (_, part) => places[Math.floor(((part + 0.5) / 8) * places.length)]);
}
