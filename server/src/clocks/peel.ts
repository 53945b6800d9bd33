// A bit without the buffers and inverters in front of it: which bit it really is, and whether it is turned over.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { type Context, opOf, sourceOf } from './context';
import { isArithmetic, stepOf } from './gate-shape';

export interface Peeled {
  readonly bit: Bit;
  readonly inverted: boolean;
}

/** Back through wiring, buffers, delays and inverters. A ring of inverters gives one of its own bits. */
export function peel(context: Context, bit: Bit): Peeled {
  const trail = peelTrail(context, bit);
  return trail[trail.length - 1];
}

/** Every bit on the way that `peel` goes, the given one's source first. */
export function peelTrail(context: Context, bit: Bit): Peeled[] {
  let current: Peeled = { bit: sourceOf(context, bit), inverted: false };
  const trail = [current];
  // Asking further would list every operand, once for each bit of a wide result.
  if (isArithmetic(opOf(context, current.bit))) return trail;
  let step = stepOf(context, current.bit);
  if (step.kind !== 'pass') return trail;
  const seen = new Set([bitKey(current.bit)]);
  while (step.kind === 'pass' && !seen.has(bitKey(step.operand))) {
    current = { bit: step.operand, inverted: current.inverted !== step.inverted };
    seen.add(bitKey(current.bit));
    trail.push(current);
    step = stepOf(context, current.bit);
  }
  return trail;
}

/** The bit that a person would name: the first on the way back that has a name, else what it is made of. */
export function peelToName(context: Context, bit: Bit): Peeled {
  const trail = peelTrail(context, bit);
  return trail.find((peeled) => context.names.nameOf(peeled.bit) !== null) ?? trail[trail.length - 1];
}
