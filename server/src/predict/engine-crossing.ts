// A sample of what another, unrelated clock has moved (definition 31): no order is fixed and none is a fault of the
// design's timing, so the run does not stop at x. It takes the old or the new level of each moving bit by a stated seed
// and goes on; the same seed gives the same run. Which of the two is taken says nothing about hardware.

import type { ClockNetwork } from '../clocks/network';
import { Op } from '../netlist/operators';
import type { Drive } from './drive';
import { type DenseBits, denseOf } from './engine-bits';
import type { ClockRelations, EngineState } from './engine-state';

export function relationsOf(network: ClockNetwork, drive: Drive, bits: DenseBits): ClockRelations {
  const domainOf = new Map<number, number>();
  for (const { root, bit } of drive.clocks) {
    // A port that is driven like a clock but clocks nothing has no domain: its timing is what the person stated.
    const domain = network.domains.find(({ roots }) => roots.length === 1 && roots[0] === root);
    if (domain !== undefined) domainOf.set(denseOf(bits, bit), domain.id);
  }
  const related = new Set<string>();
  for (const domain of network.domains) for (const other of domain.related) related.add(pairKey(domain.id, other));
  return { domainOf, related };
}

/** Whether the two changes come from clocks without a fixed relation. Reset and input changes have no clock: false. */
export function areUnrelated(state: EngineState, dataChange: number, pinChange: number): boolean {
  const { domainOf, related } = state.relations;
  const data = domainOf.get(drivenBit(state, dataChange));
  const pin = domainOf.get(drivenBit(state, pinChange));
  if (data === undefined || pin === undefined || data === pin) return false;
  return !related.has(pairKey(data, pin)) && !related.has(pairKey(pin, data));
}

/** True for the new level, false for the old one; told by the seed, the instant, who samples and which bit. */
export function takesNew(state: EngineState, unitIndex: number, bit: number): boolean {
  const { nodeOf, bitOf } = state.plan.bits;
  const { nodes } = state.netlist;
  let mixed = mix(state.seed, state.now % 4294967296);
  mixed = mix(mixed, Math.floor(state.now / 4294967296));
  mixed = mix(mixed, unitIndex);
  // Not the dense number: that would make the run hang on the numbering of nodes.
  mixed = mix(mixed, nodes.op[nodeOf[bit]]);
  mixed = mix(mixed, nodes.aux[nodeOf[bit]]);
  // The bits of a memory's content are one number: all of them are old or new.
  mixed = mix(mixed, holdsContent(state, nodeOf[bit]) ? 0 : bitOf[bit]);
  return (mixed & 1) === 1;
}

function holdsContent({ netlist, plan }: EngineState, node: number): boolean {
  const { op, aux } = netlist.nodes;
  if (op[node] === Op.register) return plan.units[aux[node]].contents !== null;
  return op[node] === Op.latch && plan.units[netlist.registers.length + aux[node]].contents !== null;
}

/** The bit of the drive at the far end of a change's causes. */
function drivenBit(state: EngineState, change: number): number {
  const { cause, bit } = state.log;
  let at = change;
  while (cause[at] >= 0) at = cause[at];
  return bit[at];
}

function pairKey(left: number, right: number): string {
  return `${left} ${right}`;
}

/** One round of a multiplicative hash with its high bits folded down. */
function mix(left: number, right: number): number {
  const product = Math.imul(left ^ (right + 0x7f4a7c15), 0x2c1b3c6d);
  const folded = product ^ (product >>> 15);
  return Math.imul(folded, 0x297a2d39) ^ (folded >>> 13);
}
