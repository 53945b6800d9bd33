// Ports on an open-drain bus: whatever the design puts on them is 0 or nothing. Such a wire has a pull-up somewhere outside,
// or nobody could ever read a 1 from it.

import { digitAt } from '../netlist/four-state';
import type { Netlist, NodeId, SignalId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOf, throughNets } from './drive-spots';

export interface OpenDrainPort {
  readonly port: SignalId;
  /** Index in the netlist's resolutions: the net that the port meets its drivers on. */
  readonly resolution: number;
}

/** The inout ports that the design only ever pulls low or lets go. */
export function openDrainPorts(netlist: Netlist): readonly OpenDrainPort[] {
  const { nodes, signals, top } = netlist;
  const found: OpenDrainPort[] = [];
  for (let node = 0; node < nodes.count; node++) {
    if (nodes.op[node] !== Op.resolve) continue;
    const drivers = operandsOf(netlist, node as NodeId).map((driver) => throughNets(netlist, driver));
    const outside = drivers.find((driver) => nodes.op[driver] === Op.input);
    if (outside === undefined || drivers.length < 2) continue;
    const { id: port, instance, port: direction } = signals[nodes.aux[outside]];
    if (instance !== top || direction !== 'inout') continue;
    const isPulledLow = drivers.every((driver) => driver === outside || onlyPullsLow(netlist, driver));
    if (isPulledLow) found.push({ port, resolution: nodes.aux[node] });
  }
  return found;
}

/** The same design on wires with pull-ups, where they are open-drain: let go, they read 1. */
export function withPullUps(netlist: Netlist): Netlist {
  const pulled = new Set(openDrainPorts(netlist).map(({ resolution }) => resolution));
  if (pulled.size === 0) return netlist;
  const resolutions = netlist.resolutions.map((resolution, index) =>
    pulled.has(index) && resolution.kind === 'wire' ? { ...resolution, kind: 'tri1' as const } : resolution,
  );
  return { ...netlist, resolutions };
}

/** Whether a driver gives 0 or z, whatever its inputs are; an x among its constants counts as what it may become. */
function onlyPullsLow(netlist: Netlist, driver: NodeId): boolean {
  const pending = [driver];
  const seen = new Set<NodeId>();
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const node = throughNets(netlist, next);
    if (seen.has(node)) continue;
    seen.add(node);
    if (seen.size > largestDriver) return false;
    const values = possibleValues(netlist, node);
    if (values === null) return false;
    pending.push(...values);
  }
  return true;
}

/** Nodes of one driver looked at. */
const largestDriver = 256;

/** What a node passes on in turn; none for a constant that pulls low or lets go; null for all that can give 1. */
function possibleValues(netlist: Netlist, node: NodeId): readonly NodeId[] | null {
  const { nodes, constants } = netlist;
  const operands = operandsOf(netlist, node);
  switch (nodes.op[node]) {
    case Op.constant: {
      const bits = constants[nodes.aux[node]];
      for (let bit = 0; bit < bits.width; bit++) {
        const digit = digitAt(bits, bit);
        if (digit !== '0' && digit !== 'z') return null;
      }
      return [];
    }
    case Op.mux:
      return operands.slice(1);
    case Op.tristate:
      return operands.slice(0, 1);
    case Op.concat:
    case Op.resolve:
      return operands;
    default:
      return null;
  }
}
