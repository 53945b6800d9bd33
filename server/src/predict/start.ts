// What every register and latch holds before the first edge (definition 17): what an asynchronous control loads under
// the drive, else what the text gives, else the setting. And where each register's value comes from.

import { type Bits, toBinary } from '../netlist/four-state';
import { type AsynchronousControl, contentsOf, type Netlist, type Register } from '../netlist/netlist';
import type { Drive } from './drive';
import { readBit, readNode, type StartValues } from './settled';
import { beginUnderDrive, type InputNodes } from './settled-drive';
import { createMachine } from './settled-machine';
import { planSettled } from './settled-plan';
import { type StartSetting, startBitsOf } from './start-level';

export interface Starts extends StartValues {
  /** Per register id. */
  readonly from: readonly ('reset' | 'text' | 'assumed')[];
}

/** Start values under this drive. `setting` stands for bits that nothing else gives. */
export function startsOf(netlist: Netlist, drive: Drive, inputs: InputNodes, setting: StartSetting): Starts {
  const machine = createMachine(planSettled(netlist, 'all'));
  beginUnderDrive(machine, drive, inputs, {
    register: (id) => startBitsOf(netlist, netlist.registers[id], setting),
    latch: (id) => startBitsOf(netlist, netlist.latches[id], setting),
  });
  const registers = netlist.registers.map(({ node }) => readNode(machine, node));
  const latches = netlist.latches.map(({ node }) => readNode(machine, node));
  const isActive = ({ control, active }: AsynchronousControl) =>
    readBit(machine, control) === (active === 'high' ? 1 : 0);
  return {
    register: (id) => registers[id],
    latch: (id) => latches[id],
    from: netlist.registers.map((register) =>
      register.asynchronous.some(isActive) ? 'reset' : fromText(netlist, register),
    ),
  };
}

/** Binary digits, most significant first; what is no known digit is x. */
export function startText(bits: Bits): string {
  return toBinary(bits).replaceAll('z', 'x');
}

function fromText(netlist: Netlist, register: Register): 'text' | 'assumed' {
  const { initial, initialPlace } = register;
  const contents = contentsOf(netlist, register);
  if (contents !== null) {
    const isGiven = contents.differences(initial, contents.filledWith(initial, '0'), 1).length === 0;
    return isGiven ? 'text' : 'assumed';
  }
  return initialPlace !== null || /[01]/.test(toBinary(initial)) ? 'text' : 'assumed';
}
