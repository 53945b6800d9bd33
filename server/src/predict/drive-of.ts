// The drive of a design (definition 35): what is given, and for all else an assumption, each with its reason and place.
// What a person states and nothing can use is refused the same way: an assumption from `given` whose reason says so.

import type { ClockNetwork } from '../clocks/network';
import type { Netlist } from '../netlist/netlist';
import type { Assumption, Drive, DriveOptions } from './drive';
import { driveClocks } from './drive-clocks';
import { driveInputs } from './drive-inputs';
import { findDrivePorts } from './drive-ports';
import { openDrainPorts } from './open-drain';
import { driveResets } from './drive-resets';
import type { ToldWaves } from './drive-told';
import { collectVotes } from './drive-votes';

/** `told`: by a test bench or a dump. What a person states goes before it, what it tells before all that is assumed. */
export function driveOf(
  netlist: Netlist,
  network: ClockNetwork,
  options: DriveOptions,
  told: ToldWaves = new Map(),
): Drive {
  const ports = findDrivePorts(netlist);
  const taken = new Set<number>();
  const clocks = driveClocks({ network, ports, options, told, taken });
  const resets = driveResets({ netlist, network, ports, options, told, clocks: clocks.clocks, taken });
  const openDrain = new Set(openDrainPorts(netlist).map(({ port }) => port));
  const votes = collectVotes(netlist, network);
  const inputs = driveInputs({ ports, options, told, taken, votes, openDrain });
  return {
    clocks: clocks.clocks,
    resets: resets.resets,
    inputs: inputs.inputs,
    pulls: clocks.pulls,
    assumptions: [
      ...clocks.assumptions,
      ...resets.assumptions,
      ...inputs.assumptions,
      ...startAssumption(netlist, options),
    ],
  };
}

/** One entry for all registers whose start nothing in the text gives. */
function startAssumption({ registers }: Netlist, { start }: DriveOptions): Assumption[] {
  const open = registers.filter(({ initialPlace, asynchronous }) => initialPlace === null && asynchronous.length === 0);
  if (open.length === 0) return [];
  const why = { reason: 'drive-start-assumed', args: { start, registers: open.length } };
  return [{ about: 'start', value: start, source: 'setting', why, place: open[0].place }];
}
