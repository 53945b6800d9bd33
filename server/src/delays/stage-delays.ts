// Which delay of a set a thing takes: a register by its stage, an operator by its class. Says nothing about explicit
// delays of the text; those replace what is answered here, where they stand.

import { Op } from '../netlist/operators';
import type { DelaySet, DirectionalDelay, LogicClass } from './delay-set';
import { zeroDelay } from './triple';

/**
 * Clock-to-output of a register of `stage` (1 = clocked from the root), ps. In a set of parts of several stages, every
 * part begins with `first` (definition of a delay set: (stage − 1) mod stagesPerPart = 0).
 */
export function clockToQOf(set: DelaySet, stage: number): DirectionalDelay {
  const { first, next } = set.clockToQ;
  const position = set.stagesPerPart === null ? stage - 1 : (stage - 1) % set.stagesPerPart;
  return position <= 0 ? first : (next ?? first);
}

/** Delay of one operator, ps; 0 where the set states none for its class, and for wiring and sources. */
export function logicDelayOf(set: DelaySet, op: number): DirectionalDelay {
  const logicClass = logicClassOf(op);
  if (logicClass === null || set.logic === null) return zeroDelay;
  return set.logic[logicClass] ?? zeroDelay;
}

/**
 * Bitwise gates and reductions are gates whatever their number of inputs; a case is a `select`, and so is an indexed
 * read or write. Null: sources, wiring, explicit delays and the meeting of drivers on a net take no time of their own.
 */
export function logicClassOf(op: number): LogicClass | null {
  switch (op) {
    case Op.buf:
      return 'buffer';
    case Op.not:
      return 'inverter';
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.xor:
    case Op.xnor:
    case Op.reduceAnd:
    case Op.reduceOr:
    case Op.reduceXor:
      return 'gate';
    case Op.tristate:
      return 'tristate';
    case Op.mux:
      return 'multiplexer';
    case Op.select:
    case Op.readAt:
    case Op.writeAt:
    case Op.memoryRead:
    case Op.memoryWrite:
    case Op.memoryFill:
      return 'select';
    case Op.memoryPick:
      return 'multiplexer';
    case Op.shiftLeft:
    case Op.shiftRight:
    case Op.shiftRightSigned:
      return 'shift';
    default:
      return classOfArithmetic(op);
  }
}

function classOfArithmetic(op: number): LogicClass | null {
  if (op >= Op.equal && op <= Op.lessEqualSigned) return 'comparison';
  if (op >= Op.add && op <= Op.powerSigned) return 'arithmetic';
  return null;
}
