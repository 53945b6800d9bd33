// A constant of the text: bits with their signedness, or a real number (IEEE 1364-2005 3.5 and 4.8).

import { type Bits, bitsOf, fromBigInt, toSignedBigInt, toBigInt } from '../netlist/four-state';
import { resize } from '../netlist/four-state-parts';

export type ConstantValue =
  | { readonly kind: 'bits'; readonly bits: Bits; readonly signed: boolean }
  | { readonly kind: 'real'; readonly value: number };

/** The number a constant stands for; null where a bit is x or z. */
export function numberOf(value: ConstantValue): number | null {
  if (value.kind === 'real') return value.value;
  const number = value.signed ? toSignedBigInt(value.bits) : toBigInt(value.bits);
  return number === null ? null : Number(number);
}

/** As a whole number that fits exactly; null where it is unknown, real with a fraction, or beyond 2^53 - 1. */
export function integerOf(value: ConstantValue): number | null {
  const number = numberOf(value);
  return number === null || !Number.isSafeInteger(number) ? null : number;
}

/** As bits of a width: a real is rounded, ties away from zero (IEEE 1364-2005 4.8.2). */
export function toBits(value: ConstantValue, width: number): Bits {
  if (value.kind === 'bits') return resize(value.bits, width, value.signed ? 'sign' : 'zero');
  if (!Number.isFinite(value.value)) return bitsOf('x'.repeat(width));
  return fromBigInt(width, BigInt(roundAwayFromZero(value.value)));
}

export function roundAwayFromZero(value: number): number {
  return value < 0 ? -Math.floor(0.5 - value) : Math.floor(value + 0.5);
}

/** A whole number as the standard's `integer`: 32 bits, signed. */
export function integerValue(value: number): ConstantValue {
  return { kind: 'bits', bits: fromBigInt(32, BigInt(value)), signed: true };
}
