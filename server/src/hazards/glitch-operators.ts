// One operator's bit as single-bit gates, its operands' bits given. Words are spelled out in `glitch-words.ts`; what is
// built there in a way that the text does not say is marked (definition 24 of the project). Bitwise operators,
// reductions, multiplexers, cases and `==` are gates as written.

import { digitAt } from '../netlist/four-state';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { wiringStep } from '../netlist/trace';
import { and, choose, type Literal, mark, not, oneLiteral, or, unknownLiteral, xor, zeroLiteral } from './glitch-gates';
import { equality, isSpelledOut, type WordContext, wordBit } from './glitch-words';

export interface OperatorContext extends WordContext {
  readonly netlist: Netlist;
  /** Per case: which arm's label matches, kept for all its bits. */
  readonly matches: Map<NodeId, readonly Literal[]>;
}

/** A product, quotient or power: not spelled out. */
export function isOpaque(op: number): boolean {
  return op >= Op.multiply && op <= Op.powerSigned;
}

/** Every operand bit that this bit hears has been made before; none for a source or an opaque operator. */
export function operatorLiteral(context: OperatorContext, bit: Bit): Literal {
  const { nodes, read } = context;
  const wired = wiringStep(nodes, bit);
  if (wired !== null) return read(wired.node, wired.bit);
  const op = nodes.op[bit.node];
  if (op === Op.zeroExtend) return zeroLiteral;
  if (!isSpelledOut(op)) return choiceOrGate(context, bit);
  const literal = wordBit(context, bit);
  return isBuiltAsWritten(context, bit.node) ? literal : mark(context.gates, literal);
}

/** Comparing for equality is a gate; a shift or an index by a constant is wiring. */
function isBuiltAsWritten(context: OperatorContext, node: NodeId): boolean {
  const { nodes } = context;
  const op = nodes.op[node];
  if (op === Op.equal || op === Op.notEqual) return true;
  if (op < Op.shiftLeft) return false;
  const amount = operand(nodes, node, 1);
  for (let bit = 0; bit < nodes.width[amount]; bit++) if (context.read(amount, bit) > oneLiteral) return false;
  return true;
}

function choiceOrGate(context: OperatorContext, { node, bit }: Bit): Literal {
  const { gates, nodes } = context;
  const at = (index: number, of = bit) => readOperand(context, node, index, of);
  switch (nodes.op[node]) {
    case Op.buf:
    case Op.delay:
      return at(0);
    case Op.not:
      return not(at(0));
    case Op.tristate:
      return choose(gates, at(1, 0), at(0), unknownLiteral);
    case Op.mux:
      return choose(gates, at(0, 0), at(1), at(2));
    case Op.select:
      return selectLiteral(context, { node, bit });
    case Op.resolve:
      return resolveLiteral(context, { node, bit });
    default:
      return gateLiteral(context, { node, bit });
  }
}

function gateLiteral(context: OperatorContext, { node, bit }: Bit): Literal {
  const { gates, nodes } = context;
  const op = nodes.op[node];
  const combined = inputsOfGate(context, { node, bit }).reduce((left, right) => {
    if (op === Op.and || op === Op.nand || op === Op.reduceAnd) return and(gates, left, right);
    if (op === Op.or || op === Op.nor || op === Op.reduceOr) return or(gates, left, right);
    return xor(gates, left, right);
  });
  return op === Op.nand || op === Op.nor || op === Op.xnor ? not(combined) : combined;
}

/** All bits of a reduction's one operand; one bit of every operand of a bitwise gate. */
function inputsOfGate(context: OperatorContext, { node, bit }: Bit): Literal[] {
  const { nodes } = context;
  const op = nodes.op[node];
  if (op !== Op.reduceAnd && op !== Op.reduceOr && op !== Op.reduceXor) {
    return Array.from({ length: nodes.arity[node] }, (_, index) => readOperand(context, node, index, bit));
  }
  const width = nodes.width[operand(nodes, node, 0)];
  return Array.from({ length: width }, (_, index) => readOperand(context, node, 0, index));
}

/** The first label that matches wins, so the last arm is chosen innermost. */
function selectLiteral(context: OperatorContext, { node, bit }: Bit): Literal {
  const match = matchesOf(context, node);
  let chosen = readOperand(context, node, context.nodes.arity[node] - 1, bit);
  for (let arm = match.length - 1; arm >= 0; arm--) {
    chosen = choose(context.gates, match[arm], readOperand(context, node, 2 + 2 * arm, bit), chosen);
  }
  return chosen;
}

function matchesOf(context: OperatorContext, node: NodeId): readonly Literal[] {
  const known = context.matches.get(node);
  if (known !== undefined) return known;
  const arms = (context.nodes.arity[node] - 2) / 2;
  const found = Array.from({ length: arms }, (_, arm) => labelMatch(context, node, arm));
  context.matches.set(node, found);
  return found;
}

function labelMatch(context: OperatorContext, node: NodeId, arm: number): Literal {
  const { gates, nodes, netlist, read } = context;
  const [selector, label] = [operand(nodes, node, 0), operand(nodes, node, 1 + 2 * arm)];
  if (nodes.aux[node] < 0) return equality(context, selector, label);
  const wild = netlist.caseWildcards[nodes.aux[node]][arm];
  let match = oneLiteral;
  for (let bit = 0; bit < nodes.width[selector]; bit++) {
    if (digitAt(wild, bit) === '1') continue;
    match = and(gates, match, not(xor(gates, read(selector, bit), read(label, bit))));
  }
  return match;
}

/** Of several drivers the one that drives; two at once are another finding's matter. Pulled where none does. */
function resolveLiteral(context: OperatorContext, { node, bit }: Bit): Literal {
  const { gates, nodes, netlist } = context;
  const { kind } = netlist.resolutions[nodes.aux[node]];
  const drivers = Array.from({ length: nodes.arity[node] }, (_, index) => ({
    value: readOperand(context, node, index, bit),
    drives: driving(context, { node: operand(nodes, node, index), bit }),
  }));
  if (kind === 'wand') {
    return drivers.reduce((all, { value, drives }) => and(gates, all, or(gates, value, not(drives))), oneLiteral);
  }
  if (kind === 'wor') {
    return drivers.reduce((any, { value, drives }) => or(gates, any, and(gates, value, drives)), zeroLiteral);
  }
  const pulled = kind === 'tri0' ? zeroLiteral : kind === 'tri1' ? oneLiteral : unknownLiteral;
  return drivers.reduce((rest, { value, drives }) => choose(gates, drives, value, rest), pulled);
}

/** Whether a driver drives: by its enable, by the choice between a value and z, or always. */
function driving(context: OperatorContext, driver: Bit): Literal {
  const { gates, nodes } = context;
  const { node, bit } = pastWiring(context, driver);
  if (nodes.op[node] === Op.tristate) return readOperand(context, node, 1, 0);
  if (isReleased(context, { node, bit })) return zeroLiteral;
  if (nodes.op[node] !== Op.mux) return oneLiteral;
  const [whenOne, whenZero] = [1, 2].map((index) =>
    isReleased(context, { node: operand(nodes, node, index), bit }) ? zeroLiteral : oneLiteral,
  );
  return choose(gates, readOperand(context, node, 0, 0), whenOne, whenZero);
}

function isReleased(context: OperatorContext, driver: Bit): boolean {
  const { nodes, netlist } = context;
  const { node, bit } = pastWiring(context, driver);
  return nodes.op[node] === Op.constant && digitAt(netlist.constants[nodes.aux[node]], bit) === 'z';
}

function pastWiring({ nodes }: OperatorContext, start: Bit): Bit {
  let bit = start;
  for (let next = wiringStep(nodes, bit); next !== null; next = wiringStep(nodes, bit)) bit = next;
  return bit;
}

function readOperand({ nodes, read }: OperatorContext, node: NodeId, index: number, bit: number): Literal {
  return read(operand(nodes, node, index), bit);
}
