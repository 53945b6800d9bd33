// `bare-crossing`: a register samples what another, unrelated clock launches, with no synchronizer behind it. One per
// sampling register and domain that it samples from.

import type { Crossing } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const bareCrossing: FindingRule = {
  id: 'bare-crossing',
  find: (context) =>
    context.network.crossings.filter(({ status }) => status === 'bare').map((crossing) => findOne(context, crossing)),
};

function findOne({ netlist, network }: HazardContext, crossing: Crossing): RawFinding {
  const to = netlist.registers[crossing.to];
  return {
    id: 'bare-crossing',
    certainty: null,
    signals: [registerName(netlist, to.id), ...crossing.from.map(({ name }) => name)],
    instance: instancePath(netlist, to.instance),
    place: crossing.place,
    related: crossing.from.flatMap(({ register, name }) =>
      register === null
        ? []
        : [{ place: netlist.registers[register].samplePlace, why: { reason: 'crossing-source', args: { name } } }],
    ),
    facts: {
      to: registerName(netlist, to.id),
      from: crossing.from.map(({ name }) => name),
      fromDomain: network.domains[crossing.fromDomain].name,
      toDomain: network.domains[crossing.toDomain].name,
      bits: crossing.bits,
      depth: crossing.depth,
      throughLogic: crossing.throughLogic,
    },
    weight: {},
  };
}
