// The registers whose bits cross together, with the counters that they are made from, as a machine that can be followed:
// what must be computed, in order, and what is free. Single-bit conditions that hear anything else are free.

import { type Bit, memoryHeldIn, type NodeId, type Register } from '../netlist/netlist';
import { isMemoryOperator, isSource, isWiring, Op } from '../netlist/operators';
import type { Context } from './context';
import type { RegisterClocking } from './network';

export interface Machine {
  readonly registers: readonly Register[];
  /** Every node between, operands first. */
  readonly order: readonly NodeId[];
  /** Bits that may have any level before each edge. */
  readonly free: readonly Bit[];
  /** Bits that keep one level: inactive resets. */
  readonly pinned: readonly (Bit & { readonly level: '0' | '1' })[];
  readonly watched: readonly Bit[];
}

const mostStateBits = 40;
const mostFreeBits = 8;

/** Null where the bits do not come from registers of one clock, or too many. */
export function machineOf(
  context: Context,
  clocking: readonly RegisterClocking[],
  bits: readonly Bit[],
): Machine | null {
  const { nodes, netlist } = context;
  if (bits.some(({ node }) => nodes.op[node] !== Op.register)) return null;
  const senders = [...new Set(bits.map(({ node }) => node))].map((node) => netlist.registers[nodes.aux[node]]);
  const isOfClock = ({ id }: Register) =>
    clocking[id].clock === clocking[senders[0].id].clock && clocking[id].edge === clocking[senders[0].id].edge;
  if (!senders.every(isOfClock) || senders.some((sender) => memoryHeldIn(netlist, sender) !== null)) return null;
  const registers = withCounters(context, senders, isOfClock);
  const { order, free, pinned } = conesOf(context, clocking, registers);
  const stateBits = registers.reduce((sum, { width }) => sum + width, 0);
  if (stateBits > mostStateBits || free.length > mostFreeBits) return null;
  return { registers, order, free, pinned, watched: bits };
}

/** The senders, and the vectors of their clock that their next values are made from. */
function withCounters(
  context: Context,
  senders: readonly Register[],
  isOfClock: (register: Register) => boolean,
): readonly Register[] {
  const { nodes, netlist } = context;
  const found = new Map(senders.map((register) => [register.id, register]));
  const seen = new Set<NodeId>();
  const waiting = senders.map(({ data }) => data);
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    if (nodes.op[node] === Op.register) {
      const register = netlist.registers[nodes.aux[node]];
      if (found.has(register.id) || register.width === 1 || !isOfClock(register)) continue;
      found.set(register.id, register);
      waiting.push(register.data);
    } else if (!isCondition(context, node) && !isMemoryOperator(nodes.op[node]))
      waiting.push(...operandsOf(context, node));
  }
  return [...found.values()];
}

/** A single-bit decision, not a way of moving bits. */
function isCondition({ nodes }: Context, node: NodeId): boolean {
  const op = nodes.op[node];
  return nodes.width[node] === 1 && !isWiring(op) && !isSource(op) && op !== Op.mux && op !== Op.select;
}

function operandsOf({ nodes }: Context, node: NodeId): NodeId[] {
  const first = nodes.first[node];
  return Array.from(nodes.pool.subarray(first, first + nodes.arity[node])) as NodeId[];
}

/** Whether a node is made of these registers and constants alone. */
function hearsOnly(context: Context, start: NodeId, registers: ReadonlySet<NodeId>): boolean {
  const { nodes } = context;
  const seen = new Set<NodeId>();
  const waiting = [start];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    if (isSource(nodes.op[node]) && nodes.op[node] !== Op.constant && !registers.has(node)) return false;
    waiting.push(...operandsOf(context, node));
  }
  return true;
}

function conesOf(
  context: Context,
  clocking: readonly RegisterClocking[],
  registers: readonly Register[],
): Pick<Machine, 'order' | 'free' | 'pinned'> {
  const { nodes } = context;
  const state = new Set(registers.map(({ node }) => node));
  const resets = registers.flatMap(({ id }) => clocking[id].synchronous);
  const free: Bit[] = [];
  const pinned: (Bit & { level: '0' | '1' })[] = [];
  const order: NodeId[] = [];
  const entered = new Set<NodeId>();
  const enter = (node: NodeId): boolean => {
    const isFree =
      (isSource(nodes.op[node]) && nodes.op[node] !== Op.constant) ||
      isMemoryOperator(nodes.op[node]) ||
      (isCondition(context, node) && !hearsOnly(context, node, state));
    if (!isFree) return true;
    for (let bit = 0; bit < nodes.width[node]; bit++) {
      const reset = resets.find((use) => use.bit.node === node && use.bit.bit === bit);
      if (reset === undefined) free.push({ node, bit });
      else pinned.push({ node, bit, level: reset.active === 'high' ? '0' : '1' });
    }
    return false;
  };
  const waiting: { readonly node: NodeId; readonly isLeft: boolean }[] = registers.map(({ data }) => ({
    node: data,
    isLeft: false,
  }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node, isLeft } = next;
    if (isLeft) order.push(node);
    if (isLeft || entered.has(node) || state.has(node)) continue;
    entered.add(node);
    if (!enter(node)) continue;
    waiting.push({ node, isLeft: true });
    for (const operand of operandsOf(context, node)) waiting.push({ node: operand, isLeft: false });
  }
  return { order, free, pinned };
}
