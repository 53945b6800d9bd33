// Which bits a bit of a loop still hears under a setting, and which of them could yet cut it off from the others: the
// select of a mux, an input that could hold a gate at its controlling value (0 at an AND, 1 at an OR).

import { labelMatch } from './evaluate-choice';
import type { Bits } from './four-state';
import type { ConeValues, SettingCone } from './setting-cone';
import type { Bit, Netlist, NodeId } from './netlist';
import { Op } from './operators';
import { type BitVisitor, visitOperandsOfBit } from './trace';

export interface SettledLoop {
  readonly netlist: Netlist;
  readonly cone: SettingCone;
  readonly values: ConeValues;
}

/** A bit with a value hears nothing of the loop that matters. */
export function isUnknownBit({ cone, values }: SettledLoop, { node, bit }: Bit): boolean {
  const position = cone.positionOf.get(node);
  if (position === undefined) return false;
  const { a, b } = values[position];
  return ((a[bit >>> 5] & b[bit >>> 5]) >>> (bit & 31)) % 2 !== 0;
}

/** The unknown bits that this one hears, without the arms that a choice does not take. */
export function visitHeard(loop: SettledLoop, bit: Bit, visit: BitVisitor): void {
  const { nodes } = loop.netlist;
  const visitUnknown: BitVisitor = (node, index) => {
    if (isUnknownBit(loop, { node, bit: index })) visit(node, index);
  };
  const choice = choiceOf(loop, bit.node);
  if (choice === null) {
    visitOperandsOfBit(nodes, bit, visitUnknown);
    return;
  }
  visitAllOf(loop, choice.controls, visitUnknown);
  for (const operand of choice.taken) visitUnknown(operand, bit.bit);
}

/** Unknown bits that decide whether this one hears its other operands; all operands of a gate are among them. */
export function visitControls(loop: SettledLoop, bit: Bit, visit: BitVisitor): void {
  const { nodes, resolutions } = loop.netlist;
  const visitUnknown: BitVisitor = (node, index) => {
    if (isUnknownBit(loop, { node, bit: index })) visit(node, index);
  };
  const second = () => [nodes.pool[nodes.first[bit.node] + 1] as NodeId];
  switch (nodes.op[bit.node]) {
    case Op.and:
    case Op.nand:
    case Op.or:
    case Op.nor:
    case Op.reduceAnd:
    case Op.reduceOr:
    case Op.equal:
    case Op.notEqual:
      visitOperandsOfBit(nodes, bit, visitUnknown);
      return;
    case Op.resolve:
      // Of other nets no driver holds off another: 0 against unknown is unknown.
      if (['wand', 'wor'].includes(resolutions[nodes.aux[bit.node]].kind)) visitOperandsOfBit(nodes, bit, visitUnknown);
      return;
    case Op.shiftLeft:
    case Op.shiftRight:
    case Op.shiftRightSigned:
    case Op.readAt:
    case Op.writeAt:
      visitAllOf(loop, second(), visitUnknown);
      return;
    default:
      visitAllOf(loop, choiceOf(loop, bit.node)?.controls ?? [], visitUnknown);
  }
}

function visitAllOf({ netlist }: SettledLoop, from: readonly NodeId[], visit: BitVisitor): void {
  for (const node of from) for (let bit = 0; bit < netlist.nodes.width[node]; bit++) visit(node, bit);
}

interface Choice {
  readonly controls: readonly NodeId[];
  /** Operands whose bits may pass. */
  readonly taken: readonly NodeId[];
}

function choiceOf(loop: SettledLoop, node: NodeId): Choice | null {
  const { nodes } = loop.netlist;
  const operandAt = (index: number) => nodes.pool[nodes.first[node] + index] as NodeId;
  switch (nodes.op[node]) {
    case Op.mux: {
      const select = coneValue(loop, operandAt(0));
      const arms = select.b[0] !== 0 ? [1, 2] : [select.a[0] === 1 ? 1 : 2];
      return { controls: [operandAt(0)], taken: arms.map(operandAt) };
    }
    case Op.tristate:
      return { controls: [operandAt(1)], taken: [operandAt(0)] };
    case Op.select: {
      const labels = Array.from({ length: nodes.arity[node] / 2 - 1 }, (_, arm) => operandAt(1 + 2 * arm));
      return { controls: [operandAt(0), ...labels], taken: armsTaken(loop, node, labels).map(operandAt) };
    }
    default:
      return null;
  }
}

/** Operand indices of the values that a case may still take. */
function armsTaken(loop: SettledLoop, node: NodeId, labels: readonly NodeId[]): number[] {
  const { nodes, caseWildcards } = loop.netlist;
  const wildcards = nodes.aux[node] < 0 ? null : caseWildcards[nodes.aux[node]];
  const selector = coneValue(loop, nodes.pool[nodes.first[node]] as NodeId);
  const taken: number[] = [];
  for (const [arm, label] of labels.entries()) {
    const match = labelMatch(selector, coneValue(loop, label), wildcards === null ? null : wildcards[arm]);
    if (match !== 'no') taken.push(2 * arm + 2);
    if (match === 'yes') return taken;
  }
  return [...taken, nodes.arity[node] - 1];
}

function coneValue({ cone, values }: SettledLoop, node: NodeId): Bits {
  return values[cone.positionOf.get(node) as number];
}
