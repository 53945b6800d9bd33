// Who reads a bit: forward through wiring, buffers and synchronous clears to the registers that sample it unchanged, and
// whether anything else hears it. For synchronizers, whose first flip-flop must be read by the next one alone.

import { bitKey } from '../netlist/bit-key';
import { createFanout, type Fanout } from '../netlist/cone';
import type { Bit, NodeId, RegisterId } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import type { Context } from './context';
import { constantDigits } from './loaded-value';

export interface Readers {
  /** Register bits that sample the bit as it is. */
  readonly flops: readonly { readonly register: RegisterId; readonly bit: number }[];
  /** Whether anything else reads it: logic, a control, an output, a black box. */
  readonly others: boolean;
}

/** Built once per netlist, since it indexes all of it. */
export function createReaderIndex(context: Context): ReaderIndex {
  return {
    context,
    fanout: createFanout(context.nodes),
    sampledBy: registersByData(context),
    ends: otherEnds(context),
  };
}

export interface ReaderIndex {
  readonly context: Context;
  readonly fanout: Fanout;
  /** Registers by the node that is their data. */
  readonly sampledBy: ReadonlyMap<NodeId, readonly RegisterId[]>;
  /** Nodes that something other than a register's data ends on. */
  readonly ends: ReadonlySet<number>;
}

function registersByData({ netlist }: Context): Map<NodeId, RegisterId[]> {
  const found = new Map<NodeId, RegisterId[]>();
  for (const { id, data } of netlist.registers) {
    const known = found.get(data);
    if (known === undefined) found.set(data, [id]);
    else known.push(id);
  }
  return found;
}

/** Clocks and controls by their bit's key; nodes that are heard whole, data and pins, as numbers below zero. */
function otherEnds({ netlist }: Context): ReadonlySet<number> {
  const ends = new Set<number>();
  const addNode = (node: NodeId) => ends.add(-1 - node);
  for (const { clock, asynchronous } of netlist.registers) {
    ends.add(bitKey(clock));
    for (const { control, value } of asynchronous) {
      ends.add(bitKey(control));
      addNode(value);
    }
  }
  for (const { gate, data, asynchronous } of netlist.latches) {
    ends.add(bitKey(gate));
    addNode(data);
    for (const { control } of asynchronous) ends.add(bitKey(control));
  }
  for (const { pins } of netlist.blackBoxes) for (const { node, output } of pins) if (output < 0) addNode(node);
  for (const { port, instance, node } of netlist.signals) if (port !== null && instance === netlist.top) addNode(node);
  return ends;
}

/** `start`: a register's output bit. Stops at the first other reader. */
export function readersOf({ context, fanout, sampledBy, ends }: ReaderIndex, start: Bit): Readers {
  const { nodes } = context;
  const flops: Readers['flops'][number][] = [];
  const seen = new Set<number>();
  const waiting = [start];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (seen.has(bitKey(bit))) continue;
    seen.add(bitKey(bit));
    if (ends.has(bitKey(bit)) || ends.has(-1 - bit.node)) return { flops, others: true };
    for (const register of sampledBy.get(bit.node) ?? []) flops.push({ register, bit: bit.bit });
    for (let entry = fanout.first[bit.node]; entry < fanout.first[bit.node + 1]; entry++) {
      const reader = fanout.reader[entry] as NodeId;
      const passed = passedTo(context, bit, reader);
      if (passed.length === 0 && !isWiring(nodes.op[reader])) return { flops, others: true };
      for (const next of passed) waiting.push(next);
    }
  }
  return { flops, others: false };
}

/** The bits of a reading node that are this very bit; none where the node makes something else of it, or skips it. */
function passedTo(context: Context, { node, bit }: Bit, reader: NodeId): Bit[] {
  const { nodes } = context;
  const at = (index: number): Bit => ({ node: reader, bit: index });
  const width = nodes.width[reader];
  switch (nodes.op[reader]) {
    case Op.net:
    case Op.buf:
    case Op.delay:
    case Op.zeroExtend:
      return [at(bit)];
    case Op.signExtend: {
      const isTop = bit === nodes.width[node] - 1;
      return isTop ? Array.from({ length: width - bit }, (_, index) => at(bit + index)) : [at(bit)];
    }
    case Op.slice: {
      const index = bit - nodes.aux[reader];
      return index >= 0 && index < width ? [at(index)] : [];
    }
    case Op.concat:
      return partsOf(context, node, reader).map((low) => at(low + bit));
    case Op.mux:
      return isClearOf(context, node, reader) ? [at(bit)] : [];
    default:
      return [];
  }
}

/** Where a node stands in a concat: the lowest bit of each of its places. */
function partsOf({ nodes }: Context, node: NodeId, concat: NodeId): number[] {
  const found: number[] = [];
  let low = nodes.width[concat];
  for (let entry = nodes.first[concat]; entry < nodes.first[concat] + nodes.arity[concat]; entry++) {
    low -= nodes.width[nodes.pool[entry]];
    if (nodes.pool[entry] === node) found.push(low);
  }
  return found;
}

/** A choice between this node and a constant, made by another one: a synchronous clear. */
function isClearOf(context: Context, node: NodeId, mux: NodeId): boolean {
  const { nodes } = context;
  const [select, ...arms] = [0, 1, 2].map((index) => nodes.pool[nodes.first[mux] + index] as NodeId);
  return select !== node && arms.some((arm) => constantDigits(context, arm) !== null);
}
