// What the settled stepper needs to know of a netlist, worked out once: the nodes that can influence what is watched
// (through registers and latches too), in an order where operands come first, as columns by position. Latches stand
// among the logic, since they pass while open; registers are sources. Nodes that feed each other form knots.

import { limbCount } from '../netlist/four-state';
import type { MemoryContents } from '../netlist/memory-contents';
import {
  type AsynchronousControl,
  contentsOf,
  type Latch,
  type Netlist,
  type NodeId,
  type Register,
} from '../netlist/netlist';
import { Op } from '../netlist/operators';

export interface SettledPlan {
  readonly netlist: Netlist;
  /** Node at each position; operands before readers, except inside a knot. */
  readonly nodes: Uint32Array;
  /** Position by node, -1 where the node is outside the cone. */
  readonly positionOf: Int32Array;
  readonly op: Uint8Array;
  readonly width: Uint32Array;
  readonly aux: Int32Array;
  /** First limb of each position's value. */
  readonly offset: Uint32Array;
  readonly limbs: number;
  /** Operand positions: pool[first[p]] … pool[first[p + 1] - 1]; of a latch: gate, data, then control and value pairs. */
  readonly first: Uint32Array;
  readonly pool: Uint32Array;
  /** Positions that read each position, by the same scheme. */
  readonly readerFirst: Uint32Array;
  readonly readers: Uint32Array;
  /** Which registers watch a position: register index × 4 + what it is to them. */
  readonly watchFirst: Uint32Array;
  readonly watches: Uint32Array;
  /** Index of the knot of a position, -1 where it is in none. A knot is a stretch of positions. */
  readonly knotOf: Int32Array;
  readonly knots: readonly { readonly from: number; readonly until: number }[];
  /** In ascending order of id. */
  readonly registers: readonly PlannedRegister[];
  /** Index in `registers` by register id, -1 where outside the cone. */
  readonly registerIndex: Int32Array;
  readonly latches: readonly Latch[];
  /** By position of whatever is the content of a memory. */
  readonly contents: Readonly<Record<number, MemoryContents>>;
}

export interface PlannedRegister {
  readonly register: Register;
  readonly position: number;
  readonly data: number;
  readonly clock: number;
  readonly clockBit: number;
  readonly asynchronous: readonly PlannedControl[];
}

export interface PlannedControl {
  readonly control: number;
  readonly bit: number;
  readonly activeLevel: 0 | 1;
  readonly value: number;
}

/** What a position is to a register that watches it. */
export const Watch = { data: 0, clock: 1, asynchronous: 2 } as const;

/** The cone of these nodes; of the whole netlist's registers and latches where `watched` is 'all'. */
export function planSettled(netlist: Netlist, watched: Iterable<NodeId> | 'all'): SettledPlan {
  const { order, knots, knotOf } = orderCone(netlist, watched === 'all' ? everyState(netlist) : [...watched]);
  const positionOf = new Int32Array(netlist.nodes.count).fill(-1);
  order.forEach((node, position) => {
    positionOf[node] = position;
  });
  const columns = columnsOf(netlist, order, positionOf);
  const registers = plannedRegisters(netlist, order, positionOf);
  const registerIndex = new Int32Array(netlist.registers.length).fill(-1);
  registers.forEach(({ register }, index) => {
    registerIndex[register.id] = index;
  });
  return {
    netlist,
    nodes: Uint32Array.from(order),
    positionOf,
    ...columns,
    ...readersOf(columns.first, columns.pool),
    ...watchesOf(order.length, registers),
    knotOf: Int32Array.from(knotOf),
    knots,
    registers,
    registerIndex,
    latches: ownersOf(netlist, order, Op.latch).map((id) => netlist.latches[id]),
    contents: contentsByPosition(netlist, order),
  };
}

function contentsByPosition(netlist: Netlist, order: readonly NodeId[]): Record<number, MemoryContents> {
  const found: Record<number, MemoryContents> = {};
  if (netlist.memories.every(({ contents }) => contents === null)) return found;
  order.forEach((node, position) => {
    const contents = contentsAt(netlist, node);
    if (contents !== null) found[position] = contents;
  });
  return found;
}

function contentsAt(netlist: Netlist, node: NodeId): MemoryContents | null {
  const { latches, memories, nodes, pieces, registers } = netlist;
  const aux = nodes.aux[node];
  switch (nodes.op[node]) {
    case Op.register:
      return contentsOf(netlist, registers[aux]);
    case Op.latch:
      return contentsOf(netlist, latches[aux]);
    case Op.net:
      return contentsOf(netlist, pieces[aux]);
    case Op.memoryWrite:
    case Op.memoryFill:
    case Op.memoryPick:
      return memories[aux].contents;
    case Op.mux:
      return aux > 0 ? memories[aux - 1].contents : null;
    default:
      return null;
  }
}

/** What a node is computed from within one instant, and of a register nothing. */
export function settledOperands(netlist: Netlist, node: NodeId): readonly NodeId[] {
  const { nodes } = netlist;
  if (nodes.op[node] === Op.latch) return latchOperands(netlist.latches[nodes.aux[node]]);
  const first = nodes.first[node];
  return Array.from(nodes.pool.subarray(first, first + nodes.arity[node])) as NodeId[];
}

function latchOperands(latch: Latch): NodeId[] {
  return [latch.gate.node, latch.data, ...latch.asynchronous.flatMap(({ control, value }) => [control.node, value])];
}

/** What a register hears between instants: its data, clock and asynchronous controls with their values. */
export function registerOperands(register: Register): NodeId[] {
  const asynchronous = register.asynchronous.flatMap(({ control, value }) => [control.node, value]);
  return [register.data, register.clock.node, ...asynchronous];
}

function everyState(netlist: Netlist): NodeId[] {
  return [...netlist.registers.map(({ node }) => node), ...netlist.latches.map(({ node }) => node)];
}

interface ConeOrder {
  readonly order: NodeId[];
  readonly knotOf: number[];
  readonly knots: { readonly from: number; readonly until: number }[];
}

/** Tarjan's strongly connected components, written without recursion: they come out operands first. */
function orderCone(netlist: Netlist, watched: readonly NodeId[]): ConeOrder {
  const result: ConeOrder = { order: [], knotOf: [], knots: [] };
  const index = new Int32Array(netlist.nodes.count).fill(-1);
  const low = new Int32Array(netlist.nodes.count);
  const onStack = new Uint8Array(netlist.nodes.count);
  const stack: NodeId[] = [];
  const frames: { readonly node: NodeId; readonly operands: readonly NodeId[]; next: number }[] = [];
  const pending = [...watched].reverse();
  let visited = 0;
  const enter = (node: NodeId): void => {
    index[node] = low[node] = visited++;
    onStack[node] = 1;
    stack.push(node);
    frames.push({ node, operands: settledOperands(netlist, node), next: 0 });
    if (netlist.nodes.op[node] === Op.register) {
      pending.push(...registerOperands(netlist.registers[netlist.nodes.aux[node]]));
    }
  };
  const step = (): void => {
    const frame = frames[frames.length - 1];
    if (frame.next < frame.operands.length) {
      const operand = frame.operands[frame.next++];
      if (index[operand] < 0) enter(operand);
      else if (onStack[operand] === 1) low[frame.node] = Math.min(low[frame.node], index[operand]);
      return;
    }
    frames.pop();
    const above = frames[frames.length - 1];
    if (above !== undefined) low[above.node] = Math.min(low[above.node], low[frame.node]);
    if (low[frame.node] === index[frame.node]) closeComponent(result, stack, onStack, frame.node, frame.operands);
  };
  for (let root = pending.pop(); root !== undefined; root = pending.pop()) {
    if (index[root] >= 0) continue;
    enter(root);
    while (frames.length > 0) step();
  }
  return result;
}

function closeComponent(
  { order, knotOf, knots }: ConeOrder,
  stack: NodeId[],
  onStack: Uint8Array,
  root: NodeId,
  operands: readonly NodeId[],
): void {
  const members = stack.splice(stack.lastIndexOf(root)).sort((left, right) => left - right);
  const isKnot = members.length > 1 || operands.includes(root);
  if (isKnot) knots.push({ from: order.length, until: order.length + members.length });
  for (const member of members) {
    onStack[member] = 0;
    order.push(member);
    knotOf.push(isKnot ? knots.length - 1 : -1);
  }
}

function columnsOf(netlist: Netlist, order: readonly NodeId[], positionOf: Int32Array) {
  const { nodes } = netlist;
  const count = order.length;
  const offset = new Uint32Array(count);
  const first = new Uint32Array(count + 1);
  const pool: number[] = [];
  let limbs = 0;
  order.forEach((node, position) => {
    offset[position] = limbs;
    limbs += limbCount(nodes.width[node]);
    for (const operand of settledOperands(netlist, node)) pool.push(positionOf[operand]);
    first[position + 1] = pool.length;
  });
  return {
    op: Uint8Array.from(order, (node) => nodes.op[node]),
    width: Uint32Array.from(order, (node) => nodes.width[node]),
    aux: Int32Array.from(order, (node) => nodes.aux[node]),
    offset,
    limbs,
    first,
    pool: Uint32Array.from(pool),
  };
}

function readersOf(first: Uint32Array, pool: Uint32Array) {
  const count = first.length - 1;
  const readers = new Uint32Array(pool.length);
  for (let position = 0; position < count; position++) readers.fill(position, first[position], first[position + 1]);
  const { starts, values } = grouped(count, pool, readers);
  return { readerFirst: starts, readers: values };
}

function watchesOf(count: number, registers: readonly PlannedRegister[]) {
  const positions: number[] = [];
  const watches: number[] = [];
  const add = (position: number, index: number, what: number): void => {
    positions.push(position);
    watches.push(index * 4 + what);
  };
  registers.forEach(({ data, clock, asynchronous }, index) => {
    add(data, index, Watch.data);
    add(clock, index, Watch.clock);
    for (const { control, value } of asynchronous) {
      add(control, index, Watch.asynchronous);
      add(value, index, Watch.asynchronous);
    }
  });
  const { starts, values } = grouped(count, positions, watches);
  return { watchFirst: starts, watches: values };
}

/** One list of values per key, in their order; each key stands where its value does. */
function grouped(count: number, keys: ArrayLike<number>, from: ArrayLike<number>) {
  const starts = new Uint32Array(count + 1);
  for (let index = 0; index < keys.length; index++) starts[keys[index] + 1] += 1;
  for (let key = 0; key < count; key++) starts[key + 1] += starts[key];
  const filled = starts.slice();
  const values = new Uint32Array(keys.length);
  for (let index = 0; index < keys.length; index++) values[filled[keys[index]]++] = from[index];
  return { starts, values };
}

/** Registers or latches whose nodes are in the cone, ascending: a cone is small beside a large design. */
function ownersOf({ nodes }: Netlist, order: readonly NodeId[], op: typeof Op.register | typeof Op.latch): number[] {
  return order
    .filter((node) => nodes.op[node] === op)
    .map((node) => nodes.aux[node])
    .sort((left, right) => left - right);
}

function plannedRegisters(netlist: Netlist, order: readonly NodeId[], positionOf: Int32Array): PlannedRegister[] {
  const inside = ownersOf(netlist, order, Op.register).map((id) => netlist.registers[id]);
  return inside.map((register) => ({
    register,
    position: positionOf[register.node],
    data: positionOf[register.data],
    clock: positionOf[register.clock.node],
    clockBit: register.clock.bit,
    asynchronous: register.asynchronous.map((use) => plannedControl(use, positionOf)),
  }));
}

function plannedControl(use: AsynchronousControl, positionOf: Int32Array): PlannedControl {
  return {
    control: positionOf[use.control.node],
    bit: use.control.bit,
    activeLevel: use.active === 'high' ? 1 : 0,
    value: positionOf[use.value],
  };
}
