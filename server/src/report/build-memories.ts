// `memories[]` of the report: each array that is read or written at an index that varies, and by which clock.

import { inOrder } from '../explain/places';
import type { Memory } from '../netlist/netlist';
import { type DesignFacts, domainName } from './design-facts';
import type { ReportMemory } from './report';

export function buildMemories(facts: DesignFacts): readonly ReportMemory[] {
  const { netlist, places } = facts;
  const built = netlist.memories.map((memory): ReportMemory => {
    const { name, words, width, ports, place } = memory;
    return { name, words, width, ports: ports.map((port) => buildPort(facts, port)), span: places.spanOf(place) };
  });
  const pathOf = new Map(
    built.map((entry, index) => [entry, netlist.instances[netlist.memories[index].instance].path]),
  );
  return inOrder(built, (entry) => pathOf.get(entry) ?? '');
}

type Port = ReportMemory['ports'][number];

/** A port has the clock of the process that it stands in; without one it answers as soon as its address moves. */
function buildPort(facts: DesignFacts, { kind, process }: Memory['ports'][number]): Port {
  const { netlist, network } = facts;
  const owner = process === null ? undefined : netlist.registers.find((register) => register.process === process);
  if (owner === undefined) return { kind, clock: null, edge: null, domain: null, synchronous: false };
  const { clock, domain, edge } = network.registers[owner.id];
  return { kind, clock: network.clocks[clock].name, edge, domain: domainName(facts, domain), synchronous: true };
}
