// `text-race`: a clocked process writes a variable with `=` and then reads a net that something drives from it. By IEEE
// 1364-2005 11.5 the net may have followed by then or not: both are right, so the text has two meanings, and hardware has
// only one of them. Reads before the write, and of the variable itself, have one meaning. One per process and net.

import { bitKey } from '../netlist/bit-key';
import { signalSliceName } from '../netlist/bit-names';
import type { Bit, Netlist, Process, SignalId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';
import type { FindingRule, RawFinding } from './context';
import { instancePath } from './subjects';

export const textRace: FindingRule = {
  id: 'text-race',
  find: ({ netlist }) =>
    netlist.processes.filter(({ kind }) => kind === 'clocked').flatMap((process) => findIn(netlist, process)),
};

type Read = Process['reads'][number];
type Assignment = Process['assignments'][number];

function findIn(netlist: Netlist, process: Process): RawFinding[] {
  const written = process.assignments.filter(({ blocking }) => blocking);
  if (written.length === 0) return [];
  return process.reads.flatMap((read) => {
    const earlier = written.filter(({ place }) => place.unit === read.place.unit && place.end <= read.place.start);
    if (earlier.length === 0 || process.assignments.some(({ signal }) => signal === read.signal)) return [];
    const followed = firstFollowed(netlist, process, read, earlier);
    return followed === null ? [] : [findingOf(netlist, process, read, followed)];
  });
}

/** The first of the assignments whose variable the net hears within the instant; null where it hears none. */
function firstFollowed(
  netlist: Netlist,
  process: Process,
  read: Read,
  written: readonly Assignment[],
): Assignment | null {
  const { latches, nodes, registers, signals } = netlist;
  const seen = new Set<number>();
  const waiting: Bit[] = Array.from({ length: read.width }, (_, bit) => ({
    node: signals[read.signal].node,
    bit: read.low + bit,
  }));
  const heard = new Map<SignalId, number[]>();
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (seen.has(bitKey(next))) continue;
    seen.add(bitKey(next));
    const { bit, node } = next;
    const op = nodes.op[node];
    if (op !== Op.register && op !== Op.latch) {
      visitOperandsOfBit(nodes, next, (operand, index) => waiting.push({ node: operand, bit: index }));
      continue;
    }
    const holder = (op === Op.register ? registers : latches)[nodes.aux[node]];
    if (holder.process === process.id)
      heard.set(holder.signal, [...(heard.get(holder.signal) ?? []), holder.low + bit]);
  }
  const meets = ({ low, signal, width }: Assignment) =>
    heard.get(signal)?.some((bit) => low <= bit && bit < low + width) ?? false;
  return written.find(meets) ?? null;
}

function findingOf(netlist: Netlist, process: Process, read: Read, followed: Assignment): RawFinding {
  const name = (one: Pick<Read, 'signal' | 'low' | 'width'>) =>
    signalSliceName(netlist.signals[one.signal], one.low, one.width);
  return {
    id: 'text-race',
    certainty: null,
    signals: [name(read), name(followed)],
    instance: instancePath(netlist, process.instance),
    place: read.place,
    related: [{ place: followed.place, why: { reason: 'written-before', args: { signal: name(followed) } } }],
    facts: { net: name(read), variable: name(followed) },
    weight: {},
  };
}
