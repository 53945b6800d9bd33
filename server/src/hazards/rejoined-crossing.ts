// `rejoined-crossing`: bits that cross each behind its own flip-flops, and meet again in the next value of one register,
// though they may change at one edge of the sender (definition 39). One per register where they meet and sending domain.

import type { Rejoin } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { sourcePlaces } from './crossing-subject';
import { instancePath, registerName } from './subjects';

export const rejoinedCrossing: FindingRule = {
  id: 'rejoined-crossing',
  find: (context) => context.network.rejoins.map((rejoin) => findOne(context, rejoin)),
};

function findOne(context: HazardContext, { crossings, to }: Rejoin): RawFinding {
  const { netlist, network } = context;
  const met = crossings.map((index) => network.crossings[index]);
  const from = [...new Set(met.flatMap((crossing) => crossing.from.map(({ name }) => name)))];
  const through = met.map(({ last }) => registerName(netlist, last));
  const register = netlist.registers[to];
  return {
    id: 'rejoined-crossing',
    certainty: null,
    signals: [registerName(netlist, to), ...through, ...from],
    instance: instancePath(netlist, register.instance),
    place: register.samplePlace,
    related: [
      ...sourcePlaces(context, met),
      ...met.map(({ last, place }) => ({
        place,
        why: { reason: 'crossing-arrives', args: { register: registerName(netlist, last) } },
      })),
    ],
    facts: {
      to: registerName(netlist, to),
      from,
      through,
      fromDomain: network.domains[met[0].fromDomain].name,
      toDomain: network.domains[met[0].toDomain].name,
    },
    weight: {},
  };
}
