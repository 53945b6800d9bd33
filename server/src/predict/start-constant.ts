// What every register can become under any inputs, resets and order of edges, bit by bit: the start values, merged with
// all that could be sampled or loaded, until nothing is added. A bit still known is an invariant; the rest may only
// seem to move (bits that depend on each other are not told apart), so `constant` is never said wrongly.

import { type Bits, equalBits, hasUnknown } from '../netlist/four-state';
import { merge } from '../netlist/four-state-parts';
import type { Netlist } from '../netlist/netlist';
import { begin, type StartValues } from './settled';
import { settle, settleAll } from './settled-flow';
import { levelAt } from './settled-logic';
import { changeSource, createMachine, clearMarks, type SettledMachine } from './settled-machine';
import { type PlannedRegister, planSettled } from './settled-plan';

/** A machine whose values are known only where they never change. Clocks, inputs and resets are free. */
export function* reachEverything(netlist: Netlist, start: StartValues): Generator<void, SettledMachine> {
  const machine = createMachine(planSettled(netlist, 'all'));
  begin(machine, start);
  settleAll(machine);
  machine.begun = true;
  for (let moved = true; moved; ) {
    moved = false;
    for (const register of machine.plan.registers) {
      const value = everyNext(machine, register);
      if (value !== null) moved = changeSource(machine, register.position, value) || moved;
    }
    settle(machine);
    yield;
  }
  clearMarks(machine.called);
  clearMarks(machine.stale);
  clearMarks(machine.moved);
  return machine;
}

/** Per register id: whether it never leaves a known start value. `reached`: from `reachEverything`. */
export function constantRegisters(netlist: Netlist, reached: SettledMachine, start: StartValues): boolean[] {
  return netlist.registers.map(({ id, node }) => {
    const value = reached.values.views[reached.plan.positionOf[node]];
    return !hasUnknown(value) && equalBits(value, start.register(id));
  });
}

/** The present value merged with all it could become next; null where nothing can reach it. */
function everyNext({ plan, values }: SettledMachine, register: PlannedRegister): Bits | null {
  let value = values.views[register.position];
  if (levelAt(plan, values, register.clock, register.clockBit) > 1) value = merge(value, values.views[register.data]);
  for (const { control, bit, activeLevel, value: loaded } of register.asynchronous) {
    const level = levelAt(plan, values, control, bit);
    if (level > 1 || level === activeLevel) value = merge(value, values.views[loaded]);
  }
  return value === values.views[register.position] ? null : value;
}
