// A rename over the files of a workspace, as a client applies it: what is left has the same report up to names, whatever
// name is changed and wherever it is asked for.

import { mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { WorkspaceEdit } from 'vscode-languageserver';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { applyChange } from '../../../server/src/editor/front/documents';
import { reportOf } from '../../tools/report-of';
import { positionIn } from '../features/caret';
import { type BundledServer, bundleServer } from './bundled-server';
import { type Reply, startClient, type TestClient } from './client';
import { clients, end, open } from './conversation';

let server: BundledServer;
let client: TestClient;
let folder = '';
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());
beforeEach(async () => {
  folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'foretick-rename-')));
});
afterEach(async () => {
  expect(await end(client)).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

type Files = Record<string, string>;

async function begin(files: Files): Promise<void> {
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(folder, name), text);
  client = startClient([server.path('server.js'), '--stdio']);
  const rootUri = pathToFileURL(folder).href;
  await client.request('initialize', { processId: null, rootUri, capabilities: clients.patient });
  client.notify('initialized', {});
}

const uri = (name: string) => pathToFileURL(path.join(folder, name)).href;

async function rename(file: string, text: string, offset: number, newName: string): Promise<Reply> {
  const params = { textDocument: { uri: uri(file) }, position: positionIn(text, offset), newName };
  for (;;) {
    const reply = await client.request('textDocument/rename', params);
    if (reply.error?.code !== contentModified) return reply;
  }
}

/** Protocol 3.17, LSPErrorCodes. */
const contentModified = -32801;
const requestFailed = -32803;

function applied(files: Files, edit: WorkspaceEdit): Files {
  const after = { ...files };
  for (const [changed, edits] of Object.entries(edit.changes ?? {})) {
    const name = path.basename(fileURLToPath(changed));
    const fromBehind = [...edits].reverse();
    after[name] = fromBehind.reduce(
      (text, { newText, range }) => applyChange(text, { range, text: newText }),
      after[name],
    );
  }
  return after;
}

/** Without columns: behind a name of another length they differ. */
async function reportText(all: Files): Promise<string> {
  const sources = Object.entries(all).map(([file, text]) => ({ path: file, text }));
  const top = /module (\w+)/.exec(all['top.v'])?.[1];
  return JSON.stringify(await reportOf(sources, { top })).replace(/"(?:column|endColumn)":\d+/g, '"column":0');
}

const files: Files = {
  'sizes.vh': '`define WIDTH 4\n`define LAST (`WIDTH - 1)\n',
  'stage.v':
    '`include "sizes.vh"\n/* 🕰️ é */ module stage #(parameter INIT = 0, parameter STEP = 1)(input wire clk, input wire reset, output reg [`LAST:0] count);\n  wire tick; /* 🕰️ */ wire wrapped = &count;\n  assign tick = ~reset;\n  function [`LAST:0] after(input [`LAST:0] now);\n    after = now + STEP;\n  endfunction\n  always @(posedge clk or posedge reset)\n    if (reset) count <= INIT;\n    else if (tick) count <= wrapped ? 0 : after(count);\nendmodule\n',
  'pair.sv':
    '`include "sizes.vh"\nmodule pair(clk, reset, low, high);\n  input clk, reset;\n  output [`LAST:0] low, high;\n  stage #(.INIT(1), .STEP(3)) first(.clk, .reset(reset), .count(low));\n  genvar index;\n  generate for (index = 0; index < 1; index = index + 1) begin : more\n    stage #(2) second(.clk(clk), .reset, .count(high));\n  end endgenerate\nendmodule : pair\n',
  'kinds.sv':
    'package kinds;\n  parameter WIDE = 4;\n  typedef enum logic [1:0] { IDLE, BUSY = 2, DONE } phase;\nendpackage : kinds\ninterface link(input logic tock);\n  logic ready;\n  modport sender(input tock, output ready);\nendinterface\n',
  'sender.sv':
    'module sender import kinds::*;(link.sender out, input logic stop, output logic [WIDE-1:0] told);\n  phase now;\n  always_ff @(posedge out.tock)\n    if (stop) now <= IDLE;\n    else case (now)\n      IDLE: now <= BUSY;\n      kinds::BUSY: now <= DONE;\n      default: now <= IDLE;\n    endcase\n  assign out.ready = now == DONE;\n  assign told = {WIDE{out.ready}};\nendmodule\n',
  'top.v':
    'module board(input clk, input reset, output [3:0] low, high, output seen, output [3:0] told);\n  link wires(clk);\n  sender way(.out(wires), .stop(reset), .told);\n  pair both(.clk(clk), .reset(reset), .low(low), .high(high));\n  assign seen = both.first.wrapped & both.more[0].second.tick;\nendmodule\n',
};

it('leaves the same design, whatever name is changed', async () => {
  await begin(files);
  for (const [name, text] of Object.entries(files)) open(client, uri(name), text);
  const names = Object.entries(files).flatMap(([file, text]) =>
    [...text.matchAll(/[A-Za-z_]\w*/g)].map(({ 0: word, index }) => ({ file, index, word })),
  );
  const before = await reportText(files);
  let done = 0;
  for (const { file, index, word } of names) {
    // What is ordered by names keeps its order.
    const to = `${word}_new`;
    const { error, result } = await rename(file, files[file], index, to);
    if (error !== undefined) expect([requestFailed, error.message]).toEqual([error.code, error.message]);
    if (error !== undefined || result === null) continue;
    const after = applied(files, result as WorkspaceEdit);
    expect(Object.values(after).join('\n'), `${word} in ${file}`).toContain(to);
    const isSame = (await reportText(after)).replaceAll(to, word) === before;
    expect([word, file, isSame]).toEqual([word, file, true]);
    done += 1;
  }
  // The rest are keywords, and names of files.
  expect(done).toBeGreaterThan(140);
});

it('is refused with a sentence', async () => {
  await begin(files);
  open(client, uri('stage.v'), files['stage.v']);
  const { error } = await rename('stage.v', files['stage.v'], files['stage.v'].indexOf('tick'), 'count');
  expect(error).toMatchObject({
    code: requestFailed,
    message: 'count has a meaning in stage already: stage.v, line 2',
  });
});
