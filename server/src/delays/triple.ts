// Arithmetic on delay triples min:typ:max (IEEE 1497's form), in ps. The triples are taken as independent: the corners
// of a sum are the sums of the corners. Rounding is not done here: every delay is a whole number already.

import type { DelayTriple } from '../netlist/netlist';
import type { DirectionalDelay } from './delay-set';

/** Which of the three values a run takes. */
export type Corner = 'min' | 'typ' | 'max';

export const zeroTriple: DelayTriple = { min: 0, typ: 0, max: 0 };
export const zeroDelay: DirectionalDelay = { rise: zeroTriple, fall: zeroTriple };

/** One value stands for all three (IEEE 1497). */
export function tripleOf(ps: number): DelayTriple {
  return { min: ps, typ: ps, max: ps };
}

export function addTriples(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: left.min + right.min, typ: left.typ + right.typ, max: left.max + right.max };
}

/** left − right for independent delays: least is left.min − right.max. */
export function subtractTriples(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: left.min - right.max, typ: left.typ - right.typ, max: left.max - right.min };
}

/** `times` delays of different instances in a row. */
export function scaleTriple(triple: DelayTriple, times: number): DelayTriple {
  return { min: triple.min * times, typ: triple.typ * times, max: triple.max * times };
}

/** The later of two, corner by corner. */
export function latestTriple(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: Math.max(left.min, right.min), typ: Math.max(left.typ, right.typ), max: Math.max(left.max, right.max) };
}

/** Everything from the earliest of either to the latest of either; typ is the later one. */
export function spanningTriple(left: DelayTriple, right: DelayTriple): DelayTriple {
  return { min: Math.min(left.min, right.min), typ: Math.max(left.typ, right.typ), max: Math.max(left.max, right.max) };
}

export function equalTriples(left: DelayTriple, right: DelayTriple): boolean {
  return left.min === right.min && left.typ === right.typ && left.max === right.max;
}

/** Whether min and max differ: the `spread` of a report. */
export function hasSpread(triple: DelayTriple): boolean {
  return triple.min !== triple.max;
}
