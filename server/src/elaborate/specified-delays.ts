// What the specify blocks of a linked design come to. A path from a clock or an asynchronous control to the output of a
// register becomes the delay of that register; every other path becomes a delay before its output. What stands between
// the ends of a path takes no time of the delay set (IEEE 1364-2005 14.4: the path's own delay is the whole).

import { bitKey } from '../netlist/bit-key';
import { createGrowingNodes } from '../netlist/growing-nodes';
import type { Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { LinkedSpecified } from './link-specified';
import { outputsOf, type PathOutput } from './path-outputs';
import { createDistributedDelays } from './distributed-delay';
import { behindPaths, inputNodes } from './specified-cones';
import { type RegisterDelays, registerDelays } from './specified-registers';
import { registerWindows } from './specified-windows';
import { zero } from './triples';

/** The same netlist where there is nothing. Yields now and then. */
export function* withSpecified(netlist: Netlist, linked: LinkedSpecified | null): Generator<void, Netlist> {
  if (linked === null) return netlist;
  const outputs = outputsOf(netlist, linked.paths);
  const stops = inputNodes(netlist, linked.paths);
  const distributed = createDistributedDelays(netlist, stops);
  yield;
  const delays = yield* registerDelays(netlist, outputs, { distributed, stops });
  yield;
  const behind = behindPaths(netlist, linked.paths, outputs);
  yield;
  const delayed = withDelays(netlist, outputs, { kept: delays.kept, inside: behind.nodes });
  yield;
  const windows = yield* registerWindows(netlist, linked.checks);
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

/** `inside`: nodes behind paths, which hear an output as it is before its delay. */
function withDelays(
  netlist: Netlist,
  outputs: readonly PathOutput[],
  { inside, kept }: Pick<RegisterDelays, 'kept'> & { readonly inside: readonly NodeId[] },
): Netlist {
  const grown = createGrowingNodes(netlist.nodes);
  const explicitDelays = [...netlist.explicitDelays];
  const done = new Set<number>();
  const before = new Map<NodeId, NodeId>();
  for (const output of outputs) {
    const { driver, piece } = output;
    const delay = kept.get(output) ?? null;
    const key = bitKey({ node: piece.node, bit: piece.low });
    if (delay === null || done.has(key)) continue;
    done.add(key);
    before.set(piece.node, driver);
    const place = netlist.nodes.place[piece.node];
    const aux = explicitDelays.push(delay) - 1;
    const node = grown.add({ op: Op.delay, width: piece.width, operands: [driver], aux, place });
    grown.replace(piece.node, { op: Op.net, operands: [node], aux: netlist.nodes.aux[piece.node] });
  }
  // A port in several pieces is put together in one place, for inside and outside alike.
  const whole = new Set(outputs.map(({ piece }) => netlist.signals[piece.signal].node));
  const { aux, arity, first, op, pool } = netlist.nodes;
  for (const node of inside) {
    const operands = Array.from(pool.subarray(first[node], first[node] + arity[node])) as NodeId[];
    if (before.has(node) || whole.has(node) || !operands.some((operand) => before.has(operand))) continue;
    const heard = operands.map((operand) => before.get(operand) ?? operand);
    grown.replace(node, { op: op[node], operands: heard, aux: aux[node] });
  }
  const registers = netlist.registers.map((register) => {
    const data = before.get(register.data);
    return data === undefined ? register : { ...register, data };
  });
  return { ...netlist, nodes: grown.columns(), registers, explicitDelays };
}
