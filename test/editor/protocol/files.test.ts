// What a study is made of besides its document: includes, modules in files of their name, the project file; read from the
// disk or through the client, and read again once they change.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BundledServer, bundleServer } from './bundled-server';
import type { TestClient } from './client';
import { begin, clients, end, idsOf, open, pull } from './conversation';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const command = () => [server.path('server.js'), '--stdio'];

/** A client whose workspace is not on the disk: it reads files itself. */
async function beginVirtual(files: Map<string, string>): Promise<TestClient> {
  const client = await begin(command(), { initializationOptions: { readsFiles: true } });
  client.answer('foretick/readFile', ({ uri }: { readonly uri: string }) => ({ text: files.get(uri) ?? null }));
  return client;
}

const uri = 'vault://depot/project/rtl/top.v';
const including =
  '`include "sizes.vh"\nmodule top(input clk, output reg [`W:0] q);\n  initial q = 0;\n  always @(posedge clk) q <= q + 1;\nendmodule\n';

describe('through the client', () => {
  it('includes are found beside the document and in folders of the project', async () => {
    const files = new Map([['vault://depot/project/rtl/sizes.vh', '`define W 3\n']]);
    const client = await beginVirtual(files);
    open(client, uri, including);
    expect(idsOf(await pull(client, uri))).toEqual([]);
    files.clear();
    files.set('vault://depot/project/foretick.json', '{"includes": ["shared"]}');
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect(idsOf(await pull(client, uri))).toContain('unresolved-name');
    files.set('vault://depot/project/shared/sizes.vh', '`define W 5\n');
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect(idsOf(await pull(client, uri))).toEqual([]);
    await end(client);
  });

  it('files that memories start from are found beside the document', async () => {
    const rom =
      'module rom(input clk, input [1:0] a, output reg [3:0] q);\n  reg [3:0] words [0:3];\n  initial $readmemh("words.hex", words);\n  always @(posedge clk) q <= words[a];\nendmodule\n';
    const files = new Map<string, string>();
    const client = await beginVirtual(files);
    open(client, uri, rom);
    const without = idsOf(await pull(client, uri));
    files.set('vault://depot/project/rtl/words.hex', '1 2 4 8\n');
    client.notify('textDocument/didSave', { textDocument: { uri } });
    const having = idsOf(await pull(client, uri));
    expect(without.length).toBeGreaterThan(having.length);
    await end(client);
  });

  it('modules are found beside the document and in libraries', async () => {
    const top = 'module top(input clk, output q);\n  halver u(.clk(clk), .q(q));\nendmodule\n';
    const halver =
      'module halver(input clk, output reg q);\n  initial q = 0;\n  always @(posedge clk) q <= ~q;\nendmodule\n';
    const files = new Map<string, string>();
    const client = await beginVirtual(files);
    open(client, uri, top);
    expect(idsOf(await pull(client, uri))).toEqual(['unresolved-module']);
    files.set('vault://depot/project/rtl/halver.v', halver);
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect(idsOf(await pull(client, uri))).toEqual([]);
    files.clear();
    files.set('vault://depot/project/foretick.json', '{"libraries": ["cells"]}');
    files.set('vault://depot/project/cells/halver.sv', halver);
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect(idsOf(await pull(client, uri))).toEqual([]);
    await end(client);
  });

  it('what is wrong in them stands where the document brings them in, and names the place', async () => {
    const files = new Map([['vault://depot/project/rtl/sizes.vh', '`define W 3\n// ⏰\nwire wire;\n']]);
    const client = await beginVirtual(files);
    open(client, uri, `\n${including}`);
    const found = await pull(client, uri);
    expect(found.length).toBeGreaterThan(0);
    const [first] = found;
    expect(first.range).toEqual({ start: { line: 1, character: 0 }, end: { line: 1, character: 19 } });
    expect(first.message).toMatch(/^sizes\.vh, line 3: /);
    expect(first.relatedInformation?.[0].location).toMatchObject({
      uri: 'vault://depot/project/rtl/sizes.vh',
      range: { start: { line: 2 } },
    });
    await end(client);
  });

  it('an open document counts as it stands, not as it was saved', async () => {
    const files = new Map([['vault://depot/project/rtl/sizes.vh', '// empty\n']]);
    const client = await beginVirtual(files);
    open(client, uri, including);
    expect(idsOf(await pull(client, uri))).toContain('unresolved-name');
    open(client, 'vault://depot/project/rtl/sizes.vh', '`define W 3\n');
    expect(idsOf(await pull(client, uri))).toEqual([]);
    client.notify('textDocument/didClose', { textDocument: { uri: 'vault://depot/project/rtl/sizes.vh' } });
    expect(idsOf(await pull(client, uri))).toContain('unresolved-name');
    await end(client);
  });
});

describe('a question whose text stays as it is', () => {
  it('is answered though a file it looked at changes in between', async () => {
    const sizes = 'vault://depot/project/rtl/sizes.vh';
    const files = new Map([[sizes, '`define W 3\n']]);
    const client = await beginVirtual(files);
    open(client, uri, including);
    expect(idsOf(await pull(client, uri))).toEqual([]);
    const ask = () =>
      client.request('textDocument/hover', { textDocument: { uri }, position: { line: 1, character: 40 } });
    const answers = [1, 2, 3].map((width) => {
      files.set(sizes, `\`define W ${width}\n`);
      client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: sizes, type: 2 }] });
      return ask();
    });
    for (const answer of await Promise.all(answers)) {
      expect(answer).toMatchObject({ result: { contents: expect.anything() } });
    }
    expect(JSON.stringify(await ask())).toContain('[3:0]');
    await end(client);
  });
});

describe('a project file', () => {
  const ripple = (name: string) =>
    `module ${name}(input c, output reg q, r);\n  always @(posedge c) q <= ~q;\n  always @(posedge q) r <= ~r;\nendmodule\n`;
  const json = 'vault://depot/foretick.json';

  it('that cannot be followed is a finding of its own, beside those of reading', async () => {
    const files = new Map([[json, '{"colour": 1}']]);
    const client = await beginVirtual(files);
    open(client, uri, `${ripple('top')}module n; assign = 1; endmodule\n`);
    const found = await pull(client, uri);
    expect(found[0]).toMatchObject({ severity: 1, message: 'foretick.json: colour is not a known key' });
    expect(idsOf(found.slice(1))).toEqual(['syntax']);
    files.set(json, '{"delays": "fast"}');
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect((await pull(client, uri))[0].message).toMatch(/^no delay set is called fast: unit, /);
    await end(client);
  });

  it('names a top that counts where the document knows it', async () => {
    const client = await beginVirtual(new Map([[json, '{"top": "board"}']]));
    open(client, uri, ripple('other'));
    const ids = idsOf(await pull(client, uri));
    expect(ids).toContain('ripple-chain');
    expect(ids).not.toContain('unresolved-name');
    await end(client);
  });

  it('accepts findings', async () => {
    const files = new Map<string, string>();
    const client = await beginVirtual(files);
    open(client, uri, ripple('top'));
    expect(idsOf(await pull(client, uri))).toContain('ripple-chain');
    files.set(json, '{"accepted": [{"id": "ripple-chain", "signal": "q", "reason": "slow and meant"}]}');
    client.notify('textDocument/didSave', { textDocument: { uri } });
    expect(idsOf(await pull(client, uri))).not.toContain('ripple-chain');
    await end(client);
  });
});

describe('on the disk', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'foretick files-ä-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const uriOf = (name: string) => pathToFileURL(path.join(folder, name)).href;

  it('files are found in folders of any name, and a watching client says what changed', async () => {
    const capabilities = {
      ...clients.patient,
      workspace: { didChangeWatchedFiles: { dynamicRegistration: true } },
    };
    const client = await begin(command(), { capabilities });
    const registered = await client.heard(({ method }) => method === 'client/registerCapability');
    expect(JSON.stringify(registered.params)).toContain('**/foretick.json');
    open(client, uriOf('top.v'), including);
    expect(idsOf(await pull(client, uriOf('top.v')))).toContain('unresolved-name');
    writeFileSync(path.join(folder, 'sizes.vh'), '`define W 3\n');
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: uriOf('sizes.vh'), type: 1 }] });
    expect(idsOf(await pull(client, uriOf('top.v')))).toEqual([]);
    await end(client);
  });
});
