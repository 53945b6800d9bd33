// Every feature on text as it is while somebody types: each beginning of an example, and damaged text of its own kind, at
// carets anywhere. Nothing throws, and what an answer points at lies inside the text.

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import type { Position, Range } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { codeLens } from '../../../server/src/editor/features/code-lens';
import { definition } from '../../../server/src/editor/features/definition';
import { documentSymbols } from '../../../server/src/editor/features/document-symbols';
import { folding } from '../../../server/src/editor/features/folding';
import { highlight } from '../../../server/src/editor/features/highlight';
import { hover } from '../../../server/src/editor/features/hover';
import { inlayHints } from '../../../server/src/editor/features/inlay-hints';
import { references } from '../../../server/src/editor/features/references';
import type { Study } from '../../../server/src/report/study';
import { document, open, positionIn, run } from './caret';

const kinds = { clock: true, ratio: true, stage: true };
const seed = 20261125;
const everything = { start: { line: 0, character: 0 }, end: { line: 9_999, character: 0 } };

/** All answers of the features that need no caret. */
function askAll(study: Study): readonly Range[] {
  const symbols = run(documentSymbols(study, document));
  for (const { range, selectionRange } of symbols)
    expectOrder(range.start, selectionRange.start, selectionRange.end, range.end);
  const folded = run(folding(study, document)).map(({ endLine, startLine }) => ({
    start: { line: startLine, character: 0 },
    end: { line: endLine, character: 0 },
  }));
  const hints = run(inlayHints(study, document, everything, kinds)).map(({ position }) => ({
    start: position,
    end: position,
  }));
  const lenses = run(codeLens(study, document)).map(({ range }) => range);
  return [...symbols.map(({ range }) => range), ...folded, ...hints, ...lenses];
}

function askAt(study: Study, caret: Position): readonly Range[] {
  const card = run(hover(study, document, caret, { format: 'markdown', pictures: 'shown' }));
  return [
    ...run(definition(study, document, caret)).map(({ range }) => range),
    ...run(references(study, document, caret, { includeDeclaration: true })).map(({ range }) => range),
    ...run(highlight(study, document, caret)).map(({ range }) => range),
    ...(card?.range === undefined ? [] : [card.range]),
  ];
}

function expectInside(text: string, ranges: readonly Range[]): void {
  const lines = text.split(/\r\n|\n|\r/);
  for (const { end, start } of ranges) {
    expectOrder(start, end);
    expect(end.line).toBeLessThan(lines.length);
    for (const { character, line } of [start, end]) expect(character).toBeLessThanOrEqual(lines[line].length);
  }
}

function expectOrder(...positions: readonly Position[]): void {
  const numbers = positions.map(({ character, line }) => line * 1e6 + character);
  expect(numbers).toEqual([...numbers].sort((left, right) => left - right));
}

/** `place`, from 0 to 1: below a half anywhere, else at a word. */
function caretIn(text: string, place: number): number {
  if (place < 0.5) return Math.floor(2 * place * text.length);
  const words = [...text.matchAll(/[A-Za-z_]\w*/g)];
  return words[Math.floor((place - 0.5) * 2 * words.length)]?.index ?? 0;
}

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}.v`, import.meta.url), 'utf8');

describe('half-typed text', () => {
  it('every beginning of the ripple counter', async () => {
    const whole = example('ripple-counter');
    const declared = whole.indexOf('count,');
    for (let length = whole.indexOf('module'); length <= whole.length; length += 1) {
      const text = whole.slice(0, length);
      const { study } = await open(text);
      expectInside(text, [
        ...askAll(study),
        ...askAt(study, positionIn(text, length)),
        ...askAt(study, positionIn(text, declared)),
      ]);
    }
  }, 300_000);

  const header = 'module top(input clk, d, output reg [3:0] q);\n always @(posedge clk) q <= q + d;\n';

  const words = [
    'module m(',
    'input e, ',
    'output reg [3:0] q',
    ');\n',
    'reg r = 0;\n',
    'always @(posedge clk) ',
    'always @* ',
    'begin\n',
    'end\n',
    'q <= q + 1;\n',
    'r = q[0];\n',
    'if (r) ',
    'else ',
    'assign w = q',
    '[1]',
    '{q, r}',
    'm u(.clk(clk), .q(q));\n',
    '`W',
    '`define W 4\n',
    '`include "x.vh"\n',
    '/* 🕰️ é */',
    '// 🕰️\n',
    '"\ud800 text"',
    '\\odd+name ',
    'function f(input x);\n',
    'endfunction\n',
    'generate for (genvar i = 0; i < 2; i = i + 1) ',
    'begin : g\n',
    'case (q)\n',
    'default: ;\n',
    'endcase\n',
    'endmodule\n',
    ';',
    '(',
    ')',
    '\r\n',
    '(* keep *)',
  ];

  it(`words in any order, carets at words and anywhere (seed ${seed})`, async () => {
    const pieces = fc.array(fc.constantFrom(...words), { maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(
        pieces,
        fc.constantFrom('', '\nendmodule\n'),
        fc.array(fc.integer({ min: 0, max: 999 }), { minLength: 4, maxLength: 4 }),
        async (parts, ending, places) => {
          const text = `${header}${parts.join('')}${ending}`;
          const { study } = await open(text);
          const carets = places.map((place) => positionIn(text, caretIn(text, place / 1_000)));
          expectInside(text, [...askAll(study), ...carets.flatMap((caret) => askAt(study, caret))]);
        },
      ),
      { numRuns: 300, seed },
    );
  }, 300_000);

  it('carets outside the text', async () => {
    const { study, text } = await open(example('gray-counter'));
    for (const caret of [
      { line: 9_999, character: 0 },
      { line: 0, character: 9_999 },
      { line: 2, character: 9_999 },
    ]) {
      expectInside(text, askAt(study, caret));
    }
  });
});
