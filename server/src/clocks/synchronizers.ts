// Chains of flip-flops with nothing between them: what brings a signal into a clock, and what lets a reset go in step.

import type { Bit, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { constantLevel, type Context, opOf, sameBit, sourceOf } from './context';
import { clearAt, dataSource } from './data-choices';
import { peel, type Peeled } from './peel';

/** Enough for every synchronizer in use; a longer row of flip-flops is a delay line. */
const longestChain = 8;

interface RegisterBit {
  readonly register: Register;
  readonly bit: number;
}

/** The register bit that a source bit is, else null. */
export function registerBitOf(context: Context, source: Bit): RegisterBit | null {
  if (opOf(context, source) !== Op.register) return null;
  const id = context.nodes.aux[source.node] as RegisterId;
  return { register: context.netlist.registers[id], bit: source.bit };
}

/** What a register bit samples, past a synchronous clear, buffers and inverters. */
export function sampledBit(context: Context, { register, bit }: RegisterBit): Peeled {
  const source = dataSource(context, register, bit);
  return peel(context, clearAt(context, source)?.otherwise ?? source);
}

/** Whether a bit is a port seen through two flip-flops of one clock or more, or a reset's release synchronized so. */
export function isSynchronizedPort(context: Context, source: Bit): boolean {
  const { flops, end } = chainBehind(context, source);
  if (flops.length < 2) return false;
  return opOf(context, end) === Op.input || isResetChain(context, flops, end);
}

/** At least two flip-flops that shift a constant in, cleared asynchronously by one and the same bit. */
export function isResetSynchronizer(context: Context, source: Bit): boolean {
  const { flops, end } = chainBehind(context, source);
  return flops.length >= 2 && isResetChain(context, flops, end);
}

function isResetChain(context: Context, flops: readonly RegisterBit[], end: Bit): boolean {
  if (constantLevel(context, end) === null) return false;
  const controls = flops.map(({ register }) => register.asynchronous.map(({ control }) => sourceOf(context, control)));
  const [first] = controls[0] ?? [];
  return first !== undefined && controls.every((own) => own.some((control) => sameBit(control, first)));
}

interface ChainBehind {
  /** Nearest first, all with one clock. */
  readonly flops: readonly RegisterBit[];
  /** What the farthest one samples. */
  readonly end: Bit;
}

/** The flip-flops of one clock through which a bit has come, nothing but inverters between. */
export function chainBehind(context: Context, source: Bit): ChainBehind {
  const flops: RegisterBit[] = [];
  let end = peel(context, source).bit;
  while (flops.length < longestChain) {
    const next = registerBitOf(context, end);
    if (next === null || (flops.length > 0 && !haveOneClock(context, flops[0].register, next.register))) break;
    flops.push(next);
    end = sampledBit(context, next).bit;
  }
  return { flops, end };
}

/** Either edge: a row that goes on with the other edge has half the time, and is a row. */
function haveOneClock(context: Context, left: Register, right: Register): boolean {
  return sameBit(sourceOf(context, left.clock), sourceOf(context, right.clock));
}
