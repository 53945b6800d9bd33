// `reset-crossing`: an asynchronous reset that a register of one clock releases, and that resets registers of another,
// unrelated one: at whatever instant it is let go, some of them may leave a period before the others. Silent where the
// reset only clears the flip-flops that bring its release over.

import type { DomainId, ResetUse } from '../clocks/network';
import type { RegisterId } from '../netlist/netlist';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName, togetherByPlace } from './subjects';

export const resetCrossing: FindingRule = {
  id: 'reset-crossing',
  find: (context) =>
    context.network.resets
      .filter(({ kind, release }) => kind === 'asynchronous' && release === 'raw')
      .flatMap((use) => crossingsOf(context, use)),
};

/** One for each domain that is reset from another. */
function crossingsOf(context: HazardContext, use: ResetUse): readonly RawFinding[] {
  const { network } = context;
  const launching = new Set(use.launchedBy.map((id) => network.registers[id].domain).filter((id) => id !== null));
  return use.domains.flatMap((domain) => {
    const foreign = [...launching].filter((from) => isForeign(context, from, domain));
    return foreign.length === 0 ? [] : [findOne(context, use, domain, foreign)];
  });
}

function isForeign({ network }: HazardContext, from: DomainId, to: DomainId): boolean {
  return from !== to && !network.domains[from].related.includes(to);
}

function findOne(
  { netlist, network }: HazardContext,
  use: ResetUse,
  domain: DomainId,
  foreign: readonly DomainId[],
): RawFinding {
  const reset = use.registers.filter((id) => network.registers[id].domain === domain);
  const senders = use.launchedBy.filter((id) => foreign.includes(network.registers[id].domain as DomainId));
  const name = (id: RegisterId) => registerName(netlist, id);
  const first = netlist.registers[reset[0]];
  const control = network.registers[first.id].asynchronous.find((entry) => entry.name === use.name);
  return {
    id: 'reset-crossing',
    certainty: null,
    signals: [use.name, ...senders.map(name), ...reset.map(name)],
    instance: instancePath(netlist, first.instance),
    place: control?.place ?? use.place,
    related: [
      ...togetherByPlace(senders.map((id) => ({ place: netlist.registers[id].samplePlace, name: name(id) }))).map(
        ({ names, place }) => ({
          place,
          why: { reason: 'reset-launched', args: { register: names, reset: use.name } },
        }),
      ),
    ],
    facts: {
      reset: use.name,
      from: senders.map(name),
      fromDomains: foreign.map((id) => network.domains[id].name),
      toDomain: network.domains[domain].name,
      registers: reset.map(name),
      bits: reset.reduce((sum, id) => sum + netlist.registers[id].width, 0),
    },
    weight: {},
  };
}
