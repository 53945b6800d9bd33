// However a workspace came about - documents edited, opened and closed, files written, removed and moved - its diagnostics
// are those of a server that was just started with it. The seed is printed; the same seed gives the same steps.

import fc from 'fast-check';
import { existsSync, mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Diagnostic } from 'vscode-languageserver';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BundledServer, bundleServer } from './bundled-server';
import { startClient, type TestClient } from './client';
import { clients, end, open, pull, replace } from './conversation';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const halver = (edge: string) =>
  `module halver(input clk, output reg q);\n  initial q = 0;\n  always @(${edge} clk) q <= ~q;\nendmodule\n`;

/** What files and documents hold: some need others, some hold what others hold too. */
const contents = [
  halver('posedge'),
  halver('negedge'),
  'module chain(input clk, output a, b);\n  halver first(clk, a);\n  halver second(.clk(a), .q(b));\nendmodule\n',
  '`include "sizes.vh"\nmodule count(input clk, output reg [`W:0] q);\n  initial q = 0;\n  always @(posedge clk) q <= q + 1;\nendmodule\n',
  '`define W 3\n',
  '`define W 2 // é 🕰️\n',
  'package sizes;\n  parameter W = 4;\nendpackage\n',
  'module wide import sizes::*;(input clk, output reg [W-1:0] q);\n  always @(posedge clk) q <= ~q;\nendmodule\n',
  'module board(input clk, output [4:0] q);\n  chain c(clk, q[0], q[1]);\n  count u(clk, q[4:2]);\nendmodule\n',
  '// nothing\n',
];
const names = ['top.v', 'rtl/a.v', 'rtl/b.sv', 'rtl/sizes.vh', 'lib/c.v', 'lib/deep/d.v', 'lib/sizes.vh', 'other/e.sv'];
const folders = ['rtl', 'lib', 'other', 'spare'];

const name = fc.constantFrom(...names);
const content = fc.constantFrom(...contents);
const step = fc.oneof(
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('open' as const), name, content }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('write' as const), name, content }) },
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant('type' as const),
      name,
      from: fc.double({ min: 0, max: 1, noNaN: true }),
      length: fc.oneof(fc.constant(0), fc.nat(9)),
      insert: fc.constantFrom(
        'x',
        '\n',
        ';',
        '`W',
        ' wire w;',
        'module extra; endmodule\n',
        'halver u(clk, );',
        '🕰️',
        '',
      ),
    }),
  },
  fc.record({ kind: fc.constant('close' as const), name }),
  fc.record({ kind: fc.constant('remove' as const), name }),
  fc.record({ kind: fc.constant('move' as const), from: fc.constantFrom(...folders), to: fc.constantFrom(...folders) }),
  fc.record({ kind: fc.constant('ask' as const), name }),
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('settle' as const) }) },
);
type Step = typeof step extends fc.Arbitrary<infer Value> ? Value : never;

async function begin(folder: string): Promise<TestClient> {
  const client = startClient([server.path('server.js'), '--stdio']);
  const capabilities = { ...clients.patient, workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };
  const workspaceFolders = [{ uri: pathToFileURL(folder).href, name: 'project' }];
  await client.request('initialize', { processId: null, rootUri: null, capabilities, workspaceFolders });
  client.notify('initialized', {});
  return client;
}

/** Every open document with its text. */
type Documents = Map<string, string>;

it('ends in the diagnostics of a fresh start', async () => {
  const seed = Number(process.env.FORETICK_SEED ?? 20261125);
  process.stdout.write(`random steps in a workspace from seed ${seed} (FORETICK_SEED sets another)\n`);
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 10, maxLength: 60, size: 'max' }), async (steps) => {
      const folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'foretick-steps-')));
      const edited = await begin(folder);
      const documents: Documents = new Map();
      take(edited, folder, documents, { kind: 'open', name: 'top.v', content: contents[8] }, 1);
      for (const [index, each] of steps.entries()) {
        take(edited, folder, documents, each, index + 2);
        // What is known already is what a later step has to change.
        if (each.kind === 'settle') await diagnosticsOf(edited, folder, documents);
      }
      const found = await diagnosticsOf(edited, folder, documents);
      const fresh = await begin(folder);
      for (const [each, text] of documents) open(fresh, uriOf(folder, each), text);
      expect(found).toEqual(await diagnosticsOf(fresh, folder, documents));
      expect([await end(edited), await end(fresh)]).toEqual([0, 0]);
      expect(edited.complaints()).toBe('');
      rmSync(folder, { recursive: true, force: true });
    }),
    { numRuns: 8, seed, endOnFailure: true },
  );
}, 240_000);

async function diagnosticsOf(client: TestClient, folder: string, documents: Documents) {
  const found: Record<string, readonly Diagnostic[]> = {};
  for (const each of [...documents.keys()].sort()) found[each] = await pull(client, uriOf(folder, each));
  return found;
}

function uriOf(folder: string, file: string): string {
  return pathToFileURL(path.join(folder, file)).href;
}

/** Whoever changes a file tells of it, as an editor that watches files does. */
function take(client: TestClient, folder: string, documents: Documents, each: Step, version: number): void {
  const tell = (type: 1 | 2 | 3, file: string) =>
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: uriOf(folder, file), type }] });
  switch (each.kind) {
    case 'open':
      if (documents.has(each.name)) replace(client, uriOf(folder, each.name), each.content, version);
      else open(client, uriOf(folder, each.name), each.content, version);
      documents.set(each.name, each.content);
      break;
    case 'type':
      typeInto(client, folder, documents, each, version);
      break;
    case 'close':
      if (documents.delete(each.name))
        client.notify('textDocument/didClose', { textDocument: { uri: uriOf(folder, each.name) } });
      break;
    case 'write': {
      const file = path.join(folder, each.name);
      const isNew = !existsSync(file);
      mkdirSync(path.dirname(file), { recursive: true });
      writeFileSync(file, each.content);
      tell(isNew ? 1 : 2, each.name);
      break;
    }
    case 'remove':
      if (!existsSync(path.join(folder, each.name))) break;
      rmSync(path.join(folder, each.name));
      tell(3, each.name);
      break;
    case 'move':
      moveFolder(folder, each.from, each.to, tell);
      break;
    case 'settle':
      break;
    case 'ask':
      void client.request('textDocument/diagnostic', { textDocument: { uri: uriOf(folder, each.name) } });
      break;
  }
}

function typeInto(
  client: TestClient,
  folder: string,
  documents: Documents,
  { from, insert, length, name: file }: Step & { readonly kind: 'type' },
  version: number,
): void {
  const before = documents.get(file);
  if (before === undefined) return;
  const start = Math.round(from * before.length);
  const after = before.slice(0, start) + insert + before.slice(start + length);
  // As UTF-8 can carry it: half a character is none.
  const text = Buffer.from(after, 'utf8').toString('utf8');
  documents.set(file, text);
  replace(client, uriOf(folder, file), text, version);
}

/** Of a folder that is moved an editor tells that it went, and of the files that came. */
function moveFolder(folder: string, from: string, to: string, tell: (type: 1 | 3, file: string) => void): void {
  if (!existsSync(path.join(folder, from)) || existsSync(path.join(folder, to))) return;
  renameSync(path.join(folder, from), path.join(folder, to));
  tell(3, from);
  const moved = [...names, ...names.map((file) => file.replace(/^\w+\//, `${from}/`))];
  for (const file of new Set(moved.filter((each) => each.startsWith(`${from}/`)))) {
    const now = to + file.slice(from.length);
    if (existsSync(path.join(folder, now))) tell(1, now);
  }
}
