// The choices that stand first in a register's data, as the text's priority made them: a synchronous clear, an enable.
// Reads multiplexers only; the same written as masks of and and or is not recognized here.

import type { Bit, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { type Context, operandSource, sourceOf } from './context';
import { peel } from './peel';

export interface DataChoice {
  /** The bit that decides, buffers and inverters taken off. */
  readonly condition: Bit;
  /** The level of `condition` at which `taken` is taken. */
  readonly active: 'high' | 'low';
  readonly taken: NodeId;
  readonly otherwise: NodeId;
  readonly node: NodeId;
}

/** The node that drives a whole node through nets of the same width. */
export function driverOf({ nodes }: Context, node: NodeId): NodeId {
  let current = node;
  for (let steps = 0; nodes.op[current] === Op.net && steps < nodes.count; steps++) {
    current = nodes.pool[nodes.first[current]] as NodeId;
  }
  return current;
}

/** The first choice in a node, taken when its condition is high or, inverted, low; null where it is no two-way choice. */
export function firstChoice(context: Context, node: NodeId): DataChoice | null {
  const { nodes } = context;
  const driver = driverOf(context, node);
  if (nodes.op[driver] !== Op.mux) return null;
  const { bit, inverted } = peel(context, operandSource(context, driver, 0, 0));
  const [whenOne, whenZero] = [1, 2].map((index) => nodes.pool[nodes.first[driver] + index] as NodeId);
  return { condition: bit, active: inverted ? 'low' : 'high', taken: whenOne, otherwise: whenZero, node: driver };
}

/** The same choice with its arms exchanged. */
export function exchanged(choice: DataChoice): DataChoice {
  const active = choice.active === 'high' ? 'low' : 'high';
  return { ...choice, active, taken: choice.otherwise, otherwise: choice.taken };
}

export function isConstant(context: Context, node: NodeId): boolean {
  return context.nodes.op[driverOf(context, node)] === Op.constant;
}

/** Whether a node is the register's own output, bit for bit. */
export function isHold(context: Context, register: Register, node: NodeId): boolean {
  for (let bit = 0; bit < register.width; bit++) {
    const source = sourceOf(context, { node, bit });
    if (source.node !== register.node || source.bit !== bit) return false;
  }
  return true;
}
