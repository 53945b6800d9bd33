// What is answered over the protocol: the promised requests, at the right places in text of any script, about the latest
// text alone, as a person has set it; and the questions of a Timing preview, each of which is answered.

import type { DocumentSymbol, Hover, InlayHint, Location } from 'vscode-languageserver';
import { afterAll, beforeAll, beforeEach, afterEach, describe, expect, it } from 'vitest';
import { features } from '../../../server/src/editor/back/features';
import { relayedMethods } from '../../../server/src/editor/front/capabilities';
import type {
  FileForm,
  PanelReply,
  PanelRequest,
  PanelSubject,
  StudyChoices,
} from '../../../server/src/editor/panel-messages';
import { published } from '../../published/published';
import { type BundledServer, bundleServer } from './bundled-server';
import type { TestClient } from './client';
import { begin, end, idsOf, open, pull, replace } from './conversation';

const uri = 'file:///project/a.v';
const chain = [
  'module belt(input clk, output reg q, r);',
  '  initial {q, r} = 0;',
  '  always @(negedge clk) q <= ~q;',
  '  always @(negedge q) r <= ~r;',
  'endmodule',
  '',
].join('\n');

let server: BundledServer;
let client: TestClient;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());
beforeEach(async () => {
  client = await begin([server.path('server.js'), '--stdio']);
});
afterEach(async () => {
  expect(await end(client)).toBe(0);
});

async function ask<Result>(method: string, params: object = {}): Promise<Result> {
  const { error, result } = await client.request(method, { textDocument: { uri }, ...params });
  expect(error).toBeUndefined();
  return result as Result;
}

describe('the promised requests', () => {
  it('are those that the worker answers', () => {
    expect([...relayedMethods].sort()).toEqual(Object.keys(features).sort());
  });

  it('are answered for what is not open, too: with nothing', async () => {
    for (const method of relayedMethods)
      expect(await ask(method, { position: { line: 0, character: 0 }, context: {}, range: whole })).toBeNull();
  });
});

const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

published('FMT-16', 'places in text of any script, there and back', async () => {
  const line = '  /* a𐐀b ⏰ */ always @(posedge clk) q <= ~q; // grün';
  open(client, uri, `module m(input clk, output reg q);\n${line}\nendmodule\n`);
  const character = line.indexOf('q <=');
  const position = { line: 1, character };
  const [declared] = await ask<Location[]>('textDocument/definition', { position });
  expect(declared).toEqual({ uri, range: { start: { line: 0, character: 31 }, end: { line: 0, character: 32 } } });
  const hover = await ask<Hover>('textDocument/hover', { position });
  expect(hover.range).toEqual({ start: position, end: { line: 1, character: character + 1 } });
  const [symbol] = await ask<DocumentSymbol[]>('textDocument/documentSymbol');
  expect(symbol.selectionRange.start).toEqual({ line: 0, character: 7 });
});

published('FMT-17', 'an edit behind the end of its line', async () => {
  open(client, uri, 'module a; endmodule // 𐐀\nmodule b(input c);\nendmodule\n');
  const place = { line: 1, character: 999 };
  client.notify('textDocument/didChange', {
    textDocument: { uri, version: 2 },
    contentChanges: [{ range: { start: place, end: place }, text: '\nassign = 1;' }],
  });
  expect((await pull(client, uri)).map(({ range }) => range.start.line)).toEqual([2]);
});

published('FMT-18', 'how much a finding weighs', async () => {
  open(client, uri, `${chain}module b(input c);\n  assign = 1;\nendmodule\n`);
  const found = new Map((await pull(client, uri)).map(({ code, severity }) => [code, severity]));
  expect([found.get('syntax'), found.get('ripple-chain')]).toEqual([1, 2]);
});

describe('newer text', () => {
  it('cuts short what was asked about older text', async () => {
    open(client, uri, chain);
    const older = client.request('textDocument/inlayHint', { textDocument: { uri }, range: whole });
    const pulled = client.request('textDocument/diagnostic', { textDocument: { uri } });
    replace(client, uri, 'module empty; endmodule\n', 2);
    expect((await older).error?.code).toBe(-32801);
    expect((await pulled).error).toMatchObject({ code: -32802, data: { retriggerRequest: true } });
    expect(await pull(client, uri)).toEqual([]);
  });

  it('does not cut short what is asked about another document', async () => {
    open(client, uri, chain);
    const lenses = client.request('textDocument/codeLens', { textDocument: { uri } });
    open(client, 'file:///project/other.v', 'module other; endmodule\n');
    expect((await lenses).result).toHaveLength(1);
  });
});

describe('settings', () => {
  const hintsOf = async () => {
    const hints = await ask<InlayHint[]>('textDocument/inlayHint', { range: whole });
    return hints.map(({ label }) => String(label));
  };

  it('switch hints by kind', async () => {
    open(client, uri, chain);
    const all = await hintsOf();
    expect(all).toHaveLength(2);
    const hints = { clock: false, ratio: false, stage: false };
    client.notify('workspace/didChangeConfiguration', { settings: { foretick: { hints } } });
    expect(await hintsOf()).toEqual([]);
    client.notify('workspace/didChangeConfiguration', { settings: { foretick: { hints: { ...hints, stage: true } } } });
    const stages = await hintsOf();
    expect(stages.length).toBeGreaterThan(0);
    expect(stages.join(' ')).not.toBe(all.join(' '));
  });

  it('name a delay set, and a name that is none is told', async () => {
    open(client, uri, chain);
    client.notify('workspace/didChangeConfiguration', { settings: { foretick: { delays: 'swift' } } });
    expect((await pull(client, uri))[0].message).toMatch(/^no delay set is called swift/);
    client.notify('workspace/didChangeConfiguration', { settings: { foretick: { delays: '74HC393' } } });
    expect(idsOf(await pull(client, uri))).toContain('ripple-chain');
  });
});

describe('a Timing preview', () => {
  const noChoices: StudyChoices = {
    top: null,
    delays: null,
    start: null,
    clocks: {},
    resets: {},
    inputs: {},
    whatIf: [],
  };
  const subject: PanelSubject = { document: uri, choices: noChoices };
  const panel = async (request: PanelRequest) => (await client.request('foretick/panel', request)).result as PanelReply;
  const preview = (choices: Partial<StudyChoices> = {}, known: string | null = null) =>
    panel({ kind: 'preview', known, subject: { document: uri, choices: { ...noChoices, ...choices } } });

  it('is shown, with what may be chosen instead', async () => {
    open(client, uri, `${chain}module other(input c); endmodule\n`);
    const reply = await preview();
    if (reply.kind !== 'preview') throw new Error(JSON.stringify(reply));
    expect(reply.data.traces.map(({ name }) => name)).toEqual(expect.arrayContaining(['clk', 'q', 'r']));
    expect(reply.data.traces.every(({ span }) => span.file === uri)).toBe(true);
    expect(reply.offers.tops).toEqual(['belt', 'other']);
    expect(reply.offers.delaySets).toEqual(expect.arrayContaining(['unit', 'ideal', '74HC393']));
    expect(await preview({}, reply.mark)).toEqual({ kind: 'unchanged', mark: reply.mark });
    // Opened from the module that is the top anyway, it is the same preview.
    expect(await preview({ top: 'belt' }, reply.mark)).toEqual({ kind: 'unchanged', mark: reply.mark });
    expect(await preview({ top: 'other' }, reply.mark)).toMatchObject({ kind: 'preview', data: { top: 'other' } });
  });

  it('follows choices, and says which cannot be followed', async () => {
    open(client, uri, chain);
    const plain = await preview();
    const slow = await preview({ clocks: { clk: { periodPs: 1_000_000, highPs: null, phasePs: null } } });
    if (plain.kind !== 'preview' || slow.kind !== 'preview') throw new Error('no preview');
    expect(slow.mark).not.toBe(plain.mark);
    expect(slow.data.drive.clocks[0].period).toBe(1_000_000);
    expect(await preview({ delays: 'swift' })).toMatchObject({ kind: 'failed', reason: 'refused' });
  });

  it('tells why the signal at the caret last changed, or that none stands there', async () => {
    open(client, uri, chain);
    const told = await panel({ kind: 'account-at-caret', subject, caret: { line: 3, character: 22 } });
    expect(told).toMatchObject({ kind: 'account', signal: 'r' });
    if (told.kind !== 'account') throw new Error('no account');
    expect(told.accounts[0].lines[0]).toMatch(/^r (rose|fell) at .* because its clock q fell/);
    expect(told.accounts[0].steps[0].span).toMatchObject({ file: uri, line: 4 });
    const none = await panel({ kind: 'account-at-caret', subject, caret: { line: 4, character: 2 } });
    expect(none).toMatchObject({ kind: 'account', signal: null, accounts: [] });
  });

  it('writes what is taken along, and nothing of the machine with it', async () => {
    open(client, uri, chain);
    const file = (form: FileForm) => panel({ kind: 'file', subject, form });
    const written = await Promise.all((['vcd', 'md', 'json', 'sarif'] as const).map(file));
    const texts = written.map((reply) => (reply.kind === 'file' ? [reply.suggestedName, reply.text] : []));
    expect(texts.map(([name]) => name)).toEqual(['belt.vcd', 'belt.md', 'belt.json', 'belt.sarif']);
    expect(texts[0][1]).toMatch(/^\$version Foretick/);
    expect(texts[1][1]).toMatch(/^# /);
    const name = uri.slice(uri.lastIndexOf('/') + 1);
    expect(JSON.parse(texts[2][1])).toMatchObject({ top: 'belt', files: [name] });
    expect(JSON.parse(texts[3][1])).toMatchObject({ version: '2.1.0' });
    for (const [, text] of texts) expect(text).not.toContain(uri.slice(0, uri.lastIndexOf('/')));
    replace(client, uri, 'nothing of a design', 2);
    expect(await file('vcd')).toMatchObject({ kind: 'failed', reason: 'refused' });
    expect(await file('json')).toMatchObject({ kind: 'file', suggestedName: 'design.json' });
  });

  it('is told of changes, and asks again', async () => {
    open(client, uri, chain);
    const first = await preview();
    const from = client.said.length;
    replace(client, uri, chain.replaceAll('negedge', 'posedge'), 2);
    const said = await client.heard(({ method }) => method === 'foretick/studyChanged', from);
    expect(said.params).toEqual({ documents: [uri] });
    if (first.kind !== 'preview') throw new Error('no preview');
    expect(await preview({}, first.mark)).toMatchObject({ kind: 'preview' });
  });

  it('is answered whatever it asks', async () => {
    expect(await preview()).toMatchObject({ kind: 'failed', reason: 'unavailable' });
    open(client, uri, chain);
    const older = preview();
    replace(client, uri, `${chain}\n`, 2);
    expect(await older).toMatchObject({ kind: 'failed', reason: 'superseded' });
    const unknown = { kind: 'account-of-signal', subject, signal: 'no_such', at: 5 } as const;
    expect(await panel(unknown)).toMatchObject({ kind: 'account', signal: null });
    expect(await panel({ kind: 'preview' } as never)).toMatchObject({ kind: 'failed', reason: 'broken' });
    expect(await panel({ kind: 'nonsense', subject } as never)).toMatchObject({ kind: 'failed', reason: 'broken' });
    expect(await preview()).toMatchObject({ kind: 'preview' });
  });
});
