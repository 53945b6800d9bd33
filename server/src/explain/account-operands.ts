// What a sampled or computed value was made from: the named bits behind it, each with the digit it had when it was read.
// Goes back through logic to the nearest named bits; stops at a number that a sentence can hold.

import type { BitNames } from '../netlist/bit-names';
import type { Digit } from '../netlist/four-state';
import { type Bit, contentHolders, type Netlist } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';
import type { Waves } from '../predict/waves';
import { digitAfter, digitSampled } from './wave-reading';

export interface Operand {
  readonly signal: string;
  readonly value: Digit;
}

interface Context {
  readonly netlist: Netlist;
  readonly names: BitNames;
  readonly waves: Waves;
}

const most = 8;
/** Bits looked at on the way: an adder of many bits is not read out. */
const mostVisited = 512;

/** What a register sampled at `at`, ps: the operands of `bit` from before that instant. Nearest first, at most eight. */
export function sampledOperands(context: Context, bit: Bit, at: number): readonly Operand[] {
  return operandsOf(context, bit, (operand) => digitSampled(context.waves, operand, at));
}

/** What logic was computed from at `at`, ps: the operands of `bit` once that instant is over. */
export function logicOperands(context: Context, bit: Bit, at: number): readonly Operand[] {
  return operandsOf(context, bit, (operand) => digitAfter(context.waves, operand, at));
}

function operandsOf({ names, netlist }: Context, bit: Bit, digitOf: (operand: Bit) => Digit): readonly Operand[] {
  const found = new Map<string, Digit>();
  const seen = new Set<string>();
  const contents = contentHolders(netlist);
  const pending: Bit[] = firstBits(netlist, bit);
  for (let next = pending.shift(); next !== undefined && seen.size < mostVisited; next = pending.shift()) {
    const key = `${next.node}.${next.bit}`;
    if (seen.has(key) || netlist.nodes.op[next.node] === Op.constant || contents.has(next.node)) continue;
    seen.add(key);
    const name = names.nameOf(next);
    if (name !== null) found.set(name, digitOf(next));
    else if (!isSource(netlist.nodes.op[next.node])) pending.push(...sources(netlist, next));
    if (found.size === most) break;
  }
  return [...found].map(([signal, value]) => ({ signal, value }));
}

/** The bit itself where it is stored or named already by another; for logic, what it is computed from. */
function firstBits(netlist: Netlist, bit: Bit): Bit[] {
  const source = sourceBit(netlist.nodes, bit);
  const isLogic = source.node === bit.node && !isSource(netlist.nodes.op[source.node]);
  return isLogic ? sources(netlist, source) : [source];
}

function sources({ nodes }: Netlist, bit: Bit): Bit[] {
  return operandsOfBit(nodes, bit).map((operand) => sourceBit(nodes, operand));
}
