// Slicing an edited text again gives what slicing it afresh gives, whatever the edits; and looks at little of it. The seed is
// printed; the same seed gives the same edits.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { sliceAgain, type Sliced } from '../../server/src/syntax/slice-again';
import { type Slice, sliceUnits } from '../../server/src/syntax/slices';

const always = () => true;

const words = [
  'module m;',
  'module m(input a);\n  wire x;\nendmodule : m\n',
  'module outer; module inner; endmodule endmodule\n',
  'endmodule',
  'endmodule (* a *) : m ',
  '\nprimitive p(o, a); endprimitive\n',
  'package k; endpackage',
  'interface i; endinterface',
  'class c; endclass',
  'extern module e;',
  'virtual interface v;',
  'automatic',
  ': label',
  '(* keep',
  '(*',
  '*)',
  '@(*)',
  '"',
  '\\',
  '/*',
  '*/',
  '// ',
  "'h ",
  '12',
  '`tick ',
  ';',
  ' ',
  '\n',
  'x',
];

const text = fc.array(fc.constantFrom(...words), { maxLength: 24 }).map((parts) => parts.join(''));
const edit = fc.record({ from: fc.nat(400), length: fc.nat(12), insert: fc.constantFrom('', ...words) });

it('gives the slices of the text as it stands', () => {
  const seed = Number(process.env.FORETICK_SEED ?? 20261125);
  process.stdout.write(`random edits of texts from seed ${seed} (FORETICK_SEED sets another)\n`);
  let taken = 0;
  fc.assert(
    fc.property(text, fc.array(edit, { minLength: 1, maxLength: 6 }), (first, edits) => {
      let now: Sliced = { text: first, slices: sliceUnits(first) };
      for (const { from, insert, length } of edits) {
        const place = from % (now.text.length + 1);
        const next = sliceAgain(now, now.text.slice(0, place) + insert + now.text.slice(place + length), always);
        expect(cuts(next.slices)).toEqual(cuts(sliceUnits(next.text)));
        for (const [index, before] of next.before.entries()) {
          if (before < 0) continue;
          taken += 1;
          expect(textOf(next, index)).toBe(textOf(now, before));
        }
        now = next;
      }
    }),
    { seed, numRuns: Number(process.env.FORETICK_RUNS ?? 1_000) },
  );
  // Without this the comparison would hold where everything is sliced afresh.
  expect(taken).toBeGreaterThan(1_000);
});

it('looks no further than the units around the edit', () => {
  const units = Array.from({ length: 50 }, (_, index) => `module m${index}; wire (* a *) x; endmodule\n`);
  const before = units.join('');
  const at = before.indexOf('m20;');
  const after = `${before.slice(0, at)}n${before.slice(at)}`;
  const looked: string[] = [];
  const again = sliceAgain({ text: before, slices: sliceUnits(before) }, after, (word, offset) => {
    looked.push(`${word} ${Math.floor(offset / (before.length / 50))}`);
    return true;
  });
  expect(cuts(again.slices)).toEqual(cuts(sliceUnits(after)));
  expect([...again.before].filter((index) => index < 0).length).toBeLessThan(6);
  expect(looked.length).toBeGreaterThan(0);
  expect(looked.length).toBeLessThan(20);
});

function textOf({ slices, text: whole }: Sliced, index: number): string {
  return whole.slice(slices[index].start, slices[index].end);
}

/** How far a slice reaches may be told by a word whose end does not matter: `'h ` takes digits behind blanks. */
function cuts(slices: readonly Slice[]): readonly Omit<Slice, 'reach'>[] {
  return slices.map(({ reach, ...slice }) => slice);
}
