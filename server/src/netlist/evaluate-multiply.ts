// Multiplication, division, remainder and power, IEEE 1364-2005 5.1.5. Up to 32 bits in plain numbers, wider by big
// integers. Any unknown bit, or a divisor of zero, makes every result bit x.

import { allX, type Bits, fromBigInt, fromPlanes, hasUnknown, toBigInt, toSignedBigInt, zero } from './four-state';

export type Sign = 'signed' | 'unsigned';

export function multiply(left: Bits, right: Bits): Bits {
  if (hasUnknown(left) || hasUnknown(right)) return allX(left.width);
  if (left.width <= 32) return fromPlanes(left.width, Math.imul(left.a[0], right.a[0]), 0);
  return fromBigInt(left.width, integerOf('unsigned', left) * integerOf('unsigned', right));
}

/** The quotient, its fraction cut off towards zero. */
export function divide(sign: Sign, left: Bits, right: Bits): Bits {
  if (hasUnknown(left) || hasUnknown(right) || isZero(right)) return allX(left.width);
  if (left.width <= 32) return fromPlanes(left.width, numberOf(sign, left) / numberOf(sign, right), 0);
  return fromBigInt(left.width, integerOf(sign, left) / integerOf(sign, right));
}

/** The remainder; it has the sign of the first operand. */
export function modulo(sign: Sign, left: Bits, right: Bits): Bits {
  if (hasUnknown(left) || hasUnknown(right) || isZero(right)) return allX(left.width);
  if (left.width <= 32) return fromPlanes(left.width, numberOf(sign, left) % numberOf(sign, right), 0);
  return fromBigInt(left.width, integerOf(sign, left) % integerOf(sign, right));
}

/** Base to the exponent, modulo 2^width; negative exponents by Table 5-6. */
export function power(baseSign: Sign, exponentSign: Sign, base: Bits, exponent: Bits): Bits {
  if (hasUnknown(base) || hasUnknown(exponent)) return allX(base.width);
  const baseValue = integerOf(baseSign, base);
  const exponentValue = integerOf(exponentSign, exponent);
  if (exponentValue < 0n) return negativePower(base.width, baseValue, exponentValue);
  return fromBigInt(base.width, powerModulo(BigInt.asUintN(base.width, baseValue), exponentValue, base.width));
}

/** Table 5-6, the column of negative exponents: 0 to a negative power is x, ±1 stay units, all else is less than 1. */
function negativePower(width: number, base: bigint, exponent: bigint): Bits {
  if (base === 0n) return allX(width);
  if (base === 1n) return fromBigInt(width, 1n);
  if (base === -1n) return fromBigInt(width, exponent % 2n === 0n ? 1n : -1n);
  return zero(width);
}

/** Square and multiply, cut to `width` bits at each step; an even base runs out of bits and ends early. */
function powerModulo(base: bigint, exponent: bigint, width: number): bigint {
  let result = BigInt.asUintN(width, 1n);
  let square = base;
  for (let rest = exponent; rest > 0n && result !== 0n; rest >>= 1n) {
    if ((rest & 1n) === 1n) result = BigInt.asUintN(width, result * square);
    square = BigInt.asUintN(width, square * square);
  }
  return result;
}

function integerOf(sign: Sign, value: Bits): bigint {
  return (sign === 'signed' ? toSignedBigInt(value) : toBigInt(value)) as bigint;
}

/** Of at most 32 bits. */
function numberOf(sign: Sign, value: Bits): number {
  const unused = 32 - value.width;
  return sign === 'signed' ? (value.a[0] << unused) >> unused : value.a[0];
}

function isZero(value: Bits): boolean {
  return value.a.every((limb) => limb === 0);
}
