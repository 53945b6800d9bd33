// What a register's output becomes when its clock pin or one of its asynchronous controls has changed: certain and
// perhaps edges (definition 16), controls as levels in their order of priority (13), unknown levels as merges.

import type { Bits } from '../netlist/four-state';
import { levelAt, mergeStored } from './settled-logic';
import { AnswerKind, type SettledMachine } from './settled-machine';
import { arbitrate } from './settled-race';

/**
 * Works out, into `machine.next` and `machine.kinds`, what the output of a register (index in the plan) becomes and what
 * asks it to change. `step` counts from 1 within the instant.
 */
export function answer(machine: SettledMachine, register: number, step: number): void {
  const { position, asynchronous } = machine.plan.registers[register];
  const now = machine.values.views[position];
  const edge = takeEdge(machine, register);
  let to: Bits | null = null;
  let kind: number = AnswerKind.none;
  if (edge !== 'none') {
    machine.samples[register] += 1;
    const sample = sampleOf(machine, register, step);
    to = edge === 'certain' ? sample : mergeStored(machine.plan, position, now, sample);
    kind = AnswerKind.sampled;
  }
  for (let control = asynchronous.length - 1; control >= 0; control--) {
    const active = controlActivity(machine, register, control, edge);
    if (active === 'no') continue;
    const loaded = machine.values.views[asynchronous[control].value];
    to = active === 'yes' ? loaded : mergeStored(machine.plan, position, to ?? now, loaded);
    kind = AnswerKind.asynchronous;
  }
  machine.kinds[register] = kind;
  if (to !== null) copyInto(machine.next[register], to);
}

/** From here on the register's data and controls are those from before the next instant. */
export function rememberInputs(machine: SettledMachine, register: number): void {
  const { data, asynchronous } = machine.plan.registers[register];
  copyInto(machine.sampled[register], machine.values.views[data]);
  for (let control = 0; control < asynchronous.length; control++) {
    machine.controls[register][control] = controlLevel(machine, register, control);
  }
}

/** Limb by limb: for the one or two limbs of most registers this beats a call of `set`. */
function copyInto(target: Bits, source: Bits): void {
  for (let limb = 0; limb < target.a.length; limb++) {
    target.a[limb] = source.a[limb];
    target.b[limb] = source.b[limb];
  }
}

type Edge = 'none' | 'certain' | 'perhaps';

/** The edge since the pin was last looked at. IEEE 1364-2005 Table 9-1, read as hardware: from or to unknown, perhaps. */
function takeEdge(machine: SettledMachine, index: number): Edge {
  const { register, clock, clockBit } = machine.plan.registers[index];
  const from = machine.pins[index];
  const to = levelAt(machine.plan, machine.values, clock, clockBit);
  machine.pins[index] = to;
  if (from === to || (from > 1 && to > 1)) return 'none';
  const active = register.edge === 'rising' ? 1 : 0;
  if (to !== active && from !== 1 - active) return 'none';
  return from > 1 || to > 1 ? 'perhaps' : 'certain';
}

function sampleOf(machine: SettledMachine, register: number, step: number): Bits {
  if (step === 1 || machine.stale.has[register] === 0) return machine.sampled[register];
  return arbitrate(machine, register);
}

/**
 * How an edge meets a control that moves in the same instant. One released since before the instant: equal times, a race.
 * One that was active only within the instant, as in a count that clears itself: its release is an effect of the
 * change that also made the edge, through a gate, so it comes after the edge and the control still holds.
 */
function controlActivity(
  machine: SettledMachine,
  register: number,
  control: number,
  edge: Edge,
): 'yes' | 'no' | 'perhaps' {
  const { activeLevel } = machine.plan.registers[register].asynchronous[control];
  const last = machine.lastControls[register][control];
  const now = controlLevel(machine, register, control);
  machine.lastControls[register][control] = now;
  if (now > 1) return 'perhaps';
  if (now === activeLevel) return 'yes';
  if (edge === 'none') return 'no';
  if (machine.controls[register][control] !== now) {
    machine.races += 1;
    return 'perhaps';
  }
  if (last > 1) return 'perhaps';
  return last === activeLevel ? 'yes' : 'no';
}

function controlLevel(machine: SettledMachine, register: number, control: number): number {
  const use = machine.plan.registers[register].asynchronous[control];
  return levelAt(machine.plan, machine.values, use.control, use.bit);
}
