// From the start of a language server to its first findings, and the memory of its processes by then: ours, of findings of
// reading, against the CSS server that editors ship (package vscode-langservers-extracted). Both are started afresh by one
// plain client, in turn; both are asked for the diagnostics of one document, of as many characters, with one mistake near
// its end. A person waits for this, so time is told as the clock shows it, not as CPU time.

import { bundleServer } from '../editor/protocol/bundled-server';
import { begin, clients, end } from '../editor/protocol/conversation';
import type { Claim } from './claim';
import { manyModules } from './designs';
import { median } from './interleave';
import { peakOfTree } from './process-tree';
import { cssServerCommand, stylesOfLength } from './style-sheet';

interface Server {
  readonly name: string;
  readonly command: readonly string[];
  readonly document: { readonly uri: string; readonly languageId: string; readonly text: string };
}

interface Start {
  /** ms */
  readonly time: number;
  /** Bytes. */
  readonly memory: number;
}

const rounds = 7;

/** `root`: the repository's folder. */
export async function benchServerStart(root: string): Promise<readonly Claim[]> {
  const bundle = bundleServer(root);
  try {
    const ours = ourServer(bundle.path('server.js'));
    const theirs = cssServer(root, ours.document.text.length);
    return claimsOf(ours, theirs, await startInTurn(ours, theirs));
  } finally {
    bundle.remove();
  }
}

function ourServer(program: string): Server {
  const text = manyModules(1_000);
  const mistake = text.lastIndexOf(';\nendmodule\n', text.lastIndexOf('module top'));
  return {
    name: 'ours',
    command: [program, '--stdio'],
    document: {
      uri: 'file:///project/a.v',
      languageId: 'verilog',
      text: text.slice(0, mistake) + text.slice(mistake + 1),
    },
  };
}

function cssServer(root: string, length: number): Server {
  return {
    name: 'the CSS server',
    command: cssServerCommand(root),
    document: { uri: 'file:///project/a.css', languageId: 'css', text: stylesOfLength(length) },
  };
}

async function startInTurn(...servers: readonly Server[]): Promise<readonly (readonly Start[])[]> {
  const starts: Start[][] = servers.map(() => []);
  for (let round = 0; round <= rounds; round += 1) {
    for (const [index, server] of servers.entries()) {
      const start = await startOnce(server);
      if (round > 0) starts[index].push(start);
    }
  }
  return starts;
}

async function startOnce({ command, document, name }: Server): Promise<Start> {
  const before = performance.now();
  const client = await begin(command, { capabilities: clients.pulling });
  client.notify('textDocument/didOpen', { textDocument: { ...document, version: 1 } });
  const { result } = await client.request('textDocument/diagnostic', { textDocument: { uri: document.uri } });
  const time = performance.now() - before;
  const memory = peakOfTree(client.process.pid ?? 0);
  if ((result as { items: readonly unknown[] }).items.length === 0) throw new Error(`${name} found no mistake`);
  await end(client);
  return { time, memory };
}

function claimsOf(ours: Server, theirs: Server, starts: readonly (readonly Start[])[]): readonly Claim[] {
  const documents = [ours, theirs].map(
    ({ document: { languageId, text } }) => `${languageId}: ${text.split('\n').length} lines`,
  );
  const subject = `first findings of a server just started, document of ${ours.document.text.length} characters (${documents.join(', ')})`;
  const [ourTime, theirTime] = starts.map((runs) => median(runs.map(({ time }) => time)));
  const [ourMemory, theirMemory] = starts.map((runs) => median(runs.map(({ memory }) => memory)) / 1e6);
  return [
    {
      subject: `${subject}: time`,
      candidate: { name: ours.name, value: ourTime, unit: 'ms' },
      baseline: { name: theirs.name, value: theirTime, unit: 'ms' },
      bound: 1.4,
    },
    {
      subject: `${subject}: peak memory of its processes`,
      candidate: { name: ours.name, value: ourMemory, unit: 'MB' },
      baseline: { name: theirs.name, value: theirMemory, unit: 'MB' },
      bound: 1.6,
    },
  ];
}
