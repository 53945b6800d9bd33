// What the findings about crossings have in common: who samples whom, between which domains.

import type { Crossing } from '../clocks/network';
import type { Register } from '../netlist/netlist';
import type { HazardContext, RawFinding } from './context';
import type { FindingId } from './finding';
import { instancePath, registerName, togetherByPlace } from './subjects';

/** Crossings that nothing protects, but for those that are told as something else. */
export function bareCrossings(context: HazardContext): readonly Crossing[] {
  return context.network.crossings.filter(
    (crossing) => crossing.status === 'bare' && !isSharedDriver(context, crossing),
  );
}

/** Two clocks write one variable: told as `shared-driver`, and each hears the other only by that. */
function isSharedDriver({ netlist }: HazardContext, { from, to }: Crossing): boolean {
  const receiver = netlist.registers[to];
  return from.every(({ register }) => register !== null && overlap(netlist.registers[register], receiver));
}

function overlap(left: Register, right: Register): boolean {
  const isSeparate = left.low + left.width <= right.low || right.low + right.width <= left.low;
  return left.signal === right.signal && !isSeparate;
}

export function crossingFinding(id: FindingId, context: HazardContext, crossing: Crossing): RawFinding {
  const { netlist, network } = context;
  const to = netlist.registers[crossing.to];
  return {
    id,
    certainty: null,
    signals: [registerName(netlist, to.id), ...crossing.from.map(({ name }) => name)],
    instance: instancePath(netlist, to.instance),
    place: crossing.place,
    related: sourcePlaces(context, [crossing]),
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

/** Where the senders are sampled by their own clock. */
export function sourcePlaces({ netlist }: HazardContext, crossings: readonly Crossing[]): RawFinding['related'] {
  const senders = crossings.flatMap(({ from }) => from);
  return togetherByPlace(
    senders.flatMap(({ register, name }) =>
      register === null ? [] : [{ place: netlist.registers[register].samplePlace, name }],
    ),
  ).map(({ place, names }) => ({ place, why: { reason: 'crossing-source', args: { name: names } } }));
}
