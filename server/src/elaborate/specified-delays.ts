// What the specify blocks of a linked design come to. A path from a clock or an asynchronous control to the output of a
// register becomes the delay of that register; every other path becomes a delay before its output. What stands between
// the ends of a path takes no time of the delay set (IEEE 1364-2005 14.4: the path's own delay is the whole).

import { bitKey } from '../netlist/bit-key';
import { createGrowingNodes } from '../netlist/growing-nodes';
import type { Netlist } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { LinkedSpecified } from './link-specified';
import { outputsOf, type PathOutput } from './path-outputs';
import { createDistributedDelays } from './distributed-delay';
import { behindPaths, inputNodes } from './specified-cones';
import { type RegisterDelays, registerDelays } from './specified-registers';
import { registerWindows } from './specified-windows';
import { zero } from './triples';

/** The same netlist where there is nothing. */
export function withSpecified(netlist: Netlist, linked: LinkedSpecified | null): Netlist {
  if (linked === null) return netlist;
  const outputs = outputsOf(netlist, linked.paths);
  const distributed = createDistributedDelays(netlist, inputNodes(netlist, linked.paths));
  const delays = registerDelays(netlist, outputs, distributed);
  const behind = behindPaths(netlist, linked.paths, outputs);
  const delayed = withDelays(netlist, outputs, delays);
  const windows = registerWindows(netlist, linked.checks);
  const stored = [...new Set([...behind.registers, ...windows.keys()])].sort((left, right) => left - right);
  const registers = stored.map((register) => {
    const isBehind = behind.registers.has(register);
    const stated = delays.registers.get(register);
    return {
      register,
      clockToQ: isBehind ? (stated?.clockToQ ?? { rise: zero, fall: zero }) : null,
      clear: isBehind ? (stated?.clear ?? { rise: zero, fall: zero }) : null,
      ...(windows.get(register) ?? { setup: null, hold: null, recovery: null, removal: null }),
    };
  });
  const { latches, operators } = behind;
  return { ...delayed, specified: { registers, latches, operators, checks: linked.checks } };
}

function withDelays(netlist: Netlist, outputs: readonly PathOutput[], { kept }: RegisterDelays): Netlist {
  const grown = createGrowingNodes(netlist.nodes);
  const explicitDelays = [...netlist.explicitDelays];
  const done = new Set<number>();
  for (const output of outputs) {
    const { driver, piece } = output;
    const delay = kept.get(output) ?? null;
    const key = bitKey({ node: piece.node, bit: piece.low });
    if (delay === null || done.has(key)) continue;
    done.add(key);
    const place = netlist.nodes.place[piece.node];
    const aux = explicitDelays.push(delay) - 1;
    const node = grown.add({ op: Op.delay, width: piece.width, operands: [driver], aux, place });
    grown.replace(piece.node, { op: Op.net, operands: [node], aux: netlist.nodes.aux[piece.node] });
  }
  return { ...netlist, nodes: grown.columns(), explicitDelays };
}
