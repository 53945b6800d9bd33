// What an operator gives for known operand values, by the hardware reading (definition 15 of the project): an unknown
// select merges bit by bit, wildcards count only in case items, unknown bits of arithmetic make the whole result x.
// Gates, tests and arithmetic hear z as x; wiring, choices and shifts move digits, z included.
// Sources and memory words have no value here: they are state, kept by whoever runs the netlist.

import { impossible } from '../text/impossible';
import { add, negate, subtract } from './evaluate-add';
import { bitwiseAnd, bitwiseNot, bitwiseOr, bitwiseXor, buffer } from './evaluate-bitwise';
import { choose, chooseLabel, readAt, writeAt } from './evaluate-choice';
import { equal, lessSigned, lessUnsigned } from './evaluate-compare';
import { divide, modulo, multiply, power } from './evaluate-multiply';
import { reduceAnd, reduceOr, reduceXor } from './evaluate-reduce';
import { resolve, tristate } from './evaluate-resolve';
import { shiftLeft, shiftRight } from './evaluate-shift';
import type { Bits } from './four-state';
import { concat, resize, slice } from './four-state-parts';
import type { Netlist } from './netlist';
import { Op, opNames } from './operators';

/** The tables that `resolve` and `select` look their `aux` up in. A netlist is one; so is a node builder. */
export type OperatorTables = Pick<Netlist, 'resolutions' | 'caseWildcards'>;

/** The value of a node of this operator, width and aux (see `operators.ts`), from the values of its operands in order. */
export function evaluate(
  op: number,
  width: number,
  operands: readonly Bits[],
  aux: number,
  tables: OperatorTables,
): Bits {
  switch (op) {
    case Op.net:
    case Op.delay:
      return operands[0];
    case Op.resolve:
      return resolve(tables.resolutions[aux].kind, operands);
    case Op.concat:
      return concat(operands);
    case Op.slice:
      return slice(operands[0], aux, width);
    case Op.zeroExtend:
      return resize(operands[0], width, 'zero');
    case Op.signExtend:
      return resize(operands[0], width, 'sign');
    case Op.buf:
      return buffer(operands[0]);
    case Op.not:
      return bitwiseNot(operands[0]);
    case Op.and:
      return bitwiseAnd(operands);
    case Op.nand:
      return bitwiseNot(bitwiseAnd(operands));
    case Op.or:
      return bitwiseOr(operands);
    case Op.nor:
      return bitwiseNot(bitwiseOr(operands));
    case Op.xor:
      return bitwiseXor(operands);
    case Op.xnor:
      return bitwiseNot(bitwiseXor(operands));
    case Op.tristate:
      return tristate(operands[0], operands[1]);
    case Op.reduceAnd:
      return reduceAnd(operands[0]);
    case Op.reduceOr:
      return reduceOr(operands[0]);
    case Op.reduceXor:
      return reduceXor(operands[0]);
    case Op.equal:
      return equal(operands[0], operands[1]);
    case Op.notEqual:
      return bitwiseNot(equal(operands[0], operands[1]));
    case Op.lessUnsigned:
      return lessUnsigned(operands[0], operands[1]);
    case Op.lessSigned:
      return lessSigned(operands[0], operands[1]);
    case Op.lessEqualUnsigned:
      return bitwiseNot(lessUnsigned(operands[1], operands[0]));
    case Op.lessEqualSigned:
      return bitwiseNot(lessSigned(operands[1], operands[0]));
    case Op.add:
      return add(operands[0], operands[1]);
    case Op.subtract:
      return subtract(operands[0], operands[1]);
    case Op.negate:
      return negate(operands[0]);
    case Op.multiply:
      return multiply(operands[0], operands[1]);
    case Op.divideUnsigned:
      return divide('unsigned', operands[0], operands[1]);
    case Op.divideSigned:
      return divide('signed', operands[0], operands[1]);
    case Op.moduloUnsigned:
      return modulo('unsigned', operands[0], operands[1]);
    case Op.moduloSigned:
      return modulo('signed', operands[0], operands[1]);
    case Op.powerUnsigned:
      return power('unsigned', aux === 1 ? 'signed' : 'unsigned', operands[0], operands[1]);
    case Op.powerSigned:
      return power('signed', aux === 1 ? 'unsigned' : 'signed', operands[0], operands[1]);
    case Op.shiftLeft:
      return shiftLeft(operands[0], operands[1]);
    case Op.shiftRight:
      return shiftRight(operands[0], operands[1], 'zero');
    case Op.shiftRightSigned:
      return shiftRight(operands[0], operands[1], 'sign');
    case Op.mux:
      return choose(operands[0], operands[1], operands[2]);
    case Op.select:
      return chooseLabel(operands, aux < 0 ? null : tables.caseWildcards[aux]);
    case Op.readAt:
      return readAt(operands[0], operands[1], width);
    case Op.writeAt:
      return writeAt(operands[0], operands[1], operands[2]);
    default:
      return impossible(`${opNames[op] ?? op} has no value of its own`);
  }
}
