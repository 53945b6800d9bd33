// A settled machine under a drive: inputs held, resets active from 0, clocks at the level the drive gives them at 0.

import type { Bits } from '../netlist/four-state';
import type { Bit, Netlist, NodeId, SignalId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { Drive, DriveClock, DriveReset } from './drive';
import { createClockEdges } from './drive-edges';
import { advance, begin, rest, setSource, setSourceBit, type StartValues } from './settled';
import type { SettledMachine } from './settled-machine';
import type { SettledPlan } from './settled-plan';
import type { Level } from './waves';

/** Input nodes of top ports by signal: what a drive's inputs set. */
export type InputNodes = ReadonlyMap<SignalId, NodeId>;

export function inputNodesOf({ nodes }: Netlist): InputNodes {
  const found = new Map<SignalId, NodeId>();
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] === Op.input) found.set(nodes.aux[node] as SignalId, node as NodeId);
  }
  return found;
}

/** Time 0: state as given, inputs held, resets active, clocks at the level that the drive gives them there. */
export function beginUnderDrive(machine: SettledMachine, drive: Drive, inputs: InputNodes, start: StartValues): void {
  begin(machine, start);
  for (const { signal, value } of drive.inputs) holdInput(machine, inputs, signal, value);
  for (const { bit } of drive.pulls) setPull(machine, bit);
  for (const reset of drive.resets) setReset(machine, reset, 'active');
  for (const clock of drive.clocks) setClock(machine, clock, createClockEdges(clock).startLevel);
  rest(machine);
}

function holdInput(machine: SettledMachine, inputs: InputNodes, signal: SignalId, value: Bits): void {
  const node = inputs.get(signal);
  if (node !== undefined) setSource(machine, node, value);
}

export function setReset(machine: SettledMachine, reset: DriveReset, state: 'active' | 'released'): void {
  const isHigh = (reset.active === 'high') === (state === 'active');
  setSourceBit(machine, sourceBit(machine.plan.netlist.nodes, reset.bit), isHigh ? 1 : 0);
}

export function setClock(machine: SettledMachine, clock: DriveClock, level: Level): void {
  setSourceBit(machine, sourceBit(machine.plan.netlist.nodes, clock.bit), level);
}

/** A net that nothing drives reads its pull-up; one that something drives reads its driver. */
function setPull(machine: SettledMachine, bit: Bit): void {
  const source = sourceBit(machine.plan.netlist.nodes, bit);
  if (machine.plan.netlist.nodes.op[source.node] <= Op.hole) setSourceBit(machine, source, 1);
}

/** One edge of the clock, and all that follows. */
export function tick(machine: SettledMachine, clock: DriveClock, level: 0 | 1): void {
  setClock(machine, clock, level);
  advance(machine);
}

/** Whether a source bit of the drive can influence what the plan watches. */
export function isHeard(plan: SettledPlan, bit: Bit): boolean {
  return plan.positionOf[sourceBit(plan.netlist.nodes, bit).node] >= 0;
}
