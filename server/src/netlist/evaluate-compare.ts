// Comparisons, IEEE 1364-2005 5.1.7 and 5.1.8. Operands of one width; the result is one bit.

import { type Bits, digitBits, hasUnknown } from './four-state';

/**
 * 0 as soon as one bit differs for certain (5.1.8 asks for x only where the relation is ambiguous), else x if any bit
 * is unknown, else 1.
 */
export function equal(left: Bits, right: Bits): Bits {
  let unknown = 0;
  for (let limb = 0; limb < left.a.length; limb++) {
    const either = left.b[limb] | right.b[limb];
    if (((left.a[limb] ^ right.a[limb]) & ~either) !== 0) return digitBits('0');
    unknown |= either;
  }
  return digitBits(unknown === 0 ? '1' : 'x');
}

/** left < right; x if any bit of either is unknown (5.1.7). */
export function lessUnsigned(left: Bits, right: Bits): Bits {
  if (hasUnknown(left) || hasUnknown(right)) return digitBits('x');
  return digitBits(isLess(left, right) ? '1' : '0');
}

/** As `lessUnsigned`, both read as two's complement. */
export function lessSigned(left: Bits, right: Bits): Bits {
  if (hasUnknown(left) || hasUnknown(right)) return digitBits('x');
  const leftNegative = isNegative(left);
  if (leftNegative !== isNegative(right)) return digitBits(leftNegative ? '1' : '0');
  return digitBits(isLess(left, right) ? '1' : '0');
}

function isLess(left: Bits, right: Bits): boolean {
  for (let limb = left.a.length - 1; limb >= 0; limb--) {
    if (left.a[limb] !== right.a[limb]) return left.a[limb] < right.a[limb];
  }
  return false;
}

function isNegative(value: Bits): boolean {
  const sign = value.width - 1;
  return ((value.a[sign >>> 5] >>> (sign & 31)) & 1) === 1;
}
