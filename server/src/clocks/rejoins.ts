// Bits that cross one by one and meet again (definition 39): each row of flip-flops may take a period longer than the
// other, so for one period the receiver sees a pair of values that the sender never had. Silent where the bits are proven
// never to change at one edge of the sender. A crossing of several bits at once is judged as one, not here.

import type { NodeId, RegisterId } from '../netlist/netlist';
import type { Clocked } from './crossings';
import { createBitReach, nodeReach } from './domain-reach';
import { createDomainSets } from './domain-sets';
import { changesOneAtATime } from './gray-code';
import type { Crossing, DomainId, Rejoin } from './network';
import type { Pace } from './pace';

export function* findRejoins(
  { context, registers }: Clocked,
  crossings: readonly Crossing[],
  pace: Pace,
): Generator<void, Rejoin[]> {
  const { netlist } = context;
  const rejoins: Rejoin[] = [];
  for (const group of groupsOf(crossings)) {
    // A set of crossings stands where a set of domains stands elsewhere: what can be heard is told the same way.
    const byNode = new Map<NodeId, number>();
    for (const index of group) byNode.set(netlist.registers[crossings[index].last].node, index);
    const crossingOf = (node: NodeId) => (byNode.get(node) ?? null) as DomainId | null;
    const sets = createDomainSets();
    const reach = yield* nodeReach(netlist, crossingOf, sets, pace);
    const bitReach = createBitReach(context, crossingOf, sets, reach);
    const { toDomain } = crossings[group[0]];
    for (const { data, id, width } of netlist.registers) {
      if (registers[id].domain !== toDomain || sets.members(reach[data]).length < 2) continue;
      const met = new Set<number>();
      for (let bit = 0; bit < width; bit++) {
        const heard = sets.members(bitReach({ node: data, bit }));
        if (heard.length > 1) for (const index of heard) met.add(index);
      }
      const together = yield* changingTogether(context, registers, crossings, [...met].sort(ascending), pace);
      if (together.length > 1) rejoins.push({ to: id as RegisterId, crossings: together });
      if (pace.spend(width)) yield;
    }
  }
  return rejoins.sort((left, right) => left.to - right.to);
}

function ascending(left: number, right: number): number {
  return left - right;
}

/** Single bits behind flip-flops in a row, by sending and receiving domain, two or more of them. */
function groupsOf(crossings: readonly Crossing[]): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  for (const [index, { fromDomain, source, status, synchronizer, toDomain }] of crossings.entries()) {
    const isRow = synchronizer === 'two-flop' || synchronizer === 'three-flop';
    if (source === null || status !== 'protected' || !isRow) continue;
    const key = `${fromDomain} ${toDomain}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [index]);
    else group.push(index);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}

/** Those that may change at one edge with another of them. */
function* changingTogether(
  context: Clocked['context'],
  registers: Clocked['registers'],
  crossings: readonly Crossing[],
  indices: readonly number[],
  pace: Pace,
): Generator<void, readonly number[]> {
  const found = new Set<number>();
  for (const [position, left] of indices.entries()) {
    for (const right of indices.slice(position + 1)) {
      const bits = [crossings[left].source, crossings[right].source].filter((bit) => bit !== null);
      const [one, other] = bits;
      const isOneBit = one.node === other.node && one.bit === other.bit;
      // One bit brought over twice changes with itself.
      if (!isOneBit && (yield* changesOneAtATime(context, registers, bits, pace)) !== 'no') continue;
      found.add(left).add(right);
    }
  }
  return [...found].sort(ascending);
}
