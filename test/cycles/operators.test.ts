// Every operator compiled, against its evaluation: operands of any width up to three limbs, in four states.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { evaluate } from '../../server/src/netlist/evaluate';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Bits } from '../../server/src/netlist/four-state';
import { operand } from '../../server/src/netlist/netlist';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { compiledRun, finish } from './compiled-run';

const seed = 20261125;
const widths = [1, 2, 7, 31, 32, 33, 63, 64, 65, 100, 128, 130];

type Build = (c: Circuit, operands: readonly Wire[]) => Wire;

/** Whether the compiled run gave the value that the operator has by evaluation, and whether code gave it. */
function compare(digits: readonly string[], build: Build, rounds = 1): 'compiled' | 'interpreted' | string {
  const c = circuit();
  const clk = c.input('clk');
  const operands = digits.map((initial, index) =>
    c.register(`v${index}`, { width: initial.length, clock: clk, initial, data: (self) => self }),
  );
  const result = build(c, operands);
  c.register('out', { width: result.width, clock: clk, initial: '0'.repeat(result.width), data: result });
  const netlist = c.build();
  const run = compiledRun(netlist, {});
  finish(run.advance(rounds, null));
  const out = netlist.registers[netlist.registers.length - 1];
  const got = toBinary(run.machine().values.views[run.machine().plan.positionOf[out.node]]);
  const { nodes } = netlist;
  const values = new Map(netlist.registers.map(({ initial, node }) => [node as number, initial]));
  const evaluated = (node: number): Bits => {
    const known = values.get(node);
    if (known !== undefined) return known;
    if (nodes.op[node] === Op.constant) return netlist.constants[nodes.aux[node]];
    const inputs = Array.from({ length: nodes.arity[node] }, (_, at) => evaluated(operand(nodes, node as never, at)));
    return evaluate(nodes.op[node], nodes.width[node], inputs, nodes.aux[node], netlist);
  };
  const wanted = toBinary(evaluated(out.data));
  if (got !== wanted) return `${digits.join(' ')}: ${got}, wanted ${wanted}`;
  return run.refusal ?? (run.interpreted > 0 ? 'interpreted' : 'compiled');
}

const units = fc.constantFrom(['0', '1'], ['0', '1'], ['0', '0', '0', '1', '1', '1', '0', '1', 'x', 'z']);
const digitsOf = (width: number) =>
  units.chain((unit) => fc.string({ unit: fc.constantFrom(...unit), minLength: width, maxLength: width }));
const small = (width: number) =>
  fc.nat(Math.min(200, 2 ** Math.min(width, 30) - 1)).map((value) => value.toString(2).padStart(width, '0'));

const sameWidth = (count: number) =>
  fc.constantFrom(...widths).chain((width) => fc.tuple(...Array.from({ length: count }, () => digitsOf(width))));

const plain =
  (op: OpCode): Build =>
  (c, operands) =>
    c.operator(op, operands[0].width, operands);
const test =
  (op: OpCode): Build =>
  (c, operands) =>
    c.operator(op, 1, operands);

interface Row {
  readonly name: string;
  readonly digits: fc.Arbitrary<readonly string[]>;
  readonly build: Build;
  /** The least share of runs, in percent, that code took through. */
  readonly compiled: number;
}

const name = (op: OpCode) => Object.keys(Op).find((key) => Op[key as keyof typeof Op] === op) ?? '';
const row = (op: OpCode, count: number, build: Build, compiled = 100): Row => ({
  name: name(op),
  digits: sameWidth(count),
  build,
  compiled,
});

const index = fc.oneof(small(32), small(33), digitsOf(32), fc.constantFrom('1'.repeat(32), `${'1'.repeat(29)}000`));
const shifts: readonly Row[] = [Op.shiftLeft, Op.shiftRight, Op.shiftRightSigned].map((op) => ({
  name: name(op),
  digits: fc.tuple(
    fc.constantFrom(...widths).chain(digitsOf),
    fc.oneof(small(5), small(8), small(32), small(70), digitsOf(7), digitsOf(70)),
  ),
  build: (c, [value, by]) => c.operator(op, value.width, [value, by]),
  compiled: 100,
}));

const rows: readonly Row[] = [
  ...[Op.and, Op.nand, Op.or, Op.nor, Op.xor, Op.xnor].map((op) => row(op, 3, plain(op))),
  ...[Op.not, Op.buf, Op.negate].map((op) => row(op, 1, plain(op))),
  ...[Op.reduceAnd, Op.reduceOr, Op.reduceXor].map((op) => row(op, 1, test(op))),
  ...[Op.equal, Op.notEqual, Op.lessUnsigned, Op.lessSigned, Op.lessEqualUnsigned, Op.lessEqualSigned].map((op) =>
    row(op, 2, test(op)),
  ),
  ...[Op.add, Op.subtract, Op.multiply].map((op) => row(op, 2, plain(op))),
  // Beyond 64 bits division is interpreted.
  ...[Op.divideUnsigned, Op.divideSigned, Op.moduloUnsigned, Op.moduloSigned].map((op) => row(op, 2, plain(op), 45)),
  {
    name: 'division by small numbers',
    digits: fc.constantFrom(8, 32, 64).chain((width) => fc.tuple(digitsOf(width), small(width))),
    build: plain(Op.divideUnsigned),
    compiled: 100,
  },
  ...shifts,
  {
    name: 'mux',
    digits: fc.tuple(digitsOf(1), sameWidth(2)).map(([select, values]) => [select, ...values]),
    build: (c, [select, one, two]) => c.mux(select, one, two),
    compiled: 100,
  },
  {
    name: 'tristate and resolve',
    digits: fc.tuple(digitsOf(1), digitsOf(1), sameWidth(2)).map(([one, two, values]) => [one, two, ...values]),
    build: (c, [one, two, left, right]) =>
      c.wired('net', 'wire', [c.tristate(left, one), c.tristate(right, two)], { width: left.width }),
    compiled: 100,
  },
  ...(['wand', 'wor', 'tri0', 'tri1'] as const).map((kind) => ({
    name: kind,
    digits: sameWidth(2),
    build: (c: Circuit, [one, two]: readonly Wire[]) => c.wired('net', kind, [one, two], { width: one.width }),
    compiled: 100,
  })),
  {
    name: 'concat, slice, extensions',
    digits: fc.tuple(...[5, 64, 33, 1].map(digitsOf)),
    build: (c, parts) => {
      const joined = c.concat(...parts, parts[1]);
      return c.concat(
        joined.bits(100, 37),
        c.signExtend(joined.bits(70, 3), 130),
        c.zeroExtend(joined.bits(69, 69), 65),
      );
    },
    compiled: 100,
  },
  ...[1, 8, 70].map((width) => ({
    name: `readAt of ${width} bits`,
    digits: fc.tuple(fc.constantFrom(8, 64, 100).chain(digitsOf), index),
    build: (c: Circuit, [vector, at]: readonly Wire[]) => c.operator(Op.readAt, width, [vector, at]),
    compiled: 60,
  })),
  ...[1, 8, 70].map((width) => ({
    name: `writeAt of ${width} bits`,
    digits: fc.tuple(fc.constantFrom(8, 64, 100).chain(digitsOf), index, digitsOf(width)),
    build: (c: Circuit, [vector, at, piece]: readonly Wire[]) =>
      c.operator(Op.writeAt, vector.width, [vector, at, piece]),
    compiled: 60,
  })),
];

for (const { build, compiled, digits, name } of rows) {
  it(`${name} (seed ${seed})`, () => {
    const seen: string[] = [];
    fc.assert(
      fc.property(digits, (list) => {
        const outcome = compare(list, build);
        seen.push(outcome);
        expect(['compiled', 'interpreted', 'operator-not-compiled']).toContain(outcome);
      }),
      { seed, numRuns: 60 },
    );
    expect(seen.filter((outcome) => outcome === 'compiled').length).toBeGreaterThanOrEqual(
      (compiled / 100) * seen.length,
    );
  });
}

const label = (value: number, width: number) => value.toString(2).padStart(width, '0');
const cases: readonly (readonly [name: string, width: number, values: 'constant' | 'variable', wild: boolean])[] = [
  ['a table', 4, 'constant', false],
  ['a tree', 4, 'variable', false],
  ['a tree with wildcards', 5, 'variable', true],
  ['arms in order', 12, 'variable', false],
  ['arms in order with wildcards', 40, 'variable', true],
];

for (const [name, width, values, wild] of cases) {
  it(`select: ${name} (seed ${seed})`, () => {
    const arbitrary = fc.tuple(
      fc.oneof(small(width), digitsOf(width)),
      digitsOf(9),
      digitsOf(9),
      fc.array(fc.nat(2 ** Math.min(width, 5) - 1), { minLength: 1, maxLength: 12 }),
    );
    fc.assert(
      fc.property(arbitrary, ([selector, one, two, arms]) => {
        const outcome = compare([selector, one, two], (c, [chosen, left, right]) =>
          c.select(
            chosen,
            arms.map((value, arm): [string, Wire] => [
              wild && arm % 2 === 0 ? `${label(value, width).slice(0, -2)}??` : label(value, width),
              values === 'constant' ? c.constant(label((value * 37 + arm) % 512, 9)) : arm % 2 === 0 ? left : right,
            ]),
            c.constant('000000111'),
          ),
        );
        expect(['compiled', 'interpreted']).toContain(outcome);
        if (!/[xz]/.test(selector)) expect(outcome).toBe('compiled');
      }),
      { seed, numRuns: 60 },
    );
  });
}

it('a case of variable labels', () => {
  fc.assert(
    fc.property(fc.tuple(digitsOf(1), digitsOf(1), digitsOf(4), digitsOf(4)), (digits) => {
      const outcome = compare(digits, (c, [first, second, one, two]) =>
        c.operator(Op.select, 4, [c.constant('1'), first, one, second, two, c.constant('0101')], -1),
      );
      expect(outcome).toBe('compiled');
    }),
    { seed, numRuns: 60 },
  );
});
