// A word that reads itself shifted up (or down) is no loop: bit i hears only bits below (or above) it. Random such words are split into bits
// by elaboration and evaluated; the same word is computed by a run that repeats its assignment until it stands still.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { combinationalLoops } from '../../server/src/netlist/loops';
import { netlistOf } from '../tools/elaborated';
import { checkNodes, valuesOf } from './evaluate-netlist';
import { driverOf, signalOf } from './netlist-text';

const seed = 20260118;
const numRuns = 150;

/** `w` appears only as `w << 1` or a part moved up; every operator here keeps bit i from hearing bits above i. */
const words = fc.letrec<{ word: string }>((tie) => ({
  word: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom('(w << 1)', '{w[6:0], c}', '{w[4:0], a[2:0]}', 'a', 'b', "8'd5", '$signed({w[6:0], c})'),
    fc
      .tuple(tie('word'), fc.constantFrom('+', '-', '*', '&', '|', '^', '~^'), tie('word'))
      .map(([left, operator, right]) => `(${left} ${operator} ${right})`),
    fc.tuple(fc.constantFrom('~', '-', '+'), tie('word')).map(([operator, word]) => `(${operator}${word})`),
    fc.tuple(tie('word'), fc.constantFrom('1', '3', 'c')).map(([word, amount]) => `(${word} << ${amount})`),
    fc.tuple(tie('word'), tie('word')).map(([one, zero]) => `(c ? ${one} : ${zero})`),
    fc.tuple(tie('word'), tie('word')).map(([one, zero]) => `((a == b) ? ${one} : ${zero})`),
  ),
})).word;

/** The same downward. */
const downward = fc.letrec<{ word: string }>((tie) => ({
  word: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom('(w >> 1)', '{c, w[7:1]}', 'a', "8'd165"),
    fc
      .tuple(tie('word'), fc.constantFrom('&', '|', '^'), tie('word'))
      .map(([left, operator, right]) => `(${left} ${operator} ${right})`),
    fc
      .tuple(tie('word'), fc.constantFrom('>>', '>>>'), fc.constantFrom('1', 'c', 'b[1:0]'))
      .map(([word, operator, amount]) => `(${word} ${operator} ${amount})`),
    fc.tuple(tie('word')).map(([word]) => `(~${word})`),
    fc.tuple(tie('word'), tie('word')).map(([one, zero]) => `(c ? ${one} : ${zero})`),
  ),
})).word;

const given = fc.record({ a: fc.nat(255), b: fc.nat(255), c: fc.nat(1) });

test(`split words agree with a run to rest (seed ${seed}, ${numRuns} words)`, async () => {
  await fc.assert(
    fc.asyncProperty(fc.oneof(words, downward), given, async (word, { a, b, c }) => {
      const { netlist, complaints } = await netlistOf(
        `module m(input [7:0] a, b, input c, output [7:0] w); assign w = ${word}; endmodule`,
      );
      expect(complaints).toEqual([]);
      checkNodes(netlist);
      expect(combinationalLoops(netlist)).toEqual([]);
      const run = await netlistOf(`module m; reg [7:0] a, b, w; reg c; integer k;
        initial begin a = ${a}; b = ${b}; c = ${c}; w = 0; for (k = 0; k < 9; k = k + 1) w = ${word}; end endmodule`);
      const inputs = { a: fromNumber(8, a), b: fromNumber(8, b), c: fromNumber(1, c) };
      const value = valuesOf(netlist, { inputs });
      expect(toBinary(value(signalOf(netlist, 'w').node))).toBe(driverOf(run.netlist, 'w'));
    }),
    { seed, numRuns },
  );
});
