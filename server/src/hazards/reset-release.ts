// `reset-release`: a port that resets asynchronously and is released whenever whoever drives it likes (definition 36). One
// per port, never per register. Silent where the release comes through flip-flops of the domain that is reset, and for a
// reset that a person stated.

import type { ResetUse } from '../clocks/network';
import type { Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBitPastBuffers } from '../netlist/trace';
import { signalBitName } from '../netlist/bit-names';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { registerName, togetherByPlace } from './subjects';

export const resetRelease: FindingRule = {
  id: 'reset-release',
  find(context) {
    const ports = new Map<string, RawReset[]>();
    for (const reset of rawResets(context)) ports.set(reset.port, [...(ports.get(reset.port) ?? []), reset]);
    return [...ports.values()].map((resets) => findOne(context, resets));
  },
};

interface RawReset {
  readonly use: ResetUse;
  /** The port bit behind it, by name. */
  readonly port: string;
  readonly node: NodeId;
  /** The level of the port that resets. */
  readonly active: 'high' | 'low';
}

function rawResets({ netlist, network, prediction }: HazardContext): RawReset[] {
  const stated = new Set(prediction.drive.resets.filter(({ source }) => source === 'given').map(({ name }) => name));
  return network.resets
    .filter(({ kind, release }) => kind === 'asynchronous' && release === 'raw')
    .flatMap((use) => portBehind(netlist, use) ?? [])
    .filter(({ port, use }) => !stated.has(port) && !stated.has(use.name));
}

/** Back through wiring, buffers and inverters; null where something else makes the reset. */
function portBehind({ nodes, signals }: Netlist, use: ResetUse): RawReset | null {
  let { node, bit } = sourceBitPastBuffers(nodes, use.bit);
  let active = use.active;
  for (let steps = 0; nodes.op[node] === Op.not && steps < nodes.count; steps++) {
    ({ node, bit } = sourceBitPastBuffers(nodes, { node: nodes.pool[nodes.first[node]] as NodeId, bit }));
    active = active === 'high' ? 'low' : 'high';
  }
  if (nodes.op[node] !== Op.input) return null;
  return { use, port: signalBitName(signals[nodes.aux[node]], bit), node, active };
}

function findOne({ netlist, network }: HazardContext, resets: readonly RawReset[]): RawFinding {
  const [{ active, node, port }] = resets;
  const ids = [...new Set(resets.flatMap(({ use }) => use.registers))].sort((left, right) => left - right);
  const domains = [...new Set(resets.flatMap(({ use }) => use.domains))].map((id) => network.domains[id].name);
  const names = new Set(resets.map(({ use }) => use.name));
  const bits = ids.reduce((sum, id) => sum + netlist.registers[id].width, 0);
  const places = ids.flatMap((id) =>
    network.registers[id].asynchronous
      .filter(({ name }) => names.has(name))
      .map(({ place }) => ({ place, name: registerName(netlist, id) })),
  );
  return {
    id: 'reset-release',
    certainty: null,
    signals: [port, ...ids.map((id) => registerName(netlist, id))],
    instance: '',
    place: netlist.signals[netlist.nodes.aux[node]].place,
    related: togetherByPlace(places).map(({ place, names: register }) => ({
      place,
      why: { reason: 'reset-here', args: { reset: port, register } },
    })),
    facts: { reset: port, active, registers: ids.length, bits, domains },
    weight: {},
  };
}
