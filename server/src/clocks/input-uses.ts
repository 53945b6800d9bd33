// Which registers hear each port of one bit as data, and how: unchanged, at the head of a row of flip-flops, or through logic.

import type { NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { createReaderIndex } from './bit-readers';
import type { Clocked } from './crossings';
import { createBitReach, nodeReach } from './domain-reach';
import { createDomainSets } from './domain-sets';
import { rowFrom } from './flop-row';
import type { DomainId, InputReader, InputUse } from './network';
import type { Pace } from './pace';
import { sampledBit } from './synchronizers';

export function* findInputUses(clocked: Clocked, pace: Pace): Generator<void, InputUse[]> {
  const { context, registers } = clocked;
  const { netlist, nodes } = context;
  const ports = singleBitPorts(clocked);
  if (ports.length === 0) return [];
  const indexOf = new Map(ports.map(({ node }, index) => [node, index] as const));
  // A set of ports stands where a set of domains stands elsewhere: what can be heard is told the same way.
  const portOf = (node: NodeId) => (indexOf.get(node) ?? null) as DomainId | null;
  const sets = createDomainSets();
  const reach = yield* nodeReach(netlist, portOf, sets, pace);
  const bitReach = createBitReach(context, portOf, sets, reach);
  const readers = createReaderIndex(context);
  const uses = ports.map((): InputReader[] => []);
  for (const register of netlist.registers) {
    const { domain } = registers[register.id];
    if (domain === null || sets.members(reach[register.data]).length === 0) continue;
    const depths = new Map<number, number>();
    for (let bit = 0; bit < register.width; bit++) {
      const heard = sets.members(bitReach({ node: register.data, bit }));
      for (const port of heard) {
        const depth = isSampled(clocked, register, bit, ports[port].node)
          ? rowFrom(registers, readers, { register: register.id, bit }).length
          : 0;
        depths.set(port, Math.min(depth, depths.get(port) ?? depth));
      }
    }
    for (const [port, depth] of depths) uses[port].push({ register: register.id, domain, depth });
    if (pace.spend(register.width)) yield;
  }
  return ports.flatMap(({ name, node, place }, index) =>
    uses[index].length === 0 ? [] : [{ bit: { node, bit: 0 }, name, place, readers: uses[index] }],
  );

  function isSampled({ context: within }: Clocked, register: Register, bit: number, port: NodeId): boolean {
    const { bit: sampled } = sampledBit(within, { register, bit });
    return nodes.op[sampled.node] === Op.input && sampled.node === port;
  }
}

function singleBitPorts({ context: { netlist, nodes } }: Clocked) {
  const found: { readonly node: NodeId; readonly name: string; readonly place: InputUse['place'] }[] = [];
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.input || nodes.width[node] !== 1) continue;
    const { instance, name, place, port } = netlist.signals[nodes.aux[node]];
    if (instance === netlist.top && port === 'input') found.push({ node: node as NodeId, name, place });
  }
  return found;
}
