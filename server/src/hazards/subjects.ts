// What findings call things: registers, instances, and the few walks over the clock network that several rules share.

import type { Clock, ClockId, ClockNetwork } from '../clocks/network';
import { signalSliceName } from '../netlist/bit-names';
import type { InstanceId, Netlist, Register, RegisterId } from '../netlist/netlist';
import type { HazardContext } from './context';

/** `u1.q[3:0]`: a register by the bits it holds. */
export function registerName(netlist: Netlist, id: RegisterId): string {
  const { signal, low, width } = netlist.registers[id];
  return signalSliceName(netlist.signals[signal], low, width);
}

export function instancePath(netlist: Netlist, id: InstanceId): string {
  return netlist.instances[id].path;
}

/** Registers that a chain reaches through the output of the one before: their clock is the chain's, said once. */
export function chainLinks({ chains }: ClockNetwork): ReadonlySet<RegisterId> {
  return new Set(chains.flatMap(({ registers }) => registers.slice(1)));
}

/** The registers that a clock clocks, in order of the place where their edge list names it. */
export function clockedBy({ netlist, network }: HazardContext, clock: ClockId): readonly Register[] {
  return netlist.registers
    .filter(({ id }) => network.registers[id].clock === clock)
    .sort(
      (left, right) => left.clockPlace.unit - right.clockPlace.unit || left.clockPlace.start - right.clockPlace.start,
    );
}

export function rootName({ roots }: ClockNetwork, { root }: Pick<Clock, 'root'>): string | null {
  return root === null ? null : roots[root].name;
}
