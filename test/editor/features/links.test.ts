import { expect, it } from 'vitest';
import { documentLinks } from '../../../server/src/editor/features/document-links';
import { study } from '../../../server/src/report/study';
import { readyParser } from '../../tools/parser';
import { covered, document, open, run } from './caret';

async function links(text: string, provided: readonly string[], includeFolders: readonly string[] = []) {
  const opened = await open(text);
  const files = provided.map((path) => ({ path, text: '' }));
  const whole = study({ ...opened.study.input, provided: files, includeFolders }, await readyParser());
  return run(documentLinks(whole, document)).map(({ range, target }) => `${covered(text, range)} → ${target}`);
}

it('lead from includes to their files, where these are at hand', async () => {
  const text = '`include "a.vh"\n`include <parts/b.vh> // c\n`include "missing.vh"\nmodule m; endmodule\n';
  const hand = ['file:///project/a.vh', 'file:///shared/parts/b.vh'];
  expect(await links(text, hand, ['file:///shared/'])).toEqual([
    '1 a.vh → file:///project/a.vh',
    '2 parts/b.vh → file:///shared/parts/b.vh',
  ]);
});

it('lead from memories to the files they start from', async () => {
  const text =
    'module m;\n reg [3:0] w [0:3];\n /* 🕰️ */ initial $readmemh("data/w.hex", w);\n initial $readmemb("no.mem", w);\nendmodule\n';
  expect(await links(text, ['file:///project/data/w.hex'])).toEqual(['3 data/w.hex → file:///project/data/w.hex']);
});
