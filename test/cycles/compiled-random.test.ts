// Random circuits without races: compiled and interpreted runs agree bit for bit after every instant.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { buildCircuit, recipes } from '../predict/random-circuit';
import { compiledRun, told } from './compiled-run';

const seed = 20261125;

const digits = (width: number, unit: readonly string[]) =>
  fc.string({ unit: fc.constantFrom(...unit), minLength: width, maxLength: width });

for (const [name, unit] of [
  ['known inputs', ['0', '1']],
  ['unknown inputs', ['0', '1', 'x']],
] as const) {
  it(`agrees with the interpreter, ${name} (seed ${seed})`, () => {
    let [all, inCode, onTape] = [0, 0, 0];
    fc.assert(
      fc.property(recipes, digits(8, unit), digits(40, unit), fc.constantFrom('0', '1'), (recipe, a, b, clear) => {
        const netlist = buildCircuit(recipe);
        const compiled = compiledRun(netlist, { a, b, clear });
        expect(told(compiled, 40)).toEqual(told(compiledRun(netlist, { a, b, clear }, { compile: 'step' }), 40));
        const tape = compiledRun(netlist, { a, b, clear }, { compile: null });
        expect(told(tape, 40)).toEqual(told(compiledRun(netlist, { a, b, clear }, { compile: 'step' }), 40));
        onTape += tape.periods - tape.interpreted;
        all += compiled.periods;
        inCode += compiled.periods - compiled.interpreted;
      }),
      { seed, numRuns: 200 },
    );
    expect(inCode).toBeGreaterThan(0.8 * all);
    expect(onTape).toBeGreaterThan(0.1 * all);
  });
}
