// A worker that comes to an end is started anew with what was open; what was asked meanwhile is answered as failed.

import type { Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BundledServer, bundleServer } from './bundled-server';
import type { TestClient } from './client';
import { begin, clients, end, idsOf, open, pull, replace } from './conversation';

const uri = 'file:///project/a.v';
const other = 'file:///project/b.v';
const broken = 'module a(input c);\n  assign = 1;\nendmodule\n';
const ripple =
  'module b(input c, output reg q, r);\n  always @(posedge c) q <= ~q;\n  always @(posedge q) r <= ~r;\nendmodule\n';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const command = () => [server.path('mortal-server.js'), '--stdio'];

/** Waits until the death was noticed, which the client is told of as changed studies of all that is open. */
async function kill(client: TestClient): Promise<void> {
  const from = client.said.length;
  client.process.send('kill');
  await client.heard(({ method }) => method === 'foretick/studyChanged', from);
}

it('knows what was open and how it was edited', async () => {
  const client = await begin(command());
  open(client, uri, broken);
  open(client, other, 'module b; endmodule\n');
  replace(client, other, ripple, 2);
  const before = [await pull(client, uri), await pull(client, other)];
  expect(before.map(idsOf)).toEqual([['syntax'], expect.arrayContaining(['ripple-chain'])]);
  await kill(client);
  expect([await pull(client, uri), await pull(client, other)]).toEqual(before);
  expect(await end(client)).toBe(0);
});

it('answers what was under way, and says that it is worth asking again', async () => {
  const client = await begin(command());
  open(client, uri, broken);
  const lenses = client.request('textDocument/codeLens', { textDocument: { uri } });
  const panel = client.request('foretick/panel', {
    kind: 'preview',
    known: null,
    subject: {
      document: uri,
      choices: { top: null, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] },
    },
  });
  await kill(client);
  expect((await lenses).error?.code).toBe(-32803);
  expect((await panel).result).toMatchObject({ kind: 'failed', reason: 'unavailable' });
  expect(idsOf(await pull(client, uri))).toEqual(['syntax']);
  await end(client);
});

it('sends findings anew to a client that does not ask', async () => {
  const client = await begin(command(), { capabilities: clients.pushed });
  open(client, uri, 'module a; endmodule\n');
  await kill(client);
  replace(client, uri, broken, 2);
  const said = await client.heard(
    ({ method, params }) =>
      method === 'textDocument/publishDiagnostics' && (params as PublishDiagnosticsParams).version === 2,
  );
  expect(idsOf((said.params as { readonly diagnostics: Diagnostic[] }).diagnostics)).toEqual(['syntax']);
  await end(client);
});

it('gives up on a worker that dies again and again, until the text changes', async () => {
  const client = await begin(command());
  open(client, uri, broken);
  await pull(client, uri);
  for (let death = 0; death < 3; death += 1) await kill(client);
  client.process.send('kill');
  await client.heard(({ method }) => method === 'window/showMessage');
  expect((await client.request('textDocument/codeLens', { textDocument: { uri } })).error?.code).toBe(-32803);
  replace(client, uri, ripple, 2);
  expect(idsOf(await pull(client, uri))).toContain('ripple-chain');
  await end(client);
});
