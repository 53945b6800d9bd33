// `mixed-assignment` (definition 41): one variable gets both kinds of assignment; or a variable that is written blocking
// in a clocked process is read by another process of that clock; or `<=` stands in a level process.

import { signalSliceName } from '../netlist/bit-names';
import type { Netlist, Process, Register } from '../netlist/netlist';
import type { Place } from '../text/place';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath } from './subjects';

export const mixedAssignment: FindingRule = {
  id: 'mixed-assignment',
  find: (context) => [
    ...context.netlist.processes.flatMap((process) => bothKinds(context.netlist, process)),
    ...context.netlist.processes.flatMap((process) => nonblockingLevel(context.netlist, process)),
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

/** A variable that already has both kinds is said once, by `bothKinds`. */
function nonblockingLevel(netlist: Netlist, process: Process): RawFinding[] {
  if (process.kind !== 'combinational' && process.kind !== 'latch') return [];
  const single = process.assignments.filter(
    (one) => !one.blocking && !process.assignments.some((other) => other.blocking && overlaps(other, one)),
  );
  return firstPerSignal(single).map((one) => finding(netlist, process, 'nonblocking-in-level-process', one, null));
}

function readElsewhere({ netlist, network }: HazardContext): RawFinding[] {
  return netlist.registers.flatMap((register) => {
    const process = netlist.processes[register.process];
    const blocking = process.assignments.find((one) => one.blocking && overlaps(one, register));
    if (blocking === undefined || process.assignments.some((one) => !one.blocking && overlaps(one, register)))
      return [];
    const reader = sameClockReader(netlist, register, (other) => network.registers[other.id].clock);
    return reader === null ? [] : [finding(netlist, process, 'blocking-read-elsewhere', blocking, reader)];
  });
}

/** Where another process of the same clock and edge reads the register; null where none does. */
function sameClockReader(netlist: Netlist, register: Register, clockOf: (register: Register) => number): Place | null {
  const processes = new Set(
    netlist.registers
      .filter((other) => clockOf(other) === clockOf(register) && other.edge === register.edge)
      .map(({ process }) => process),
  );
  processes.delete(register.process);
  for (const id of processes) {
    const read = netlist.processes[id].reads.find((one) => overlaps(one, register));
    if (read !== undefined) return read.place;
  }
  return null;
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
