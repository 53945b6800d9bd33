// The choices that stand first in a bit of a register's data, as the text's priority made them: a synchronous clear, an
// enable. Reads multiplexers only; the same written as masks of and and or is not recognized here.

import type { Bit, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { constantLevel, type Context, opOf, operandSource, sameBit, sourceOf } from './context';
import { peel } from './peel';

export interface BitChoice {
  /** The bit that decides, buffers and inverters taken off. */
  readonly condition: Bit;
  /** The level of `condition` at which `taken` is taken. */
  readonly active: 'high' | 'low';
  readonly taken: Bit;
  readonly otherwise: Bit;
  readonly node: NodeId;
}

/** Taken as written: where the condition of the text holds. Null where a source bit is no two-way choice. */
export function choiceAt(context: Context, source: Bit): BitChoice | null {
  if (opOf(context, source) !== Op.mux) return null;
  const { node } = source;
  const { bit, inverted } = peel(context, operandSource(context, node, 0, 0));
  const [taken, otherwise] = [1, 2].map((operand) => operandSource(context, node, operand, source.bit));
  return { condition: bit, active: inverted ? 'low' : 'high', taken, otherwise, node };
}

/** The same choice with its arms exchanged. */
export function exchanged(choice: BitChoice): BitChoice {
  const active = choice.active === 'high' ? 'low' : 'high';
  return { ...choice, active, taken: choice.otherwise, otherwise: choice.taken };
}

/** The choice turned so that the arm taken is a constant; null where neither arm is one, or both are. */
export function asClear(context: Context, choice: BitChoice): BitChoice | null {
  const [taken, otherwise] = [choice.taken, choice.otherwise].map((arm) => constantLevel(context, arm) !== null);
  if (taken === otherwise) return null;
  return taken ? choice : exchanged(choice);
}

/** As `asClear`, of the choice that a source bit is. */
export function clearAt(context: Context, source: Bit): BitChoice | null {
  const choice = choiceAt(context, source);
  return choice === null ? null : asClear(context, choice);
}

/** The choice turned so that the arm not taken keeps the register's own bit; null where neither does. */
export function asEnable(choice: BitChoice, own: Bit): BitChoice | null {
  if (sameBit(choice.otherwise, own)) return choice;
  return sameBit(choice.taken, own) ? exchanged(choice) : null;
}

/** The source of one bit of a register's data. */
export function dataSource(context: Context, { data }: Register, bit: number): Bit {
  return sourceOf(context, { node: data, bit });
}
