// Operators as single-bit logic against what the netlist says they compute, for known operands.

import { describe, expect, it } from 'vitest';
import { createLogic, literalOf } from '../../../server/src/hazards/glitch-logic';
import { createCone } from '../../../server/src/hazards/glitch-cone';
import { May, mayBe } from '../../../server/src/hazards/glitch-value';
import { evaluate } from '../../../server/src/netlist/evaluate';
import { type Bits, digitAt, fromBigInt, toBinary } from '../../../server/src/netlist/four-state';
import type { NodeId } from '../../../server/src/netlist/netlist';
import { Op, type OpCode, opNames } from '../../../server/src/netlist/operators';
import { circuit } from '../../tools/circuit';
import { randomFrom } from './random-ripple';

interface Case {
  readonly op: OpCode;
  readonly width: number;
  readonly operands: readonly number[];
}

const bitwise = [Op.and, Op.nand, Op.or, Op.nor, Op.xor, Op.xnor].map(
  (op): Case => ({ op, width: 4, operands: [4, 4, 4] }),
);
const unary = [Op.buf, Op.not, Op.negate].map((op): Case => ({ op, width: 5, operands: [5] }));
const reductions = [Op.reduceAnd, Op.reduceOr, Op.reduceXor].map((op): Case => ({ op, width: 1, operands: [5] }));
const comparisons = [
  Op.equal,
  Op.notEqual,
  Op.lessUnsigned,
  Op.lessSigned,
  Op.lessEqualUnsigned,
  Op.lessEqualSigned,
].map((op): Case => ({ op, width: 1, operands: [4, 4] }));
const sums = [Op.add, Op.subtract].map((op): Case => ({ op, width: 6, operands: [6, 6] }));
const shifts = [Op.shiftLeft, Op.shiftRight, Op.shiftRightSigned].flatMap((op): Case[] => [
  { op, width: 5, operands: [5, 3] },
  { op, width: 6, operands: [6, 5] },
  { op, width: 1, operands: [1, 2] },
]);
const choices: Case[] = [
  { op: Op.mux, width: 3, operands: [1, 3, 3] },
  { op: Op.select, width: 2, operands: [3, 3, 2, 3, 2, 2] },
  { op: Op.readAt, width: 2, operands: [7, 32] },
  { op: Op.writeAt, width: 7, operands: [7, 32, 3] },
];

/** Bits of the result by single-bit logic, and by the netlist's rules. */
function both({ op, width, operands }: Case, values: readonly Bits[]): [string, string] {
  const c = circuit();
  const inputs = operands.map((operand, index) => c.input(`i${index}`, { width: operand }));
  const result = c.operator(op, width, inputs, op === Op.select ? -1 : 0);
  c.output('y', result);
  const netlist = c.build();
  const logic = createLogic(netlist, () => false);
  const may = (variable: number): number => {
    const { node, bit } = logic.variables[variable].bit;
    const value = values[netlist.nodes.aux[node]];
    return digitAt(value, bit) === '1' ? May.beOne : May.beZero;
  };
  const digits = Array.from({ length: width }, (_, bit) => {
    const literal = literalOf(logic, { node: result.node as NodeId, bit });
    const found = mayBe(createCone(logic.gates, literal), { may, marks: 'pass' });
    return found === May.beOne ? '1' : found === May.beZero ? '0' : 'x';
  });
  return [digits.reverse().join(''), toBinary(evaluate(op, width, values, op === Op.select ? -1 : 0, netlist))];
}

describe('single-bit logic', () => {
  it.each(
    [...bitwise, ...unary, ...reductions, ...comparisons, ...sums, ...shifts, ...choices].map(
      (one) => [opNames[one.op], one] as const,
    ),
  )('%s', (_, one) => {
    const random = randomFrom(one.op + one.width);
    for (let round = 0; round < 60; round++) {
      const values = one.operands.map((width) => {
        // An index is now and then just outside, and seldom far away.
        const number = width === 32 ? random(12) - 3 : random(2 ** Math.min(width, 30));
        return fromBigInt(width, BigInt(number));
      });
      const [found, expected] = both(one, values);
      expect({ values: values.map(toBinary), found }).toEqual({ values: values.map(toBinary), found: expected });
    }
  });
});
