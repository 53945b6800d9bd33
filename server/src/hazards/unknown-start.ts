// `unknown-start` (definition 17): a register that can stay unknown for ever after reset and release, inputs free, and
// that reaches an output or a control.

import { cone } from '../netlist/cone';
import type { Netlist, NodeId } from '../netlist/netlist';
import { topPorts } from '../netlist/netlist';
import type { FindingRule } from './context';
import { instancePath, registerName } from './subjects';

export const unknownStart: FindingRule = {
  id: 'unknown-start',
  find({ netlist, network, prediction }) {
    const reaching = cone(netlist, watched(netlist));
    return netlist.registers
      .filter(({ id, node }) => prediction.registers[id].canStayUnknown && reaching[node] === 1)
      .map(({ id, instance, place, samplePlace, clock: _clock }) => ({
        id: 'unknown-start' as const,
        certainty: null,
        signals: [registerName(netlist, id)],
        instance: instancePath(netlist, instance),
        place,
        related: [
          { place: samplePlace, why: { reason: 'sampled-here', args: { register: registerName(netlist, id) } } },
        ],
        facts: { register: registerName(netlist, id), clock: network.clocks[network.registers[id].clock].name },
        weight: {},
      }));
  },
};

/** Outputs of the design, and what clocks, resets or opens something. */
function watched(netlist: Netlist): readonly NodeId[] {
  return [
    ...topPorts(netlist)
      .filter(({ port }) => port !== 'input')
      .map(({ node }) => node),
    ...netlist.registers.flatMap(({ clock, asynchronous }) => [
      clock.node,
      ...asynchronous.map(({ control }) => control.node),
    ]),
    ...netlist.latches.flatMap(({ gate, asynchronous }) => [
      gate.node,
      ...asynchronous.map(({ control }) => control.node),
    ]),
  ];
}
