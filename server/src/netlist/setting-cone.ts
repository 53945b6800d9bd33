// What some bits hang on, and what they are under a setting of that. Loops start unknown and are evaluated until nothing
// changes, so that a bit still unknown is one that the setting does not cut loose from its loop (S. Malik, Analysis of
// Cyclic Combinational Circuits, 1994; from memory). Values, not searching: that is for those who ask.

import { bitKey } from './bit-key';
import { evaluate } from './evaluate';
import { allX, type Bits, equalBits, fromLimbs, limbCount, zero } from './four-state';
import type { Bit, Netlist, NodeColumns, NodeId } from './netlist';
import { isSource, Op } from './operators';
import type { NodeOrder } from './order';
import { type BitVisitor, visitOperandsOfBit } from './trace';

export interface SettingCone {
  /** Every node that the bits hear, theirs included, operands first where nothing goes round. */
  readonly nodes: readonly NodeId[];
  readonly positionOf: ReadonlyMap<NodeId, number>;
  /** Positions of the operands of each; -1 for one of which no bit is heard. */
  readonly operands: readonly (readonly number[])[];
  /** The bits of ports, state and what is unknown that they hear, by position: any value may stand there. */
  readonly free: ReadonlyMap<number, readonly Bit[]>;
}

/** Values by position in the cone. */
export type ConeValues = readonly Bits[];

export function coneOf(nodes: NodeColumns, order: NodeOrder, from: readonly Bit[]): SettingCone {
  const heard = hearBack(nodes, from);
  const members = [...new Set(heard.map(({ node }) => node))];
  members.sort((left, right) => order.level[left] - order.level[right] || left - right);
  const positionOf = new Map(members.map((node, position) => [node, position]));
  const free = new Map<number, Bit[]>();
  for (const bit of heard) {
    if (!isFree(nodes, bit.node)) continue;
    const position = positionOf.get(bit.node) as number;
    free.set(position, [...(free.get(position) ?? []), bit]);
  }
  return {
    nodes: members,
    positionOf,
    operands: members.map((node) => (isFree(nodes, node) ? [] : operandPositions(nodes, node, positionOf))),
    free,
  };
}

/**
 * Values where `setting` gives bits of the free nodes by `bitKey`; the others are unknown. `rounds`: how often the cone
 * was evaluated. Each round only makes bits known, so there is an end.
 */
export function settleCone(
  netlist: Netlist,
  cone: SettingCone,
  setting: ReadonlyMap<number, 0 | 1>,
): { readonly values: ConeValues; readonly rounds: number } {
  const { nodes } = netlist;
  const values: Bits[] = cone.nodes.map((node) => allX(nodes.width[node]));
  for (const [position, bits] of cone.free) {
    values[position] = freeValue(nodes.width[cone.nodes[position]], bits, setting);
  }
  let rounds = 0;
  for (let hasChanged = true; hasChanged; rounds++) hasChanged = evaluateOnce(netlist, cone, values);
  return { values, rounds };
}

/** State, ports and what is unknown: any value may stand there. */
function isFree(nodes: NodeColumns, node: NodeId): boolean {
  const op = nodes.op[node];
  return isSource(op) && op !== Op.constant;
}

/** These bits and every bit that they hear, back to sources. */
function hearBack(nodes: NodeColumns, from: readonly Bit[]): Bit[] {
  const heard = new Map<number, Bit>();
  const waiting: Bit[] = [];
  const visit: BitVisitor = (node, bit) => {
    const next = { node, bit };
    if (heard.has(bitKey(next))) return;
    heard.set(bitKey(next), next);
    waiting.push(next);
  };
  for (const { node, bit } of from) visit(node, bit);
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (!isFree(nodes, bit.node)) visitOperandsOfBit(nodes, bit, visit);
  }
  return [...heard.values()];
}

function operandPositions(nodes: NodeColumns, node: NodeId, positionOf: ReadonlyMap<NodeId, number>): number[] {
  return Array.from(
    { length: nodes.arity[node] },
    (_, index) => positionOf.get(nodes.pool[nodes.first[node] + index] as NodeId) ?? -1,
  );
}

/** Bits that are not heard do not matter: 0, so that arithmetic on the others is not unknown because of them. */
function freeValue(width: number, bits: readonly Bit[], setting: ReadonlyMap<number, 0 | 1>): Bits {
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  for (const bit of bits) {
    const value = setting.get(bitKey(bit));
    if (value !== 0) a[bit.bit >>> 5] |= 1 << (bit.bit & 31);
    if (value === undefined) b[bit.bit >>> 5] |= 1 << (bit.bit & 31);
  }
  return fromLimbs(width, a, b);
}

/** Whether anything changed that may change something else: nothing goes round in a cone in order. */
function evaluateOnce(netlist: Netlist, cone: SettingCone, values: Bits[]): boolean {
  const { nodes } = netlist;
  let hasChanged = false;
  cone.nodes.forEach((node, position) => {
    if (cone.free.has(position)) return;
    const value = valueAt(netlist, cone, values, position);
    if (equalBits(value, values[position])) return;
    values[position] = value;
    hasChanged ||= nodes.op[node] !== Op.constant;
  });
  return hasChanged;
}

function valueAt(netlist: Netlist, cone: SettingCone, values: readonly Bits[], position: number): Bits {
  const { nodes, constants } = netlist;
  const node = cone.nodes[position];
  if (nodes.op[node] === Op.constant) return constants[nodes.aux[node]];
  const operands = cone.operands[position].map((at, index) =>
    at >= 0 ? values[at] : zero(nodes.width[nodes.pool[nodes.first[node] + index]]),
  );
  return evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], netlist);
}
