// Definition 14: a port, or a synchronizer of one, that first in priority forces constants in every register of a
// process and does not depend on the registers it clears. A clear from a count is none.

import { bitKey } from '../netlist/bit-key';
import type { NodeId, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { type Context, opOf, placeOfNode, sameBit } from './context';
import { type DataChoice, exchanged, firstChoice, isConstant } from './data-choices';
import type { ControlUse } from './network';
import type { Pace } from './pace';
import { isSynchronizedPort } from './synchronizers';

export interface SynchronousReset {
  readonly use: ControlUse;
  /** The register's data while the reset is inactive. */
  readonly otherwise: NodeId;
}

/** Indexed by register id; null where there is none. */
export function* findSynchronousResets(context: Context, pace: Pace): Generator<void, (SynchronousReset | null)[]> {
  const clears: (DataChoice | null)[] = [];
  const members = new Map<number, RegisterId[]>();
  for (const { id, process, data } of context.netlist.registers) {
    clears.push(clearOf(context, data));
    const known = members.get(process);
    if (known === undefined) members.set(process, [id]);
    else known.push(id);
    if (pace.spend(2)) yield;
  }
  const resets = clears.map((): SynchronousReset | null => null);
  for (const ids of members.values()) {
    if (isReset(context, ids, clears)) for (const id of ids) resets[id] = resetOf(context, clears[id]);
    if (pace.spend(ids.length)) yield;
  }
  return resets;
}

/** The first choice, where one arm of it is constant, turned so that it is the arm taken. */
function clearOf(context: Context, data: NodeId): DataChoice | null {
  const choice = firstChoice(context, data);
  if (choice === null) return null;
  if (isConstant(context, choice.taken)) return choice;
  return isConstant(context, choice.otherwise) ? exchanged(choice) : null;
}

function isReset(context: Context, ids: readonly RegisterId[], clears: readonly (DataChoice | null)[]): boolean {
  const first = clears[ids[0]];
  if (first === null) return false;
  const { condition, active } = first;
  const forcesAll = ids.every((id) => {
    const clear = clears[id];
    return clear !== null && clear.active === active && sameBit(clear.condition, condition);
  });
  if (!forcesAll) return false;
  if (opOf(context, condition) === Op.input) return true;
  const cleared: Register[] = ids.map((id) => context.netlist.registers[id]);
  return isSynchronizedPort(context, condition) && cleared.every(({ node }) => node !== condition.node);
}

function resetOf(context: Context, clear: DataChoice | null): SynchronousReset | null {
  if (clear === null) return null;
  const { condition, active, taken, otherwise, node } = clear;
  const name = context.names.canonicalNameOf(condition) ?? '';
  return { use: { bit: condition, name, active, value: taken, place: placeOfNode(context, node) }, otherwise };
}

/** Distinct resets, by bit and level. */
export function resetKey({ bit, active }: Pick<ControlUse, 'bit' | 'active'>): number {
  return bitKey(bit) * 2 + (active === 'high' ? 1 : 0);
}
