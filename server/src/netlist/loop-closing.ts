// Whether a combinational loop is ever closed: every value of what its selects hang on is tried, and the arms not
// taken are cut. Two units that share an adder in opposite order make a loop of the drawing that no select closes.

import { createBitGraph, loopsOf } from './bit-graph';
import { bitKey } from './bit-key';
import { evaluate } from './evaluate';
import { labelMatch } from './evaluate-choice';
import { type Bits, fromLimbs, hasUnknown, limbCount } from './four-state';
import type { Bit, Netlist, NodeColumns, NodeId } from './netlist';
import { isSource, Op } from './operators';
import type { NodeOrder } from './order';
import { type BitVisitor, visitOperandsOfBit } from './trace';

/**
 * `yes`: some value of the selects closes the loop. `never`: none does. `unknown`: it stays closed for all that was
 * tried, but its selects hang on too many bits to try, or on vectors that feed themselves.
 */
export type Closing = 'yes' | 'never' | 'unknown';

/** `loop`: bits that hear each other. `knotted`: marks by node of all that stand in a knot of `order`. */
export function closingOf(netlist: Netlist, order: NodeOrder, knotted: Uint8Array, loop: readonly Bit[]): Closing {
  const controls = findControls(netlist.nodes, order, knotted, loop);
  const choices = controls.choices;
  if (choices.size === 0) return controls.undecidable ? 'unknown' : 'yes';
  const cost = 2 ** controls.support.length * (controls.cone.length + loop.length);
  if (cost > mostWork) return 'unknown';
  for (let setting = 0; setting < 2 ** controls.support.length; setting++) {
    const values = settle(netlist, controls, setting);
    const graph = createBitGraph(loop, (bit, visit) => hearChosen(netlist, bit, choices, values, visit));
    if (loopsOf(graph).length > 0) return controls.undecidable ? 'unknown' : 'yes';
  }
  return 'never';
}

/** Node evaluations spent on one loop; above it the answer is `unknown`. */
const mostWork = 2_000_000;

interface Controls {
  /** Muxes, selects and tri-states of the loop whose choice hangs on `support` alone. */
  readonly choices: ReadonlySet<NodeId>;
  /** Source bits that the choices hang on. */
  readonly support: readonly Bit[];
  /** Nodes to evaluate for the choices, operands first. */
  readonly cone: readonly NodeId[];
  /** Whether some choice hangs on a vector that feeds itself, though not on this loop. */
  readonly undecidable: boolean;
}

/** A choice that hears the loop itself is left out: both its arms count. */
function findControls(nodes: NodeColumns, order: NodeOrder, knotted: Uint8Array, loop: readonly Bit[]): Controls {
  const looped = new Set(loop.map(bitKey));
  const choices = new Set<NodeId>();
  const support = new Map<number, Bit>();
  const cone = new Set<NodeId>();
  let undecidable = false;
  for (const node of new Set(loop.map((bit) => bit.node))) {
    const heard = hearBack(nodes, controlsOf(nodes, node));
    if (heard.length === 0 || heard.some((bit) => looped.has(bitKey(bit)))) continue;
    if (heard.some((bit) => knotted[bit.node] === 1)) {
      undecidable = true;
      continue;
    }
    choices.add(node);
    for (const bit of heard) cone.add(bit.node);
    for (const bit of heard) if (isFree(nodes, bit.node)) support.set(bitKey(bit), bit);
  }
  const rank = (node: NodeId) => order.level[node];
  return {
    choices,
    support: [...support.values()],
    cone: [...cone].sort((left, right) => rank(left) - rank(right)),
    undecidable,
  };
}

/** What decides which of its data a node passes. */
function controlsOf(nodes: NodeColumns, node: NodeId): NodeId[] {
  const operandAt = (index: number) => nodes.pool[nodes.first[node] + index] as NodeId;
  switch (nodes.op[node]) {
    case Op.mux:
      return [operandAt(0)];
    case Op.tristate:
      return [operandAt(1)];
    case Op.select:
      return labelIndices(nodes, node).map(operandAt).concat(operandAt(0));
    default:
      return [];
  }
}

function labelIndices(nodes: NodeColumns, node: NodeId): number[] {
  return Array.from({ length: nodes.arity[node] / 2 - 1 }, (_, arm) => 1 + 2 * arm);
}

/** Every bit that these nodes hear, their own included, back to sources. */
function hearBack(nodes: NodeColumns, from: readonly NodeId[]): Bit[] {
  const heard = new Map<number, Bit>();
  const waiting: Bit[] = [];
  const visit: BitVisitor = (node, bit) => {
    const next = { node, bit };
    if (heard.has(bitKey(next))) return;
    heard.set(bitKey(next), next);
    waiting.push(next);
  };
  for (const node of from) for (let bit = 0; bit < nodes.width[node]; bit++) visit(node, bit);
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (!isFree(nodes, bit.node)) visitOperandsOfBit(nodes, bit, visit);
  }
  return [...heard.values()];
}

/** State, ports and what is unknown: any value may stand there. */
function isFree(nodes: NodeColumns, node: NodeId): boolean {
  const op = nodes.op[node];
  return op === Op.memoryRead || (isSource(op) && op !== Op.constant);
}

/** Values of the cone when bit i of `setting` stands at the i-th supporting bit. Other source bits do not matter: 0. */
function settle(netlist: Netlist, controls: Controls, setting: number): ReadonlyMap<NodeId, Bits> {
  const { nodes } = netlist;
  const free = freeValues(nodes, controls.support, setting);
  const values = new Map<NodeId, Bits>();
  for (const node of controls.cone) values.set(node, free.get(node) ?? settledValue(netlist, node, values));
  return values;
}

function freeValues(nodes: NodeColumns, support: readonly Bit[], setting: number): Map<NodeId, Bits> {
  const planes = new Map<NodeId, Uint32Array>();
  support.forEach(({ node, bit }, index) => {
    const plane = planes.get(node) ?? new Uint32Array(limbCount(nodes.width[node]));
    if (((setting >>> index) & 1) === 1) plane[bit >>> 5] |= 1 << (bit & 31);
    planes.set(node, plane);
  });
  return new Map(
    [...planes].map(([node, plane]) => [node, fromLimbs(nodes.width[node], plane, new Uint32Array(plane.length))]),
  );
}

function settledValue(netlist: Netlist, node: NodeId, values: ReadonlyMap<NodeId, Bits>): Bits {
  const { nodes, constants } = netlist;
  if (nodes.op[node] === Op.constant) return constants[nodes.aux[node]];
  return evaluate(nodes.op[node], nodes.width[node], operandValues(nodes, node, values), nodes.aux[node], netlist);
}

/** An operand of which no bit is heard has no value; it may be anything, and 0 is a value like any other. */
function operandValues(nodes: NodeColumns, node: NodeId, values: ReadonlyMap<NodeId, Bits>): Bits[] {
  const first = nodes.first[node];
  return Array.from({ length: nodes.arity[node] }, (_, index) => {
    const operand = nodes.pool[first + index] as NodeId;
    const limbs = limbCount(nodes.width[operand]);
    return values.get(operand) ?? fromLimbs(nodes.width[operand], new Uint32Array(limbs), new Uint32Array(limbs));
  });
}

/** As `visitOperandsOfBit`, with the arms that a decided choice does not take left out. */
function hearChosen(
  netlist: Netlist,
  bit: Bit,
  choices: ReadonlySet<NodeId>,
  values: ReadonlyMap<NodeId, Bits>,
  visit: BitVisitor,
): void {
  const { nodes } = netlist;
  const { node } = bit;
  const taken = choices.has(node) ? takenOperand(netlist, node, values) : 'any';
  if (taken === 'any') visitOperandsOfBit(nodes, bit, visit);
  else if (taken !== 'none') visit(nodes.pool[nodes.first[node] + taken] as NodeId, bit.bit);
}

/** The index of the operand whose bits pass; `any` where the choice is unknown (a division by zero decides it). */
function takenOperand(netlist: Netlist, node: NodeId, values: ReadonlyMap<NodeId, Bits>): number | 'any' | 'none' {
  const { nodes, caseWildcards } = netlist;
  const valueAt = (index: number) => values.get(nodes.pool[nodes.first[node] + index] as NodeId) as Bits;
  if (controlsOf(nodes, node).some((control) => hasUnknown(values.get(control) as Bits))) return 'any';
  switch (nodes.op[node]) {
    case Op.mux:
      return valueAt(0).a[0] === 1 ? 1 : 2;
    case Op.tristate:
      return valueAt(1).a[0] === 1 ? 0 : 'none';
    default: {
      const wildcards = nodes.aux[node] < 0 ? null : caseWildcards[nodes.aux[node]];
      const labels = labelIndices(nodes, node);
      const arm = labels.findIndex(
        (index, which) =>
          labelMatch(valueAt(0), valueAt(index), wildcards === null ? null : wildcards[which]) === 'yes',
      );
      return arm < 0 ? nodes.arity[node] - 1 : labels[arm] + 1;
    }
  }
}
