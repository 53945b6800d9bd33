// The values of a sequence by the names that an enumeration gives them.

import type { Netlist } from '../netlist/netlist';
import { namesOfReading } from '../netlist/value-names';
import type { Count } from './prediction';

/** As it is where the registers are of no enumeration. */
export function withNames(netlist: Netlist, count: Count): Count {
  const names = namesOfReading(netlist, count.registers);
  if (names === null) return count;
  const byNumber = new Map(Object.entries(names).map(([digits, name]) => [BigInt(`0b${digits}`).toString(), name]));
  const named = (value: string) => byNumber.get(value) ?? value;
  return {
    ...count,
    start: named(count.start),
    leadIn: count.leadIn.map(named),
    values: count.values.map(named),
    trapped: count.trapped.map(named),
    steps: count.steps.map(({ from, passes, to }) => ({
      from: named(from),
      to: named(to),
      passes: passes.map(({ at, value }) => ({ at, value: named(value) })),
    })),
  };
}
