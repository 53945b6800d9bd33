// Many files: what a study lacks is found by name in the folders of the workspace, on the disk or through the client, and the
// index follows files that come, go and are edited.

import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { SymbolInformation } from 'vscode-languageserver';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { PanelReply } from '../../../server/src/editor/panel-messages';
import { type BundledServer, bundleServer } from './bundled-server';
import { startClient, type TestClient } from './client';
import { clients, end, idsOf, open, pull, replace } from './conversation';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

let folder = '';
let client: TestClient;
beforeEach(() => {
  folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'foretick-workspace-')));
});
afterEach(async () => {
  expect(await end(client)).toBe(0);
  expect(client.complaints()).toBe('');
  rmSync(folder, { recursive: true, force: true });
});

/** The client hears of its own files as an editor does. */
const watching = { ...clients.patient, workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };

async function begin(files: Readonly<Record<string, string>>, capabilities: object = watching): Promise<void> {
  for (const [name, text] of Object.entries(files)) write(name, text);
  client = startClient([server.path('server.js'), '--stdio']);
  const workspaceFolders = [{ uri: pathToFileURL(folder).href, name: 'project' }];
  await client.request('initialize', { processId: null, rootUri: null, capabilities, workspaceFolders });
  client.notify('initialized', {});
}

function write(name: string, text: string): void {
  mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
  writeFileSync(path.join(folder, name), text);
}

function uri(name: string): string {
  return pathToFileURL(path.join(folder, name)).href;
}

/** 1 created, 2 changed, 3 deleted (protocol 3.17, FileChangeType). */
function tell(type: 1 | 2 | 3, ...names: readonly string[]): void {
  const changes = names.map((name) => ({ uri: uri(name), type }));
  client.notify('workspace/didChangeWatchedFiles', { changes });
}

async function preview(name: string, top: string | null = null): Promise<PanelReply> {
  const choices = { top, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] };
  const subject = { document: uri(name), choices };
  return (await client.request('foretick/panel', { kind: 'preview', subject, known: null })).result as PanelReply;
}

async function topOf(name: string, top: string | null = null): Promise<string | null> {
  const reply = await preview(name, top);
  return reply.kind === 'preview' ? reply.data.top : reply.kind;
}

const top = 'module board(input clk, output q);\n  halver u(.clk(clk), .q(q));\nendmodule\n';
const halver = (edge: string) =>
  `module halver(input clk, output reg q);\n  initial q = 0;\n  always @(${edge} clk) q <= ~q;\nendmodule\n`;

describe('a module', () => {
  it('is found in whatever file it stands', async () => {
    await begin({ 'cells/parts.sv': `module other; endmodule\n${halver('posedge')}` });
    open(client, uri('rtl/top.v'), top);
    expect(idsOf(await pull(client, uri('rtl/top.v')))).toEqual([]);
  });

  it('is found where files come, change, move and go', async () => {
    await begin({});
    open(client, uri('top.v'), top);
    const ids = async () => idsOf(await pull(client, uri('top.v')));
    expect(await ids()).toEqual(['unresolved-module']);
    write('a/x.v', halver('posedge'));
    tell(1, 'a/x.v');
    expect(await ids()).toEqual([]);
    write('a/x.v', 'module nothing; endmodule\n');
    tell(2, 'a/x.v');
    expect(await ids()).toEqual(['unresolved-module']);
    write('a/x.v', halver('negedge'));
    tell(2, 'a/x.v');
    expect(await ids()).toEqual([]);
    renameSync(path.join(folder, 'a'), path.join(folder, 'b'));
    // An editor tells of the folder that went, and of what came.
    tell(3, 'a');
    expect(await ids()).toEqual(['unresolved-module']);
    tell(1, 'b/x.v');
    expect(await ids()).toEqual([]);
    rmSync(path.join(folder, 'b/x.v'));
    tell(3, 'b/x.v');
    expect(await ids()).toEqual(['unresolved-module']);
  });

  it('is found in an open document as it stands there', async () => {
    await begin({ 'x.v': '// empty\n' });
    open(client, uri('top.v'), top);
    expect(idsOf(await pull(client, uri('top.v')))).toEqual(['unresolved-module']);
    open(client, uri('x.v'), halver('posedge'));
    expect(idsOf(await pull(client, uri('top.v')))).toEqual([]);
    replace(client, uri('x.v'), halver('posedge').replace('halver', 'doubler'), 2);
    expect(idsOf(await pull(client, uri('top.v')))).toEqual(['unresolved-module']);
    client.notify('textDocument/didClose', { textDocument: { uri: uri('x.v') } });
    expect(idsOf(await pull(client, uri('top.v')))).toEqual(['unresolved-module']);
  });

  it('of several is the nearest, which is said', async () => {
    await begin({
      'rtl/lib/a.v': halver('negedge'),
      'far/away/b.v': halver('posedge'),
    });
    open(client, uri('rtl/top.v'), top);
    const reply = await preview('rtl/top.v');
    expect(reply.kind === 'preview' && reply.data.assumptions).toContainEqual({
      about: 'halver',
      value: 'lib/a.v',
      source: 'inferred',
      reason: 'halver stands in 2 files of the workspace: that in lib/a.v, the nearest, is taken',
      span: null,
    });
  });

  it('of a stated library goes before one that is only near', async () => {
    await begin({
      'foretick.json': '{"libraries": ["cells"]}',
      'rtl/lib/a.v': halver('negedge'),
      'cells/b.v': halver('posedge'),
    });
    open(client, uri('rtl/top.v'), top);
    const reply = await preview('rtl/top.v');
    const about = reply.kind === 'preview' ? reply.data.assumptions.find((each) => each.about === 'halver') : null;
    expect(about?.value).toBe('cells/b.v');
  });

  it('of a branch that is not taken is looked for elsewhere', async () => {
    await begin({
      'rtl/a.v': `\`ifdef NEVER\n${halver('negedge')}\`endif\n`,
      'cells/b.v': halver('posedge'),
    });
    open(client, uri('rtl/top.v'), top);
    expect(idsOf(await pull(client, uri('rtl/top.v')))).toEqual([]);
  });
});

it('packages and interfaces are found in whatever file they stand', async () => {
  await begin({
    'common/all.sv': 'package sizes;\n  parameter W = 4;\nendpackage\n',
    'common/bus.sv':
      'interface bus(input logic clk);\n  logic [3:0] data;\n  modport sink(input clk, data);\nendinterface\n',
  });
  open(
    client,
    uri('rtl/m.sv'),
    'module m import sizes::*;(bus.sink from, output reg [W-1:0] q);\n  initial q = 0;\n  always @(posedge from.clk) q <= from.data;\nendmodule\n',
  );
  expect(idsOf(await pull(client, uri('rtl/m.sv')))).toEqual([]);
});

describe('an include', () => {
  const including =
    '`include "sizes.vh"\nmodule m(input clk, output reg [`W:0] q);\n  initial q = 0;\n  always @(posedge clk) q <= q + 1;\nendmodule\n';

  it('that is in no stated folder is found by its name, which is said', async () => {
    await begin({ 'common/sizes.vh': '`define W 3\n' });
    open(client, uri('rtl/m.v'), including);
    expect(idsOf(await pull(client, uri('rtl/m.v')))).toEqual([]);
    const reply = await preview('rtl/m.v');
    expect(reply.kind === 'preview' && reply.data.assumptions.map(({ reason }) => reason)).toContain(
      'sizes.vh is in no folder that is stated: common/sizes.vh is taken',
    );
  });

  it('is found once it is there', async () => {
    await begin({});
    open(client, uri('rtl/m.v'), including);
    expect(idsOf(await pull(client, uri('rtl/m.v')))).toContain('unresolved-name');
    write('common/sizes.vh', '`define W 3\n');
    tell(1, 'common/sizes.vh');
    expect(idsOf(await pull(client, uri('rtl/m.v')))).toEqual([]);
  });

  it('of a folder is found below that folder alone', async () => {
    await begin({ 'common/sizes.vh': '`define W 3\n' });
    open(client, uri('rtl/m.v'), including.replace('sizes.vh', 'parts/sizes.vh'));
    expect(idsOf(await pull(client, uri('rtl/m.v')))).toContain('unresolved-name');
  });
});

it('files that memories start from are found by name', async () => {
  await begin({ 'data/words.hex': '1 2 4 8\n' });
  const rom =
    'module rom(input clk, input [1:0] a, output reg [3:0] q);\n  reg [3:0] words [0:3];\n  initial q = 0;\n  initial $readmemh("words.hex", words);\n  always @(posedge clk) q <= words[a];\nendmodule\n';
  open(client, uri('rtl/rom.v'), rom);
  expect(idsOf(await pull(client, uri('rtl/rom.v')))).toEqual([]);
});

describe('a top', () => {
  const files = {
    'cells/halver.v': halver('posedge'),
    'rtl/board.v': top,
    'rtl/system.v': 'module system(input clk, output q);\n  board b(clk, q);\nendmodule\n',
  };

  it('is the module that is open, though others instantiate it', async () => {
    await begin(files);
    open(client, uri('cells/halver.v'), files['cells/halver.v']);
    expect(await topOf('cells/halver.v')).toBe('halver');
  });

  it('is no other module of a file that is only needed', async () => {
    const big =
      'module big(input clk, output reg [31:0] q);\n  initial q = 0;\n  always @(posedge clk) q <= q + 1;\nendmodule\n';
    await begin({ 'cells/all.v': big + halver('posedge') });
    open(client, uri('rtl/board.v'), top);
    expect(await topOf('rtl/board.v')).toBe('board');
  });

  it('is what a test bench tests, in whatever file that stands', async () => {
    await begin(files);
    const bench =
      'module bench;\n  reg clk = 0;\n  wire q;\n  halver dut(clk, q);\n  always #5 clk = ~clk;\nendmodule\n';
    open(client, uri('test/bench.v'), bench);
    expect(await topOf('test/bench.v')).toBe('halver');
  });

  it('may be chosen among those that instantiate it, in whatever file', async () => {
    await begin(files);
    open(client, uri('cells/halver.v'), files['cells/halver.v']);
    const reply = await preview('cells/halver.v');
    expect(reply.kind === 'preview' && reply.offers.tops).toEqual(['halver', 'board', 'system']);
    expect(await topOf('cells/halver.v', 'board')).toBe('board');
    expect(await topOf('cells/halver.v', 'system')).toBe('system');
  });
});

describe('symbols of the workspace', () => {
  const names = async (query: string) => {
    const { result } = await client.request('workspace/symbol', { query });
    return (result as SymbolInformation[]).map(({ location, name }) => `${name} ${location.uri.split('/').at(-1)}`);
  };

  it('are units and macros that hold the letters in their order', async () => {
    await begin({ 'a.v': `\`define HALF 2\n${halver('posedge')}`, 'b.sv': 'package sharp; endpackage\n' });
    expect(await names('')).toEqual(['halver a.v', 'sharp b.sv', 'HALF a.v']);
    expect(await names('hl')).toEqual(['halver a.v', 'HALF a.v']);
    expect(await names('har')).toEqual(['halver a.v', 'sharp b.sv']);
  });

  it('stand at their names, counted in UTF-16 units', async () => {
    await begin({ 'a.v': '/* 🕰️ */ module m; endmodule\n' });
    const { result } = await client.request('workspace/symbol', { query: 'm' });
    expect((result as SymbolInformation[])[0].location.range).toEqual({
      start: { line: 0, character: 17 },
      end: { line: 0, character: 18 },
    });
  });
});

it('a workspace that is not on the disk is listed and read by the client', async () => {
  const files = new Map([['vault://depot/cells/x.v', halver('posedge')]]);
  client = startClient([server.path('server.js'), '--stdio']);
  client.answer('foretick/readFile', ({ uri: asked }: { readonly uri: string }) => ({
    text: files.get(asked) ?? null,
  }));
  client.answer('foretick/findFiles', ({ folder: below }: { readonly folder: string }) => ({
    files: [...files.keys()].filter((each) => each.startsWith(below)),
    isCut: false,
  }));
  const initializationOptions = { readsFiles: true, findsFiles: true };
  const rootUri = 'vault://depot';
  await client.request('initialize', { processId: null, rootUri, capabilities: watching, initializationOptions });
  client.notify('initialized', {});
  open(client, 'vault://depot/rtl/top.v', top);
  expect(idsOf(await pull(client, 'vault://depot/rtl/top.v'))).toEqual([]);
});

it('folders come to the workspace and leave it', async () => {
  await begin({ 'rtl/top.v': top }, { ...watching, workspace: { ...watching.workspace, workspaceFolders: true } });
  const beside = realpathSync(mkdtempSync(path.join(tmpdir(), 'foretick-beside-')));
  writeFileSync(path.join(beside, 'x.v'), halver('posedge'));
  const folders = [{ uri: pathToFileURL(beside).href, name: 'beside' }];
  open(client, uri('rtl/top.v'), top);
  expect(idsOf(await pull(client, uri('rtl/top.v')))).toEqual(['unresolved-module']);
  client.notify('workspace/didChangeWorkspaceFolders', { event: { added: folders, removed: [] } });
  expect(idsOf(await pull(client, uri('rtl/top.v')))).toEqual([]);
  client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: folders } });
  expect(idsOf(await pull(client, uri('rtl/top.v')))).toEqual(['unresolved-module']);
  rmSync(beside, { recursive: true, force: true });
});

it('a macro leads to its definition in a file that nothing includes yet', async () => {
  await begin({ 'common/sizes.vh': '// é 🕰️\n`define WIDTH 3\n' });
  const text = 'module m;\n wire [`WIDTH:0] w;\nendmodule\n';
  open(client, uri('m.v'), text);
  const params = { textDocument: { uri: uri('m.v') }, position: { line: 1, character: 9 } };
  const { result } = await client.request('textDocument/definition', params);
  expect(result).toMatchObject([{ uri: uri('common/sizes.vh'), range: { start: { line: 1, character: 8 } } }]);
});

it('a client that watches no files is believed at each save', async () => {
  await begin({}, clients.patient);
  open(client, uri('top.v'), top);
  expect(idsOf(await pull(client, uri('top.v')))).toEqual(['unresolved-module']);
  write('parts/x.v', halver('posedge'));
  client.notify('textDocument/didSave', { textDocument: { uri: uri('top.v') } });
  expect(idsOf(await pull(client, uri('top.v')))).toEqual([]);
});
