// Whose rate a report tells: every bit of an output of the top, and what `rates` of the project file names. Enables that
// come periodically are found where registers are studied.

import { findBits } from '../explain/find-bits';
import type { Bit, Netlist } from '../netlist/netlist';
import { topPorts } from '../netlist/netlist';
import type { StudyOptions } from './options';

export interface RatedBit {
  readonly name: string;
  readonly bit: Bit;
}

/** Outputs in source order, then what is named and no output, in the order of the project file. */
export function ratedBits(netlist: Netlist, { rates }: Pick<StudyOptions, 'rates'>): readonly RatedBit[] {
  const outputs = topPorts(netlist).filter(({ port }) => port === 'output');
  const named = Object.keys(rates).filter((name) => isOneBit(netlist, name));
  const all = [...outputs.map(({ name }) => name), ...named].flatMap((name) => findBits(netlist, name) ?? []);
  const byName = new Map<string, RatedBit>();
  for (const rated of all) if (!byName.has(rated.name)) byName.set(rated.name, rated);
  return [...byName.values()];
}

/** A wish is for one bit: a rate of several together would have to say which. */
export function isOneBit(netlist: Netlist, name: string): boolean {
  return findBits(netlist, name)?.length === 1;
}
