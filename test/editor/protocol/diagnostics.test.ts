// Diagnostics over real standard streams: pulled where the client can, else pushed, never both; those of reading at once.

import type { Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BundledServer, bundleServer } from './bundled-server';
import type { Said } from './client';
import { begin, clients, end, idsOf, open, pull, replace } from './conversation';

const uri = 'file:///project/a.v';
const ripple = [
  'module halver(input clk, output reg q, r);',
  '  initial {q, r} = 0;',
  '  always @(negedge clk) q <= ~q;',
  '  always @(negedge q) r <= ~r;',
  'endmodule',
  '',
].join('\n');
const broken = 'module a(input c);\n  assign = 1;\nendmodule\n';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const command = () => [server.path('server.js'), '--stdio'];
const isPublished = ({ method }: Said) => method === 'textDocument/publishDiagnostics';
const published = (said: Said) => said.params as PublishDiagnosticsParams;

describe('a client that asks', () => {
  it('is answered with all findings and sent none', async () => {
    const client = await begin(command());
    open(client, uri, ripple);
    const found = await pull(client, uri);
    expect(idsOf(found)).toContain('ripple-chain');
    const chain = found.find(({ code }) => code === 'ripple-chain') as Diagnostic;
    expect(chain).toMatchObject({ source: 'foretick', severity: 2 });
    expect(client.said.filter(isPublished)).toEqual([]);
    expect(await end(client)).toBe(0);
  });

  it('may be told to ask again, and then hears the rest', async () => {
    const client = await begin(command(), { capabilities: clients.pulling });
    open(client, uri, `${broken}${ripple}`);
    const first = idsOf(await pull(client, uri));
    expect(first).toContain('syntax');
    if (!first.includes('ripple-chain')) await client.heard(({ method }) => method === 'workspace/diagnostic/refresh');
    expect(idsOf(await pull(client, uri))).toEqual(expect.arrayContaining(['syntax', 'ripple-chain']));
    await end(client);
  });

  it('hears that nothing changed', async () => {
    const client = await begin(command());
    open(client, uri, ripple);
    const { result } = await client.request('textDocument/diagnostic', { textDocument: { uri } });
    const { resultId } = result as { readonly resultId: string };
    const again = await client.request('textDocument/diagnostic', {
      textDocument: { uri },
      previousResultId: resultId,
    });
    expect(again.result).toEqual({ kind: 'unchanged', resultId });
    replace(client, uri, `${ripple}\n`, 2);
    const changed = await client.request('textDocument/diagnostic', {
      textDocument: { uri },
      previousResultId: resultId,
    });
    expect(changed.result).toMatchObject({ kind: 'full' });
    await end(client);
  });
});

describe('a client that does not ask', () => {
  it('is sent findings with the version of the text', async () => {
    const client = await begin(command(), { capabilities: clients.pushed });
    open(client, uri, ripple, 7);
    const said = await client.heard((each) => isPublished(each) && published(each).diagnostics.length > 0);
    expect(published(said)).toMatchObject({ uri, version: 7 });
    expect(idsOf(published(said).diagnostics)).toContain('ripple-chain');
    await end(client);
  });

  it('is sent none once the document is closed', async () => {
    const client = await begin(command(), { capabilities: clients.pushed });
    open(client, uri, broken);
    await client.heard((each) => isPublished(each) && published(each).diagnostics.length > 0);
    const from = client.said.length;
    client.notify('textDocument/didClose', { textDocument: { uri } });
    // What was on its way when the document was closed may come first, and nothing may come behind.
    await client.heard((each) => isPublished(each) && published(each).diagnostics.length === 0, from);
    await end(client);
    const last = client.said.filter(isPublished).at(-1);
    expect(last === undefined ? null : published(last)).toEqual({ uri, diagnostics: [] });
  });
});
