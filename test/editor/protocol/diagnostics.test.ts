// Diagnostics over real standard streams: pulled where the client can, else pushed, never both; those of reading at once.

import type { Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noChoices } from '../../../server/src/editor/no-choices';
import type { PanelReply } from '../../../server/src/editor/panel-messages';
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

describe('a design in which the search for glitches takes long', () => {
  // More states than are followed at once: the decode clocks a register.
  const shuffled = [
    'module shuffled(input clk, input [3:0] d, output reg q);',
    "  reg [23:0] s = 24'd1;",
    "  wire hit = (s[7:0] == 8'h5a) & (s[15:8] != s[23:16]);",
    "  always @(posedge clk) s <= {s[22:0], s[23] ^ s[17] ^ d[0]} ^ {20'd0, d};",
    '  always @(posedge hit) q <= ~q;',
    'endmodule',
    '',
  ].join('\n');

  it('sends what needs no search first', async () => {
    const client = await begin(command(), { capabilities: clients.pushed });
    open(client, uri, shuffled);
    await client.heard((each) => isPublished(each) && idsOf(published(each).diagnostics).includes('glitch-into-clock'));
    const steps = client.said.filter(isPublished).map((each) => idsOf(published(each).diagnostics));
    expect(steps.at(-2)).toContain('derived-clock');
    expect(steps.at(-2)).not.toContain('glitch-into-clock');
    expect(steps.at(-1)).toEqual(expect.arrayContaining(['derived-clock', 'glitch-into-clock']));
    await end(client);
  });

  it('has a client that asks ask again after every step', async () => {
    const client = await begin(command(), { capabilities: clients.pulling });
    open(client, uri, shuffled);
    for (let found = idsOf(await pull(client, uri)); !found.includes('glitch-into-clock'); ) {
      const heard = client.said.length;
      await client.heard(({ method }) => method === 'workspace/diagnostic/refresh', heard - 1);
      found = idsOf(await pull(client, uri));
    }
    await end(client);
  });

  it('shows a preview without glitches, and says when there is more', async () => {
    const client = await begin(command(), { capabilities: clients.patient });
    open(client, uri, shuffled);
    const subject = { document: uri, choices: noChoices };
    const ask = async (known: string | null) =>
      (await client.request('foretick/panel', { kind: 'preview', subject, known })).result as PanelReply & {
        readonly kind: 'preview';
      };
    const first = await ask(null);
    expect(first.data.headline).toContain('glitches are still searched for');
    const heard = client.said.length;
    await client.heard(({ method }) => method === 'foretick/studyChanged', heard);
    const whole = await ask(first.mark);
    expect(whole.kind).toBe('preview');
    expect(whole.data.headline).not.toContain('glitches are still searched for');
    expect(await ask(whole.mark)).toEqual({ kind: 'unchanged', mark: whole.mark });
    await end(client);
  });
});
