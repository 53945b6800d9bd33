// A register that samples in a later step of an instant, while what it samples has moved earlier in the same instant
// (definition 28): of each source that moved it meets the old value, the new one, or, where neither is sure, what both
// agree on. The outcome is a race where that makes a difference.

import { type Bits, limbCount } from '../netlist/four-state';
import type { RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { settle } from './settled-flow';
import { mergeStored, store } from './settled-logic';
import { clearMarks, copyOf, markReaders, sameBits, type SettledMachine } from './settled-machine';

/** The data of a register (index in the plan) as it samples it. The machine is left as it was. */
export function arbitrate(machine: SettledMachine, index: number): Bits {
  const { plan, values } = machine;
  const { data } = plan.registers[index];
  const kept = { a: values.a.slice(), b: values.b.slice(), called: machine.called.count };
  let isDoubtful = false;
  const moved = machine.moved.list.subarray(0, machine.moved.count);
  for (const position of moved) {
    const met = metBy(machine, position, index);
    if (met === 'new') continue;
    isDoubtful ||= met === 'race';
    const old = valueBefore(machine, position);
    const value = met === 'old' ? old : mergeStored(plan, position, old, values.views[position]);
    if (store(values, position, value)) markReaders(machine, position);
  }
  settle(machine);
  const sample = copyOf(values.views[data]);
  values.a.set(kept.a);
  values.b.set(kept.b);
  clearMarks(machine.called, kept.called);
  if (isDoubtful && !sameBits(sample, values.views[data])) machine.races += 1;
  return sample;
}

function valueBefore({ plan, before }: SettledMachine, position: number): Bits {
  const width = plan.width[position];
  const from = plan.offset[position];
  const until = from + limbCount(width);
  return { width, a: before.a.subarray(from, until), b: before.b.subarray(from, until) };
}

function metBy(machine: SettledMachine, position: number, index: number): 'old' | 'new' | 'race' {
  const { plan } = machine;
  const isRegister = plan.op[position] === Op.register;
  return machine.order(isRegister ? (plan.aux[position] as RegisterId) : null, plan.registers[index].register.id);
}
