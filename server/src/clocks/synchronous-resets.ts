// Definition 14: a port, or a synchronizer of one, that first in priority forces constants in every register of a
// process and does not depend on the registers it clears. A clear from a count is none.

import { bitKey } from '../netlist/bit-key';
import type { Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { constantLevel, type Context, opOf, operandNode, placeOfNode } from './context';
import { type BitChoice, choiceAt, dataSource, exchanged } from './data-choices';
import { constantDigits } from './loaded-value';
import type { ControlUse } from './network';
import type { Pace } from './pace';
import { isSynchronizedPort } from './synchronizers';

/** Indexed by register id; null where there is none. */
export function* findSynchronousResets(context: Context, pace: Pace): Generator<void, (ControlUse | null)[]> {
  const members = new Map<number, Register[]>();
  for (const register of context.netlist.registers) {
    const known = members.get(register.process);
    if (known === undefined) members.set(register.process, [register]);
    else known.push(register);
  }
  const resets = context.netlist.registers.map((): ControlUse | null => null);
  for (const registers of members.values()) {
    const forces = resetOfProcess(context, registers);
    for (const [index, force] of (forces ?? []).entries()) resets[registers[index].id] = useOf(context, force);
    if (pace.spend(4 * registers.length)) yield;
  }
  return resets;
}

/** What one condition does to one register. */
interface Force {
  readonly register: Register;
  readonly choice: BitChoice;
  /** Most significant first. */
  readonly digits: string;
}

/** One entry per register, all by one condition at one level; null where there is no such condition. */
function resetOfProcess(context: Context, registers: readonly Register[]): Force[] | null {
  const first = choiceAt(context, dataSource(context, registers[0], registers[0].width - 1));
  if (first === null || !mayReset(context, first, registers)) return null;
  for (const wanted of [first, exchanged(first)]) {
    const forces = registers.map((register) => forceOf(context, register, wanted));
    if (forces.every((force) => force !== null)) return forces;
  }
  return null;
}

function mayReset(context: Context, { condition }: BitChoice, registers: readonly Register[]): boolean {
  if (opOf(context, condition) === Op.input) return true;
  const cleared = registers.some(({ node }) => node === condition.node);
  return !cleared && isSynchronizedPort(context, condition);
}

/** Every bit takes a constant at once when the condition of `wanted` has its level. */
function forceOf(context: Context, register: Register, wanted: BitChoice): Force | null {
  let digits = '';
  let choice: BitChoice | null = null;
  for (let bit = register.width - 1; bit >= 0; bit--) {
    const source = dataSource(context, register, bit);
    const forced = matching(choiceAt(context, source), wanted);
    choice ??= forced;
    const level = constantLevel(context, forced?.taken ?? source);
    if (level === null) return null;
    digits += level;
  }
  return choice === null ? null : { register, choice, digits };
}

/** A choice by the wanted condition, turned to the wanted level; null for any other. */
function matching(choice: BitChoice | null, wanted: BitChoice): BitChoice | null {
  if (choice === null || bitKey(choice.condition) !== bitKey(wanted.condition)) return null;
  return choice.active === wanted.active ? choice : exchanged(choice);
}

function useOf(context: Context, { register, choice, digits }: Force): ControlUse {
  const { condition, active, node } = choice;
  const arms = [1, 2].map((operand) => operandNode(context, node, operand));
  const value = arms.find((arm) => constantDigits(context, arm) === digits) ?? register.data;
  const name = context.names.canonicalNameOf(condition) ?? '';
  return { bit: condition, name, active, value, digits, place: placeOfNode(context, node) };
}

/** Distinct resets, by bit and level. */
export function resetKey({ bit, active }: Pick<ControlUse, 'bit' | 'active'>): number {
  return bitKey(bit) * 2 + (active === 'high' ? 1 : 0);
}
