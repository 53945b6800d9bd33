// The settled stepper: values once everything has come to rest after one instant, without delays. One instant is a
// change of some sources (a clock, an input) and all that follows. Definition 34 of the project gives its order:
// registers whose pins had an edge sample the values from before the instant; their outputs change; registers clocked
// by those outputs sample in the next step. What then hangs on the order is a race (28) and gives merge(old, new).
//
//   const plan = planSettled(netlist, watched);              the cone of the nodes that matter
//   const machine = createMachine(plan, { order });          `order` decides transfers inside one instant
//   begin(machine, start); setSource(…); rest(machine);      time 0: everything holds, nothing has an edge
//   setSource(machine, clock, one); advance(machine);        one instant
//   readNode(machine, node), readBit(machine, bit)
//
// To explore: `setState` any register or latch and `setSource` any input, `rest`, then go on with `advance`.

import type { Bits } from '../netlist/four-state';
import { fromPlanes } from '../netlist/four-state';
import { replaceSlice } from '../netlist/four-state-parts';
import type { Bit, LatchId, NodeId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { impossible } from '../text/impossible';
import { answer, rememberInputs } from './settled-answer';
import { settle, settleAll } from './settled-flow';
import { levelAt, store } from './settled-logic';
import {
  AnswerKind,
  changeSource,
  clearMarks,
  copyOf,
  filled,
  mark,
  sameBits,
  type SettledMachine,
} from './settled-machine';
import type { Level } from './waves';

export interface StartValues {
  register(id: RegisterId): Bits;
  latch(id: LatchId): Bits;
}

export interface Instant {
  /** How many times registers answered before everything was at rest. */
  readonly steps: number;
  /** False where the limit of steps was reached, an oscillation: what still moved is then x. */
  readonly isAtRest: boolean;
}

/** Gives every register and latch its start value. Sources keep theirs: at first x, and z on nets that nothing drives. */
export function begin(machine: SettledMachine, start: StartValues): void {
  const { plan, values } = machine;
  for (const { register, position } of plan.registers) store(values, position, start.register(register.id));
  for (const latch of plan.latches) store(values, plan.positionOf[latch.node], start.latch(latch.id));
  machine.begun = false;
}

/** Drives a source: a port, an undriven net, a black box's output. Outside the cone: no effect. */
export function setSource(machine: SettledMachine, node: NodeId, bits: Bits): void {
  const position = machine.plan.positionOf[node];
  if (position < 0) return;
  if (machine.plan.op[position] > Op.hole) impossible(`node ${node} is no source`);
  changeSource(machine, position, bits);
}

/** Drives one bit of a source. Outside the cone: no effect. */
export function setSourceBit(machine: SettledMachine, { node, bit }: Bit, level: Level): void {
  const position = machine.plan.positionOf[node];
  if (position < 0) return;
  const digit = fromPlanes(1, level & 1, level >> 1);
  const view = machine.values.views[position];
  setSource(machine, node, view.width === 1 ? digit : replaceSlice(view, bit, digit));
}

/** Puts a register or latch into a state, as an upset would. Outside the cone: no effect. */
export function setState(machine: SettledMachine, node: NodeId, bits: Bits): void {
  const position = machine.plan.positionOf[node];
  if (position >= 0) changeSource(machine, position, bits);
}

/**
 * Settles everything from what registers, latches and sources hold, without any edge: time 0, or a new state to go on
 * from. Asynchronous controls act as levels. The next `advance` is an instant of its own.
 */
export function rest(machine: SettledMachine): Instant {
  if (machine.begun) settle(machine);
  else settleAll(machine);
  machine.begun = true;
  for (let index = 0; index < machine.plan.registers.length; index++) mark(machine.called, index);
  return follow(machine, 'held');
}

/** What logic and latches give if a register or latch held this: nothing answers, and no instant passes. */
export function suppose(machine: SettledMachine, position: number, bits: Bits): void {
  changeSource(machine, position, bits);
  settle(machine);
  clearMarks(machine.called);
  clearMarks(machine.stale);
  clearMarks(machine.moved);
}

/** One instant: the changes given since the last one, and all that follows from them. */
export function advance(machine: SettledMachine): Instant {
  if (!machine.begun) impossible('an instant before time 0 has come to rest');
  settle(machine);
  return follow(machine, 'live');
}

export function readNode(machine: SettledMachine, node: NodeId): Bits {
  return copyOf(viewOf(machine, node));
}

/** The value of a node as a window that moves on with the machine. */
export function viewOf(machine: SettledMachine, node: NodeId): Bits {
  const position = machine.plan.positionOf[node];
  return position < 0 ? impossible(`node ${node} is outside the cone`) : machine.values.views[position];
}

export function readBit(machine: SettledMachine, { node, bit }: Bit): Level {
  const position = machine.plan.positionOf[node];
  if (position < 0) impossible(`node ${node} is outside the cone`);
  return levelAt(machine.plan, machine.values, position, bit) as Level;
}

/** Steps until no register is called any more. `held`: pins are taken as they stand, so that nothing is an edge. */
function follow(machine: SettledMachine, pins: 'live' | 'held'): Instant {
  let steps = 0;
  while (machine.called.count > 0 && steps < machine.stepLimit) {
    if (pins === 'held') readPins(machine);
    steps += 1;
    answerCalls(machine, steps);
    settle(machine);
  }
  const isAtRest = machine.called.count === 0;
  if (!isAtRest) giveUp(machine);
  const { stale } = machine;
  for (let at = 0; at < stale.count; at++) rememberInputs(machine, stale.list[at]);
  clearMarks(stale);
  clearMarks(machine.moved);
  return { steps, isAtRest };
}

/** All called registers answer from the same values; only then do their outputs change. */
function answerCalls(machine: SettledMachine, step: number): void {
  const { called, answering } = machine;
  const { count } = called;
  for (let at = 0; at < count; at++) answering[at] = called.list[at];
  clearMarks(called);
  for (let at = 0; at < count; at++) answer(machine, answering[at], step);
  for (let at = 0; at < count; at++) changeOutput(machine, answering[at], step);
}

function changeOutput(machine: SettledMachine, register: number, step: number): void {
  if (machine.kinds[register] === AnswerKind.none) return;
  const { position } = machine.plan.registers[register];
  const from = machine.values.views[position];
  const to = machine.next[register];
  if (sameBits(from, to)) return;
  const kind = machine.kinds[register] === AnswerKind.sampled ? 'sampled' : 'asynchronous';
  machine.listener?.({ step, register, from, to, kind });
  changeSource(machine, position, to);
}

function readPins(machine: SettledMachine): void {
  machine.plan.registers.forEach(({ clock, clockBit }, index) => {
    machine.pins[index] = levelAt(machine.plan, machine.values, clock, clockBit);
  });
}

/** An oscillation has no settled value: what still moves becomes unknown, once. */
function giveUp(machine: SettledMachine): void {
  const moving = machine.called.list.slice(0, machine.called.count);
  for (const index of moving) {
    const { position, register } = machine.plan.registers[index];
    changeSource(machine, position, filled(register.width, 'x'));
  }
  settle(machine);
  clearMarks(machine.called);
  readPins(machine);
}
