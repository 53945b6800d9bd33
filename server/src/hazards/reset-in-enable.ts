// `reset-in-enable` (definition 13): a process resets some of what it assigns asynchronously and leaves other targets out
// of that branch. While the reset acts they cannot be clocked: it has become their enable, a gate in front of every bit,
// and they come out of it as they went in. Silent for registers that have a process of their own.

import type { ControlUse } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import { type Bit, type Netlist, operand, type Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBitPastBuffers } from '../netlist/trace';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const resetInEnable: FindingRule = {
  id: 'reset-in-enable',
  find(context) {
    const processes = [...new Set(context.netlist.registers.map(({ process }) => process))];
    return processes.flatMap((process) => findOne(context, process));
  },
};

/** One per process, for the reset that comes first in it. */
function findOne({ netlist, network }: HazardContext, process: Register['process']): RawFinding[] {
  const registers = netlist.registers.filter((register) => register.process === process);
  const [reset] = registers.flatMap(({ id }) => network.registers[id].asynchronous);
  if (reset === undefined) return [];
  const left = registers.filter(({ asynchronous }) => asynchronous.length === 0);
  const held = left.filter((register) => isHeldBy(netlist, register, reset));
  return held.length === 0 ? [] : [finding(netlist, reset, held)];
}

/** Whether the choices that its data begin with ask for the reset and keep the register's own value in one arm. */
function isHeldBy(netlist: Netlist, register: Register, reset: ControlUse): boolean {
  const { nodes } = netlist;
  const wanted = bitKey(levelBit(netlist, reset.bit));
  let current = sourceBitPastBuffers(nodes, { node: register.data, bit: 0 });
  for (let steps = 0; nodes.op[current.node] === Op.mux && steps < nodes.count; steps++) {
    const [select, taken, rest] = [0, 1, 2].map((index) => operand(nodes, current.node, index));
    const arms = [taken, rest].map((node) => sourceBitPastBuffers(nodes, { node, bit: current.bit }));
    const other = arms.find(({ node }) => node !== register.node);
    if (other === undefined || arms.every(({ node }) => node !== register.node)) return false;
    if (bitKey(levelBit(netlist, { node: select, bit: 0 })) === wanted) return true;
    current = other;
  }
  return false;
}

/** Back through wiring, buffers and inverters. */
function levelBit({ nodes }: Netlist, bit: Bit): Bit {
  let source = sourceBitPastBuffers(nodes, bit);
  for (let steps = 0; nodes.op[source.node] === Op.not && steps < nodes.count; steps++) {
    source = sourceBitPastBuffers(nodes, { node: operand(nodes, source.node, 0), bit: source.bit });
  }
  return source;
}

function finding(netlist: Netlist, reset: ControlUse, held: readonly Register[]): RawFinding {
  const [first] = held;
  const names = held.map(({ id }) => registerName(netlist, id));
  return {
    id: 'reset-in-enable',
    certainty: null,
    signals: [...names, reset.name],
    instance: instancePath(netlist, first.instance),
    place: first.samplePlace,
    related: [
      {
        place: reset.place,
        why: { reason: 'reset-not-there', args: { reset: reset.name, register: names.join(', ') } },
      },
    ],
    facts: { registers: names, reset: reset.name, active: reset.active },
    weight: {},
  };
}
