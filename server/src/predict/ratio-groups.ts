// Which registers hang on which: what a proof of a period must take together. Registers that hang on each other form one
// group; groups come after those they hang on.

import type { Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { visitStrongComponents } from '../netlist/strong-components';
import { registerOperands, settledOperands } from './settled-plan';

export interface RegisterGroup {
  readonly registers: readonly RegisterId[];
  /** Indices of the groups that it hears directly, all smaller than its own. */
  readonly hears: readonly number[];
}

export function registerGroups(netlist: Netlist): RegisterGroup[] {
  const heard = netlist.registers.map((register) => registersHeardBy(netlist, registerOperands(register)));
  const groupOf = new Map<RegisterId, number>();
  const groups: RegisterGroup[] = [];
  visitStrongComponents(graphOf(heard), (component) => {
    const registers = ([...component] as RegisterId[]).sort((left, right) => left - right);
    for (const register of registers) groupOf.set(register, groups.length);
    const before = new Set(registers.flatMap((register) => heard[register].map((id) => groupOf.get(id) as number)));
    before.delete(groups.length);
    groups.push({ registers, hears: [...before].sort((left, right) => left - right) });
  });
  return groups;
}

/** Registers that these nodes are computed from within one instant, latches looked through; ascending. */
export function registersHeardBy(netlist: Netlist, nodes: readonly NodeId[]): RegisterId[] {
  const seen = new Set<NodeId>(nodes);
  const pending = [...seen];
  const found: RegisterId[] = [];
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    if (netlist.nodes.op[node] === Op.register) found.push(netlist.nodes.aux[node] as RegisterId);
    for (const operand of settledOperands(netlist, node)) {
      if (seen.has(operand)) continue;
      seen.add(operand);
      pending.push(operand);
    }
  }
  return found.sort((left, right) => left - right);
}

function graphOf(heard: readonly (readonly RegisterId[])[]) {
  const first = new Uint32Array(heard.length);
  const degree = Uint32Array.from(heard, (list) => list.length);
  for (let index = 1; index < heard.length; index++) first[index] = first[index - 1] + degree[index - 1];
  return { count: heard.length, first, degree, target: Uint32Array.from(heard.flat()) };
}
