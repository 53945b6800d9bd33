// `mixed-assignment` (definition 41): one variable gets both kinds of assignment; or a variable that is written blocking
// in a clocked process is sampled by another process of that clock, straight or through logic and ports, so that the order
// in which a simulator runs the two decides; or `<=` stands in a process meant as logic (a latch may have it).

import { signalSliceName } from '../netlist/bit-names';
import type { Netlist, Process, Register } from '../netlist/netlist';
import type { Place } from '../text/place';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { registersHeard } from '../netlist/registers-heard';
import { instancePath } from './subjects';

export const mixedAssignment: FindingRule = {
  id: 'mixed-assignment',
  find: (context) => [
    ...context.netlist.processes.flatMap((process) => bothKinds(context.netlist, process)),
    ...context.netlist.processes.flatMap((process) => nonblockingLevel(context, process)),
    ...readElsewhere(context),
  ],
};

type Assignment = Process['assignments'][number];

function bothKinds(netlist: Netlist, process: Process): RawFinding[] {
  if (process.kind !== 'clocked' && process.kind !== 'combinational' && process.kind !== 'latch') return [];
  return firstPerSignal(process.assignments.filter(({ blocking }) => !blocking)).flatMap((nonblocking) => {
    const blocking = process.assignments.find((other) => other.blocking && overlaps(other, nonblocking));
    return blocking === undefined ? [] : [finding(netlist, process, 'both-kinds', nonblocking, blocking.place)];
  });
}

/**
 * A variable that already has both kinds is said once, by `bothKinds`. The bits of a latch somebody meant may be written
 * so: to wait for the gate is what `<=` says (IEEE 1364.1-2002 writes level-sensitive storage with it; from memory).
 */
function nonblockingLevel({ netlist, network }: HazardContext, process: Process): RawFinding[] {
  if (process.kind !== 'combinational' && process.kind !== 'latch') return [];
  const meant = netlist.latches.filter(({ id }) => network.latches[id].intended);
  const single = process.assignments.filter(
    (one) =>
      !one.blocking &&
      !process.assignments.some((other) => other.blocking && overlaps(other, one)) &&
      !meant.some((latch) => latch.process === process.id && overlaps(latch, one)),
  );
  return firstPerSignal(single).map((one) => finding(netlist, process, 'nonblocking-in-level-process', one, null));
}

function readElsewhere({ netlist, network }: HazardContext): RawFinding[] {
  const blocking = netlist.registers.flatMap((register) => {
    const assignments = netlist.processes[register.process].assignments.filter((one) => overlaps(one, register));
    const isBlocking = assignments.length > 0 && assignments.every((one) => one.blocking);
    return isBlocking ? [{ register, at: assignments[0] }] : [];
  });
  if (blocking.length === 0) return [];
  const readers = createReaders(netlist, (register) => network.registers[register.id].clock);
  return blocking.flatMap(({ register, at }) => {
    const reader = readers(register);
    const process = netlist.processes[register.process];
    return reader === null ? [] : [finding(netlist, process, 'blocking-read-elsewhere', at, reader)];
  });
}

/** Where another process of the same clock and edge samples a register; null where none does. */
function createReaders(netlist: Netlist, clockOf: (register: Register) => number): (of: Register) => Place | null {
  const heardBy = netlist.registers.map((reader) => ({
    reader,
    heard: new Set(registersHeard(netlist, reader).map(({ register }) => register)),
  }));
  return (of) => {
    const other = heardBy.find(
      ({ reader, heard }) =>
        heard.has(of.id) && reader.process !== of.process && clockOf(reader) === clockOf(of) && reader.edge === of.edge,
    );
    if (other === undefined) return null;
    const read = netlist.processes[other.reader.process].reads.find((one) => overlaps(one, of));
    return read?.place ?? other.reader.samplePlace;
  };
}

interface Stretch {
  readonly signal: number;
  readonly low: number;
  readonly width: number;
}

function overlaps(left: Stretch, right: Stretch): boolean {
  return left.signal === right.signal && left.low < right.low + right.width && right.low < left.low + left.width;
}

function firstPerSignal(assignments: readonly Assignment[]): readonly Assignment[] {
  return assignments.filter((one, index) => assignments.findIndex(({ signal }) => signal === one.signal) === index);
}

function finding(netlist: Netlist, process: Process, how: string, at: Assignment, other: Place | null): RawFinding {
  const name = signalSliceName(netlist.signals[at.signal], at.low, at.width);
  return {
    id: 'mixed-assignment',
    certainty: null,
    signals: [name],
    instance: instancePath(netlist, process.instance),
    place: at.place,
    related: other === null ? [] : [{ place: other, why: { reason: `mixed-${how}`, args: { signal: name } } }],
    facts: { signal: name, how },
    weight: {},
  };
}
