// `bare-crossing`: a register samples what another, unrelated clock launches, with no synchronizer behind it. One per
// sampling register and domain that it samples from.

import type { Crossing } from '../clocks/network';
import type { Register } from '../netlist/netlist';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName, togetherByPlace } from './subjects';

export const bareCrossing: FindingRule = {
  id: 'bare-crossing',
  find: (context) =>
    context.network.crossings
      .filter((crossing) => crossing.status === 'bare' && !isSharedDriver(context, crossing))
      .map((crossing) => findOne(context, crossing)),
};

/** Two clocks write one variable: told as `shared-driver`, and each hears the other only by that. */
function isSharedDriver({ netlist }: HazardContext, { from, to }: Crossing): boolean {
  const receiver = netlist.registers[to];
  return from.every(({ register }) => register !== null && overlap(netlist.registers[register], receiver));
}

function overlap(left: Register, right: Register): boolean {
  const isSeparate = left.low + left.width <= right.low || right.low + right.width <= left.low;
  return left.signal === right.signal && !isSeparate;
}

function findOne({ netlist, network }: HazardContext, crossing: Crossing): RawFinding {
  const to = netlist.registers[crossing.to];
  return {
    id: 'bare-crossing',
    certainty: null,
    signals: [registerName(netlist, to.id), ...crossing.from.map(({ name }) => name)],
    instance: instancePath(netlist, to.instance),
    place: crossing.place,
    related: togetherByPlace(
      crossing.from.flatMap(({ register, name }) =>
        register === null ? [] : [{ place: netlist.registers[register].samplePlace, name }],
      ),
    ).map(({ place, names }) => ({ place, why: { reason: 'crossing-source', args: { name: names } } })),
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
