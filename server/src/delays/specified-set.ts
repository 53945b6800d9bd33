// A delay set met with what specify blocks of the text state: registers, latches and operators behind a module path take
// the path's time, and timing checks give windows. The text wins: over the set and over what a person states for single
// things, as it does for `#`.

import type { LatchId, Netlist, NodeId, RegisterId, SpecifiedRegister } from '../netlist/netlist';
import type { DelaySet } from './delay-set';
import { zeroDelay } from './triple';

export function withSpecified({ specified }: Netlist, set: DelaySet): DelaySet {
  if (specified === undefined) return set;
  const registers = new Map<RegisterId, DelaySet>(set.own?.registers);
  const latches = new Map<LatchId, DelaySet>(set.own?.latches);
  const nodes = new Map<NodeId, DelaySet>(set.own?.nodes);
  const { own: _, ...plain } = set;
  const untimed: DelaySet = { ...plain, logic: null };
  for (const stated of specified.registers) {
    registers.set(stated.register, overlaid(registers.get(stated.register) ?? set, stated));
  }
  for (const latch of specified.latches) latches.set(latch, { ...(latches.get(latch) ?? set), latch: zeroDelay });
  if (hasLogic(set)) for (const node of specified.operators) nodes.set(node, untimed);
  return { ...set, own: { registers, latches, nodes } };
}

function overlaid({ own: _, ...set }: DelaySet, stated: SpecifiedRegister): DelaySet {
  const clocked = stated.clockToQ === null ? {} : { clockToQ: { first: stated.clockToQ, next: null } };
  return {
    ...set,
    ...clocked,
    clear: stated.clear ?? set.clear,
    setup: stated.setup ?? set.setup,
    hold: stated.hold ?? set.hold,
    recovery: stated.recovery ?? set.recovery,
    removal: stated.removal ?? set.removal,
  };
}

function hasLogic(set: DelaySet): boolean {
  return set.logic !== null || [...(set.own?.nodes.values() ?? [])].some(({ logic }) => logic !== null);
}
