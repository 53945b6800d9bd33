// What a crossing's flip-flops in a row are worth, and how its senders are called. Decided on its shape alone.

import { signalSliceName } from '../netlist/bit-names';
import type { Bit, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Context } from './context';
import { isStatedStatic } from './launches';
import type { OneAtATime } from './gray-code';
import type { Crossing, SynchronizerKind, Why } from './network';

export interface CrossingShape {
  /** Sending bits, ascending. */
  readonly bits: readonly Bit[];
  /** How many they are in the design: the bits of a memory's content stand for a word of it. */
  readonly count: number;
  readonly throughLogic: boolean;
  readonly depth: number;
  /** The bit tells the other side of a sound switch that its clock is off. */
  readonly isGuard: boolean;
}

/** One flip-flop behind logic is an ordinary register, not an attempt at a synchronizer. */
export function synchronizerKind({ throughLogic, depth }: CrossingShape): SynchronizerKind {
  if (depth >= 3) return 'three-flop';
  if (depth === 2) return 'two-flop';
  return throughLogic ? 'none' : 'one-flop';
}

/** Two flip-flops protect a single bit. Several bits each behind their own may still arrive in different periods. */
export function statusOf(
  context: Context,
  { bits, count, throughLogic, depth, isGuard }: CrossingShape,
): Pick<Crossing, 'status' | 'evidence'> {
  if (bits.every((bit) => isStatedStatic(context, bit))) {
    return { status: 'accepted', evidence: [{ reason: 'sources-stated-static', args: {} }] };
  }
  const evidence: Why[] = [];
  if (depth >= 2) evidence.push({ reason: 'flops-in-a-row', args: { depth } });
  if (throughLogic) evidence.push({ reason: 'logic-before-first-flop', args: {} });
  if (depth < 2) evidence.push({ reason: 'read-after-one-flop', args: {} });
  if (bits.length > 1) evidence.push({ reason: 'several-bits', args: { bits: count } });
  if (isGuard) evidence.push({ reason: 'enables-cross-guarded', args: {} });
  const isProtected = depth >= 2 && bits.length === 1 && (!throughLogic || isGuard);
  return { status: isProtected ? 'protected' : 'bare', evidence };
}

/** Bits of which only one changes at a time: each row of flip-flops gives the old code or the new one. */
export function grayCode(
  code: Exclude<OneAtATime, 'no'>,
  depth: number,
): Pick<Crossing, 'synchronizer' | 'status' | 'evidence'> {
  const isProven = code === 'proven';
  const evidence: Why[] = [
    { reason: isProven ? 'one-bit-at-a-time' : 'one-bit-at-a-time-so-far', args: {} },
    { reason: 'flops-in-a-row', args: { depth } },
  ];
  return { synchronizer: 'gray', status: isProven ? 'protected' : 'assumed', evidence };
}

/** One entry per sending register or latch, named by the stretch of it that is heard. `bits` ascending. */
export function sendersOf(context: Context, bits: readonly Bit[]): Crossing['from'] {
  const { netlist, nodes } = context;
  const nodesInOrder = [...new Set(bits.map(({ node }) => node))];
  return nodesInOrder.map((node) => {
    const isRegister = nodes.op[node] === Op.register;
    const held = isRegister ? netlist.registers[nodes.aux[node]] : netlist.latches[nodes.aux[node]];
    const heard = bits.filter((bit) => bit.node === node).map(({ bit }) => bit);
    const [low, high] = [heard[0], heard[heard.length - 1]];
    const name = signalSliceName(netlist.signals[held.signal], held.low + low, high - low + 1);
    return { register: isRegister ? (held.id as RegisterId) : null, name };
  });
}
