// Random expressions, sent through the tool twice - as parameters (the constant evaluator) and as logic between held
// inputs and an output (the netlist) - and held to the evaluator beside this file.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { reportOf, valueAt } from '../tools/report-of';
import { assigned, digitsOf } from './evaluator';
import { binaryOperators, type Expression, expressions, literalText, print } from './expression';

const seed = 20260117;

function check(name: string, run: (seeded: { seed: number; numRuns: number }) => Promise<void>, numRuns: number): void {
  it(`${name} (seed ${seed}, ${numRuns} expressions)`, () => run({ seed, numRuns }));
}

const everything = { digits: '0011xz', maxWidth: 9, operators: binaryOperators };
const wide = { digits: '01', maxWidth: 70, operators: binaryOperators.filter((operator) => operator !== '**') };
// The netlist reads === as ==, and says so; a known operand makes no difference between the two.
const synthesizable: readonly string[] = binaryOperators.filter((one) => one !== '===' && one !== '!==');
const known = { digits: '01', maxWidth: 9, operators: binaryOperators.filter((one) => synthesizable.includes(one)) };
const widths = fc.integer({ min: 1, max: 80 });

for (const [name, shape] of Object.entries({ everything, wide })) {
  check(
    `constants: ${name}`,
    (seeded) =>
      fc.assert(
        fc.asyncProperty(expressions(shape), widths, async (expression, width) => {
          expect(await asConstant(expression, width)).toBe(assigned(expression, width));
        }),
        seeded,
      ),
    400,
  );
  check(
    `netlist: ${name}`,
    (seeded) =>
      fc.assert(
        fc.asyncProperty(
          expressions({ ...shape, operators: shape.operators.filter((one) => synthesizable.includes(one)) }),
          widths,
          async (expression, width) => {
            expect(await asNetlist(expression, width)).toBe(assigned(expression, width));
          },
        ),
        seeded,
      ),
    400,
  );
}

check(
  'functions: of constants, and of inputs',
  (seeded) =>
    fc.assert(
      fc.asyncProperty(expressions(known), widths, async (expression, width) => {
        const expected = assigned(expression, width);
        expect(await asFunction(expression, width)).toEqual([expected, expected]);
      }),
      seeded,
    ),
  200,
);

/** As a parameter, which tells z from x; the report prints it in decimal where it is known. */
async function asConstant(expression: Expression, width: number): Promise<string> {
  const text = `module m(input c, output y);
    parameter [${width - 1}:0] p = ${print(expression, literalText)};
    assign y = c;
  endmodule`;
  const { p } = (await reportOf([{ path: 'm.v', text }])).parameters;
  return /[xz]/.test(p) || p.length === width ? p : digitsOf(BigInt(p), width);
}

/** Every literal becomes an input port that is held at the literal's value. */
async function asNetlist(expression: Expression, width: number): Promise<string> {
  const inputs: Record<string, string> = {};
  const ports: string[] = [];
  const body = print(expression, (literal) => {
    const name = `i${ports.length}`;
    inputs[name] = `${literal.digits.length}'b${literal.digits}`;
    ports.push(`input ${literal.signed ? 'signed ' : ''}[${literal.digits.length - 1}:0] ${name}`);
    return name;
  });
  const text = `module m(${ports.join(', ')}, output [${width - 1}:0] y); assign y = ${body}; endmodule`;
  return valueAt([{ path: 'm.v', text }], 'y', 0, { project: JSON.stringify({ inputs }) });
}

/** Every literal becomes an input of a function, which is called with the literals (as a parameter) and with ports. */
async function asFunction(expression: Expression, width: number): Promise<readonly [string, string]> {
  const inputs: Record<string, string> = {};
  const values: string[] = [];
  const declared: string[] = [];
  const body = print(expression, (literal) => {
    const name = `i${declared.length}`;
    inputs[name] = `${literal.digits.length}'b${literal.digits}`;
    values.push(literalText(literal));
    declared.push(`input ${literal.signed ? 'signed ' : ''}[${literal.digits.length - 1}:0] ${name}`);
    return name;
  });
  const called = (given: readonly string[]) => `f(${given.join(', ')})`;
  const text = `module m(${declared.join(', ')}, output [${width - 1}:0] y);
    function [${width - 1}:0] f(${declared.join(', ')}); f = ${body}; endfunction
    parameter [${width - 1}:0] p = ${called(values)};
    assign y = ${called(Object.keys(inputs))};
  endmodule`;
  const files = [{ path: 'm.v', text }];
  const { p } = (await reportOf(files)).parameters;
  const constant = /[xz]/.test(p) || p.length === width ? p : digitsOf(BigInt(p), width);
  return [constant, await valueAt(files, 'y', 0, { project: JSON.stringify({ inputs }) })];
}
