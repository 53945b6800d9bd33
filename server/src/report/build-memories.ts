// `memories[]` of the report: each array that is read or written at an index that varies, and by which clock.

import { inOrder } from '../explain/places';
import type { Memory, Register } from '../netlist/netlist';
import { type DesignFacts, domainName } from './design-facts';
import type { ReportMemory } from './report';

export function buildMemories(facts: DesignFacts): readonly ReportMemory[] {
  const { netlist, places } = facts;
  const built = netlist.memories.map((memory): ReportMemory => {
    const { name, words, width, ports, place } = memory;
    return {
      name,
      words,
      width,
      ports: ports.map((port) => buildPort(facts, memory, port)),
      span: places.spanOf(place),
    };
  });
  const pathOf = new Map(
    built.map((entry, index) => [entry, netlist.instances[netlist.memories[index].instance].path]),
  );
  return inOrder(built, (entry) => pathOf.get(entry) ?? '');
}

type Port = ReportMemory['ports'][number];

/** A port has the clock of the process that it stands in; without one it answers as soon as its address moves. */
function buildPort(facts: DesignFacts, memory: Memory, { kind, process }: Memory['ports'][number]): Port {
  const { netlist, network } = facts;
  // Where several processes write a content it stands in the name of one of them.
  const isOwner = (register: Register) =>
    memory.contents !== null && kind === 'write' ? register.signal === memory.signals[0] : register.process === process;
  const owner = process === null ? undefined : netlist.registers.find(isOwner);
  if (owner === undefined) return { kind, clock: null, edge: null, domain: null, synchronous: false };
  const { clock, domain, edge } = network.registers[owner.id];
  return { kind, clock: network.clocks[clock].name, edge, domain: domainName(facts, domain), synchronous: true };
}
