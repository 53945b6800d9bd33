// The bits that a bit is computed from within one instant. Exact through gates and choices; wide arithmetic, whose
// every bit hears hundreds of others, is taken as a whole so that the work stays in proportion to the netlist.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { operandsOfBit } from '../netlist/trace';
import { type Context, opOf, sourceOf } from './context';

const widestCarry = 64;

/** The source bits of one step back; none for a source. */
export function coneOperands(context: Context, source: Bit): Bit[] {
  if (isSource(opOf(context, source))) return [];
  return operandsOfBit(context.nodes, source).map((operand) => shared(context, sourceOf(context, operand)));
}

/** Where a cone begins: the bit's source, or what stands for it. */
export function coneStart(context: Context, bit: Bit): Bit {
  return shared(context, sourceOf(context, bit));
}

/** Bits of an operator whose every bit hears all operand bits stand for each other. */
function shared(context: Context, source: Bit): Bit {
  const op = opOf(context, source);
  const width = context.nodes.width[source.node];
  if (op <= Op.lessEqualSigned || op === Op.mux || op === Op.select) return source;
  const carries = op === Op.add || op === Op.subtract || op === Op.negate;
  if (carries && width <= widestCarry) return source;
  return { node: source.node, bit: width - 1 };
}

/** The sources (registers, latches, ports, constants …) that bits are computed from, in order of node, then bit. */
export function coneSources(context: Context, starts: readonly Bit[]): Bit[] {
  const seen = new Set<number>();
  const sources: Bit[] = [];
  const waiting = starts.map((start) => coneStart(context, start));
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    const key = bitKey(bit);
    if (seen.has(key)) continue;
    seen.add(key);
    if (isSource(opOf(context, bit))) sources.push(bit);
    else for (const operand of coneOperands(context, bit)) waiting.push(operand);
  }
  return sources.sort((left, right) => left.node - right.node || left.bit - right.bit);
}
