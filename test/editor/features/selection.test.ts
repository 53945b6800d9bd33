import { expect, it } from 'vitest';
import type { SelectionRange } from 'vscode-languageserver';
import { selectionRanges } from '../../../server/src/editor/features/selection-ranges';
import { offsetAt } from '../../../server/src/editor/features/positions';
import { document, open, run } from './caret';

/** What the selection grows to, step by step. */
async function steps(marked: string): Promise<readonly string[]> {
  const { caret, study, text } = await open(marked);
  const [first] = run(selectionRanges(study, document, [caret]));
  const found: string[] = [];
  for (let at: SelectionRange | undefined = first; at !== undefined; at = at.parent)
    found.push(text.slice(offsetAt(text, at.range.start), offsetAt(text, at.range.end)));
  return found;
}

it('grows from the word over brackets, statement and block to the unit', async () => {
  const block = 'begin b <= f(a[/*here*/i], c); d <= e; end';
  const text = `module m(input clk);\n always @(posedge clk) ${block}\nendmodule\n`;
  const whole = text.replace('/*here*/', '');
  const plain = block.replace('/*here*/', '');
  expect(await steps(text)).toEqual([
    'i',
    '[i]',
    'a[i], c',
    '(a[i], c)',
    'b <= f(a[i], c);',
    ' b <= f(a[i], c); d <= e; ',
    plain,
    `always @(posedge clk) ${plain}`,
    whole.slice('module'.length, whole.indexOf('endmodule')),
    whole.trimEnd(),
    whole,
  ]);
});

it('grows as far as half-typed text goes', async () => {
  expect(await steps('module m;\n assign y = (a + /*here*/b')).toEqual(['b', 'module m;\n assign y = (a + b']);
});

it('answers every caret', async () => {
  const { study } = await open('module m; endmodule');
  const carets = [0, 7, 9].map((character) => ({ line: 0, character }));
  expect(run(selectionRanges(study, document, carets))).toHaveLength(3);
});
