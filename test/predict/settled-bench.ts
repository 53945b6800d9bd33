// What tests of the settled stepper share: a machine over a whole hand-built netlist, its inputs by name.

import { bitsOf, toDecimal } from '../../server/src/netlist/four-state';
import type { Netlist, NodeId } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';
import { advance, begin, readNode, rest, setSource } from '../../server/src/predict/settled';
import { createMachine, type MachineOptions, type SettledMachine } from '../../server/src/predict/settled-machine';
import { planSettled } from '../../server/src/predict/settled-plan';

export interface Bench {
  readonly machine: SettledMachine;
  set(name: string, digits: string): void;
  /** Sets an input, and all that follows. */
  change(name: string, digits: string): void;
  /** One rising and one falling edge. */
  period(clock: string): void;
  /** A signal's value as a decimal number. */
  read(name: string): string;
}

/** At rest with every input 0, or as `held` says; registers start from their initial values. */
export function benchOf(
  netlist: Netlist,
  held: Readonly<Record<string, string>> = {},
  options: MachineOptions = {},
): Bench {
  const machine = createMachine(
    planSettled(
      netlist,
      netlist.signals.map(({ node }) => node),
    ),
    options,
  );
  const set = (name: string, digits: string) => setSource(machine, inputNode(netlist, name), bitsOf(digits));
  begin(machine, {
    register: (id) => netlist.registers[id].initial,
    latch: (id) => netlist.latches[id].initial,
  });
  for (const { name, width, port } of netlist.signals) {
    if (port === 'input') set(name, held[name] ?? '0'.repeat(width));
  }
  rest(machine);
  const change = (name: string, digits: string) => {
    set(name, digits);
    advance(machine);
  };
  return {
    machine,
    set,
    change,
    period(clock) {
      change(clock, '1');
      change(clock, '0');
    },
    read: (name) => toDecimal(readNode(machine, signalNode(netlist, name))),
  };
}

export function signalNode(netlist: Netlist, name: string): NodeId {
  const signal = netlist.signals.find((candidate) => candidate.name === name);
  if (signal === undefined) throw new Error(`no signal ${name}`);
  return signal.node;
}

/** The source node of an input port. */
export function inputNode(netlist: Netlist, name: string): NodeId {
  const net = signalNode(netlist, name);
  const source = netlist.nodes.pool[netlist.nodes.first[net]] as NodeId;
  if (netlist.nodes.op[source] > Op.hole) throw new Error(`${name} is no source`);
  return source;
}
