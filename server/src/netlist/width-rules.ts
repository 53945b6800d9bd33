// The rule of widths for every operator (operators.ts states them; here they are held). A broken rule is a mistake of
// ours, never of the design read.

import { impossible } from '../text/impossible';
import { contentBits } from './memory-contents';
import type { NodeColumns, NodeId } from './netlist';
import { Op, opNames } from './operators';

export function checkWidths(
  nodes: NodeColumns,
  op: number,
  width: number,
  operands: readonly NodeId[],
  aux: number,
): void {
  if (width < 1) impossible(`${opNames[op]} of width ${width}`);
  if (isRight(nodes.width, op, width, operands, aux)) return;
  const widths = operands.map((operand) => nodes.width[operand]).join(', ');
  impossible(`${opNames[op]} of width ${width} and aux ${aux} on operands of widths ${widths}`);
}

function isRight(widths: Uint32Array, op: number, width: number, operands: readonly NodeId[], aux: number): boolean {
  const count = operands.length;
  switch (op) {
    case Op.constant:
    case Op.input:
    case Op.register:
    case Op.latch:
    case Op.blackBox:
    case Op.undriven:
    case Op.hole:
      return count === 0;
    case Op.net:
    case Op.delay:
    case Op.buf:
    case Op.not:
    case Op.negate:
      return count === 1 && widths[operands[0]] === width;
    case Op.resolve:
      return count >= 1 && allAre(widths, operands, width);
    case Op.concat:
      return count >= 1 && sum(widths, operands) === width;
    case Op.slice:
      return count === 1 && aux >= 0 && aux + width <= widths[operands[0]];
    case Op.zeroExtend:
    case Op.signExtend:
      return count === 1 && widths[operands[0]] <= width;
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.xor:
    case Op.xnor:
      return count >= 1 && allAre(widths, operands, width);
    case Op.add:
    case Op.subtract:
    case Op.multiply:
    case Op.divideUnsigned:
    case Op.divideSigned:
    case Op.moduloUnsigned:
    case Op.moduloSigned:
      return count === 2 && allAre(widths, operands, width);
    case Op.tristate:
      return count === 2 && widths[operands[0]] === width && widths[operands[1]] === 1;
    case Op.reduceAnd:
    case Op.reduceOr:
    case Op.reduceXor:
      return count === 1 && width === 1;
    case Op.equal:
    case Op.notEqual:
    case Op.lessUnsigned:
    case Op.lessSigned:
    case Op.lessEqualUnsigned:
    case Op.lessEqualSigned:
      return count === 2 && width === 1 && widths[operands[0]] === widths[operands[1]];
    case Op.powerUnsigned:
    case Op.powerSigned:
    case Op.shiftLeft:
    case Op.shiftRight:
    case Op.shiftRightSigned:
      return count === 2 && widths[operands[0]] === width;
    case Op.mux:
      return count === 3 && widths[operands[0]] === 1 && allAre(widths, operands.slice(1), width);
    case Op.select:
      return isRightSelect(widths, width, operands);
    case Op.readAt:
      return count === 2 && widths[operands[1]] >= 32;
    case Op.writeAt:
      return count === 3 && widths[operands[0]] === width && widths[operands[1]] >= 32;
    case Op.memoryRead:
      return count >= 2 && isContent(widths, operands[0]) && areIndices(widths, operands.slice(1));
    case Op.memoryWrite:
      return (
        count >= 4 && width === contentBits && isContent(widths, operands[0]) && areIndices(widths, operands.slice(2))
      );
    case Op.memoryFill:
      return (
        count >= 4 && width === contentBits && isContent(widths, operands[0]) && areIndices(widths, operands.slice(2))
      );
    case Op.memoryPick:
      return width === contentBits && widths[operands[0]] === count - 1 && allAre(widths, operands.slice(1), width);
    default:
      return false;
  }
}

function isContent(widths: Uint32Array, operand: NodeId): boolean {
  return widths[operand] === contentBits;
}

function areIndices(widths: Uint32Array, operands: readonly NodeId[]): boolean {
  return operands.every((operand) => widths[operand] >= 32);
}

/** Selector, pairs of label and value, default. */
function isRightSelect(widths: Uint32Array, width: number, operands: readonly NodeId[]): boolean {
  if (operands.length < 2 || operands.length % 2 !== 0) return false;
  const last = operands.length - 1;
  for (let index = 1; index < last; index += 2) {
    if (widths[operands[index]] !== widths[operands[0]] || widths[operands[index + 1]] !== width) return false;
  }
  return widths[operands[last]] === width;
}

function allAre(widths: Uint32Array, operands: readonly NodeId[], width: number): boolean {
  for (let index = 0; index < operands.length; index++) if (widths[operands[index]] !== width) return false;
  return true;
}

function sum(widths: Uint32Array, operands: readonly NodeId[]): number {
  let total = 0;
  for (let index = 0; index < operands.length; index++) total += widths[operands[index]];
  return total;
}
