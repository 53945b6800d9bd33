// What is counted: one group of registers per chain, then each vector register outside chains; and the number that a
// group shows. Bit 0 is the first stage's lowest bit.

import type { ClockNetwork } from '../clocks/network';
import { type Bits, toBigInt, toBinary } from '../netlist/four-state';
import { concat } from '../netlist/four-state-parts';
import { memoryWords, type Netlist, type RegisterId } from '../netlist/netlist';
import { viewOf } from './settled';
import type { SettledMachine } from './settled-machine';

export interface CountEntry {
  readonly chain: number | null;
  /** Least significant first: the first is the one that hears the stage-1 clock. */
  readonly registers: readonly RegisterId[];
  readonly width: number;
}

/** A settled number; binary digits with x where a bit is unknown. */
export type Reading = bigint | string;

export function countEntriesOf(netlist: Netlist, network: ClockNetwork): CountEntry[] {
  const inChains = new Set(network.chains.flatMap(({ registers }) => registers));
  const words = memoryWords(netlist);
  const vectors = netlist.registers.filter(
    ({ id, signal, width }) => width > 1 && !inChains.has(id) && !words.has(signal),
  );
  return [
    ...network.chains.map(({ registers }, chain) => ({ chain, registers, width: widthOf(netlist, registers) })),
    ...vectors.map(({ id, width }) => ({ chain: null, registers: [id], width })),
  ];
}

function widthOf(netlist: Netlist, registers: readonly RegisterId[]): number {
  return registers.reduce((sum, id) => sum + netlist.registers[id].width, 0);
}

/** Offset of each register's bits in the reading, by register id. */
export function offsetsOf(netlist: Netlist, { registers }: CountEntry): ReadonlyMap<RegisterId, number> {
  const offsets = new Map<RegisterId, number>();
  let offset = 0;
  for (const id of registers) {
    offsets.set(id, offset);
    offset += netlist.registers[id].width;
  }
  return offsets;
}

/** What an entry shows when the machine is at rest. */
export function readEntry(machine: SettledMachine, { registers, width }: CountEntry): Reading {
  const { netlist } = machine.plan;
  if (width > 32)
    return readingOf(concat(registers.map((id) => viewOf(machine, netlist.registers[id].node)).reverse()));
  let value = 0;
  let offset = 0;
  for (const id of registers) {
    const { a, b, width: own } = viewOf(machine, netlist.registers[id].node);
    if (b[0] !== 0)
      return readingOf(concat(registers.map((each) => viewOf(machine, netlist.registers[each].node)).reverse()));
    value += a[0] * 2 ** offset;
    offset += own;
  }
  return BigInt(value);
}

export function readingOf(bits: Bits): Reading {
  return toBigInt(bits) ?? toBinary(bits).replaceAll('z', 'x');
}
