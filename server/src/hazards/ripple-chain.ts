// `ripple-chain`: registers clocked one by the other's output (definition 10). One per chain, at the edge list of its
// second stage.

import type { Chain } from '../clocks/network';
import type { Netlist } from '../netlist/netlist';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName, togetherByPlace } from './subjects';

export const rippleChain: FindingRule = {
  id: 'ripple-chain',
  find: (context) => context.network.chains.map((chain, index) => findOne(context, chain, index)),
};

function findOne({ netlist, network, prediction }: HazardContext, chain: Chain, index: number): RawFinding {
  const second = netlist.registers[chain.registers[1]];
  const timing = prediction.chains.find((entry) => entry.chain === index) ?? null;
  return {
    id: 'ripple-chain',
    certainty: null,
    signals: chain.registers.map((id) => registerName(netlist, id)),
    instance: instancePath(netlist, second.instance),
    place: second.clockPlace,
    related: stagesByPlace(netlist, chain),
    facts: {
      root: chain.root === null ? null : network.roots[chain.root].name,
      stages: chain.registers.length,
      settleMinPs: timing?.settle.min ?? null,
      settleTypPs: timing?.settle.typ ?? null,
      settleMaxPs: timing?.settle.max ?? null,
      worstFrom: timing?.worst?.from.toString() ?? null,
      worstTo: timing?.worst?.to.toString() ?? null,
      maxClockHz: timing?.maxClockHz ?? null,
    },
    weight: {},
  };
}

/** Stages that one line of the text makes, in instances or turns of a loop, are told there together. */
function stagesByPlace(netlist: Netlist, { registers }: Chain): RawFinding['related'] {
  const stages = registers.map((id) => ({
    place: netlist.registers[id].samplePlace,
    name: registerName(netlist, id),
  }));
  return togetherByPlace(stages).map(({ place, names }) => {
    const stage = stages.findIndex(({ name }) => names.split(', ').includes(name)) + 1;
    return { place, why: { reason: 'chain-stage', args: { register: names, stage } } };
  });
}
