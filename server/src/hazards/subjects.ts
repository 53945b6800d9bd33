// What findings call things: registers, instances, and the few walks over the clock network that several rules share.

import { type Clock, type ClockId, type ClockNetwork, comparePlaces } from '../clocks/network';
import { signalSliceName } from '../netlist/bit-names';
import type { InstanceId, LatchId, Netlist, Register, RegisterId } from '../netlist/netlist';
import type { Place } from '../text/place';
import type { HazardContext, RawFinding } from './context';

/** `u1.q[3:0]`: a register by the bits it holds. */
export function registerName(netlist: Netlist, id: RegisterId): string {
  const { signal, low, width } = netlist.registers[id];
  return signalSliceName(netlist.signals[signal], low, width);
}

/** A latch by the bits it holds. */
export function latchName(netlist: Netlist, id: LatchId): string {
  const { signal, low, width } = netlist.latches[id];
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

/** What stands at one place is told together there, its names one after the other. In order of first mention. */
export function togetherByPlace(
  members: readonly { readonly place: Place; readonly name: string }[],
): readonly { readonly place: Place; readonly names: string }[] {
  const found: { readonly place: Place; readonly names: string[] }[] = [];
  for (const { place, name } of members) {
    const known = found.find((entry) => comparePlaces(entry.place, place) === 0);
    if (known === undefined) found.push({ place, names: [name] });
    else if (!known.names.includes(name)) known.names.push(name);
  }
  return found.map(({ place, names }) => ({ place, names: names.join(', ') }));
}

/** The edge lists that a clock stands in, with the registers that each makes. */
export function clocksHere(netlist: Netlist, clock: Clock, clocked: readonly Register[]): RawFinding['related'] {
  return togetherByPlace(
    clocked.map(({ id, clockPlace }) => ({ place: clockPlace, name: registerName(netlist, id) })),
  ).map(({ place, names }) => ({
    place,
    why: { reason: 'clocks-register', args: { clock: clock.name, register: names } },
  }));
}
