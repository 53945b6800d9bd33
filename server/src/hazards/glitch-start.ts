// The state after reset and start, before the first edge of a root that is followed: worked out once per root for the
// whole netlist, read by every group.

import type { Bit, NodeId } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import { createLogicDelays } from '../predict/arrival-logic';
import { createTransferOrder } from '../predict/arrival-order';
import type { Prediction } from '../predict/prediction';
import { advance, readBit, setSourceBit } from '../predict/settled';
import { beginUnderDrive, inputNodesOf, setReset } from '../predict/settled-drive';
import { createMachine, type SettledMachine, type TransferOrder } from '../predict/settled-machine';
import { planSettled } from '../predict/settled-plan';
import { startsOf } from '../predict/start';
import type { Limits } from '../budget';
import type { Workshop } from './glitch-parts';

export interface Starts {
  /** At rest at the start; not to be moved. */
  at(root: number): SettledMachine;
  readonly order: TransferOrder;
}

export interface StartsInput {
  readonly workshop: Workshop;
  readonly prediction: Prediction;
  readonly limits: Limits;
}

export function createStarts(input: StartsInput): Starts {
  const { netlist, network, delaySet, arrivals } = input.workshop;
  const logic = createLogicDelays(netlist, delaySet);
  const order = createTransferOrder({ netlist, network, delaySet, arrivals, logic });
  const known = new Map<number, SettledMachine>();
  return {
    order,
    at(root) {
      const machine = known.get(root) ?? settledStart(input, order, root);
      known.set(root, machine);
      return machine;
    },
  };
}

export function toggle(machine: SettledMachine, clock: Bit): void {
  setSourceBit(machine, clock, readBit(machine, clock) === 1 ? 0 : 1);
  advance(machine);
}

/** Clocks the root through the resets, then releases them. */
function settledStart(
  { workshop, prediction, limits }: StartsInput,
  order: TransferOrder,
  root: number,
): SettledMachine {
  const { netlist, network } = workshop;
  const { drive } = prediction;
  const everything = Array.from({ length: netlist.nodes.count }, (_, node) => node as NodeId);
  const machine = createMachine(planSettled(netlist, everything), { order, stepLimit: limits.instantSteps });
  const inputs = inputNodesOf(netlist);
  beginUnderDrive(machine, drive, inputs, startsOf(netlist, drive, inputs, '0'));
  const clock = sourceBit(netlist.nodes, network.roots[root].bit);
  const periods = Math.max(0, ...drive.resets.map((reset) => reset.periods));
  for (let edge = 0; edge < 2 * periods; edge++) toggle(machine, clock);
  for (const reset of drive.resets) setReset(machine, reset, 'released');
  advance(machine);
  if (readBit(machine, clock) === 1) toggle(machine, clock);
  return machine;
}
