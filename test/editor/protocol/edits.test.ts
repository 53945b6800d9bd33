// However a text came about, edit by edit, its diagnostics are those of a server that was just started with it. The seed
// is printed; the same seed gives the same edits.

import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type BundledServer, bundleServer } from './bundled-server';
import type { TestClient } from './client';
import { begin, end, open, pull } from './conversation';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const example = (name: string) => readFileSync(`${root}examples/${name}`, 'utf8');
const texts = ['ripple-counter.v', 'divided-clock.v', 'synchronous-counter.v'].map(example);
const main = 'file:///project/main.v';

let server: BundledServer;
beforeAll(() => {
  server = bundleServer();
});
afterAll(() => server.remove());

const command = () => [server.path('server.js'), '--stdio'];

/** What people do to a text, in fractions of its length, so that it fits any text. */
const edit = fc.record({
  from: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, fc.nat(12), fc.nat(400)),
  insert: fc.oneof(
    fc.constantFrom(
      '',
      '\n',
      '\r\n',
      ' ',
      'begin',
      'end',
      'endmodule\n',
      '/*',
      '*/',
      '// grün 𐐀\n',
      '"',
      '`include "none.vh"\n',
      '`define W 4\n',
      '`W',
      'module extra(input clk, output reg q); always @(posedge clk) q <= ~q; endmodule\n',
      '⏰',
      ';',
    ),
    fc.string({ maxLength: 6 }),
  ),
});
type Edit = typeof edit extends fc.Arbitrary<infer Value> ? Value : never;

it('ends in the diagnostics of a fresh start', async () => {
  const seed = Number(process.env.FORETICK_SEED ?? 20261125);
  process.stdout.write(`random edits from seed ${seed} (FORETICK_SEED sets another)\n`);
  const edited = await begin(command());
  let number = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...texts),
      fc.array(edit, { minLength: 1, maxLength: 12 }),
      async (text, edits) => {
        number += 1;
        const uri = main.replace('main', `main${number}`);
        open(edited, uri, text);
        const ended = applyEdits(edited, uri, text, edits);
        const found = await pull(edited, uri);
        edited.notify('textDocument/didClose', { textDocument: { uri } });
        const fresh = await begin(command());
        open(fresh, uri, ended);
        expect(found).toEqual(await pull(fresh, uri));
        expect(await end(fresh)).toBe(0);
      },
    ),
    { numRuns: 8, seed, endOnFailure: true },
  );
  await end(edited);
}, 240_000);

/** Sends each edit as one change, some of them with a question in between that the next one cuts short. */
function applyEdits(client: TestClient, uri: string, text: string, edits: readonly Edit[]): string {
  let current = text;
  for (const [index, { from, insert, length }] of edits.entries()) {
    const start = wholeCharacter(current, Math.round(from * current.length));
    const stop = wholeCharacter(current, Math.min(current.length, start + length));
    const range = { start: positionAt(current, start), end: positionAt(current, stop) };
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: index + 2 },
      contentChanges: [{ range, text: insert }],
    });
    current = current.slice(0, start) + insert + current.slice(stop);
    if (index % 3 === 1) void client.request('textDocument/diagnostic', { textDocument: { uri } });
    if (index % 4 === 1) void client.request('textDocument/codeLens', { textDocument: { uri } });
  }
  return current;
}

/** An editor never cuts a character or a line end of two units in half. */
function wholeCharacter(text: string, offset: number): number {
  const isHalf = /^[\udc00-\udfff]/.test(text.slice(offset)) || (text[offset] === '\n' && text[offset - 1] === '\r');
  return isHalf ? offset - 1 : offset;
}

/** Counted here anew, from the protocol's own words: lines end at \n, \r\n and \r; characters are UTF-16 units. */
function positionAt(text: string, offset: number): { readonly line: number; readonly character: number } {
  const lines = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: lines.length - 1, character: lines[lines.length - 1].length };
}
