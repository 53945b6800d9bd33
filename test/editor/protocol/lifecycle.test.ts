// How a conversation begins and ends, and what is answered outside of it. Language Server Protocol 3.17: Base Protocol,
// Server lifecycle. Error numbers as in its ErrorCodes and LSPErrorCodes.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { published } from '../../published/published';
import { type BundledServer, bundleServer } from './bundled-server';
import { framed, startClient } from './client';
import { begin, end, open, pull } from './conversation';

const uri = 'file:///project/a.v';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const command = () => [server.path('server.js'), '--stdio'];

describe('the end', () => {
  it('is exit code 0 behind a shutdown', async () => {
    const client = await begin(command());
    expect(await client.request('shutdown')).toEqual({ result: null });
    client.notify('exit');
    expect(await client.ended()).toBe(0);
    expect(client.complaints()).toBe('');
  });

  it('is exit code 1 without one', async () => {
    const client = await begin(command());
    client.notify('exit');
    expect(await client.ended()).toBe(1);
  });

  it('comes when the streams close', async () => {
    const client = await begin(command());
    client.process.stdin?.end();
    expect(await client.ended()).toBe(1);
  });

  it('comes in the middle of work too', async () => {
    const client = await begin(command());
    open(client, uri, manyModules(300));
    void client.request('textDocument/diagnostic', { textDocument: { uri } });
    expect(await end(client)).toBe(0);
  });
});

describe('the command line', () => {
  it('serves any editor', async () => {
    const client = await begin([server.path('cli.js'), 'serve', '--stdio']);
    open(client, uri, 'module a(input c);\n  assign = 1;\nendmodule\n');
    expect(await pull(client, uri)).toMatchObject([{ code: 'syntax' }]);
    expect(await end(client)).toBe(0);
    expect(client.complaints()).toBe('');
  });
});

published('FMT-19', 'requests outside of the conversation', async () => {
  const client = startClient(command());
  const early = await client.request('textDocument/documentSymbol', { textDocument: { uri } });
  expect(early.error?.code).toBe(-32002);
  await client.request('initialize', { processId: null, rootUri: null, capabilities: {} });
  client.notify('initialized', {});
  expect((await client.request('no/suchMethod', {})).error?.code).toBe(-32601);
  await client.request('shutdown');
  const late = await client.request('textDocument/documentSymbol', { textDocument: { uri } });
  expect(late.error?.code).toBe(-32600);
  client.notify('exit');
  expect(await client.ended()).toBe(0);
});

published('FMT-19', 'a request that is taken back', async () => {
  const client = await begin(command());
  open(client, uri, manyModules(200));
  const { id, reply } = client.send('textDocument/codeLens', { textDocument: { uri } });
  client.notify('$/cancelRequest', { id });
  expect((await reply).error?.code).toBe(-32800);
  await end(client);
});

published('FMT-20', 'unknown requests and notifications of the implementation', async () => {
  const client = await begin(command());
  expect((await client.request('$/noSuchRequest', {})).error?.code).toBe(-32601);
  client.notify('$/noSuchNotification', { of: 'ours' });
  open(client, uri, 'module a; endmodule\n');
  expect(await pull(client, uri)).toEqual([]);
  expect(await end(client)).toBe(0);
});

published('FMT-21', 'lengths in bytes, in pieces of any size, with other header fields', async () => {
  const client = await begin(command());
  const text = '// grün 𐐀 \u202e\nmodule ä; endmodule\nmodule a(input c);\n  assign = 1; // 🕐\nendmodule\n';
  const textDocument = { uri, languageId: 'verilog', version: 1, text };
  const bytes = framed(JSON.stringify({ jsonrpc: '2.0', method: 'textDocument/didOpen', params: { textDocument } }));
  const typed = Buffer.from('Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n', 'ascii');
  for (const byte of Buffer.concat([typed, bytes])) client.write(Buffer.from([byte]));
  const found = await pull(client, uri);
  expect(found.find(({ range }) => range.start.line === 3)).toMatchObject({ code: 'syntax' });
  await end(client);
});

function manyModules(count: number): string {
  const modules = Array.from(
    { length: count },
    (_, index) => `module m${index}(input clk, output reg [7:0] q);\n  always @(posedge clk) q <= q + 1;\nendmodule\n`,
  );
  return modules.join('');
}
