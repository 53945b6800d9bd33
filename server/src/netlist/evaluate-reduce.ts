// Reductions to one bit, IEEE 1364-2005 5.1.11: the bitwise tables applied across one value. z acts as x.

import { type Bits, type Digit, digitBits, hasUnknown, topMask } from './four-state';

/** 0 if some bit is 0, 1 if all are 1, else x. */
export function reduceAnd(value: Bits): Bits {
  const top = value.a.length - 1;
  let unknown = false;
  for (let limb = 0; limb <= top; limb++) {
    const mask = limb === top ? topMask(value.width) : -1;
    if ((~(value.a[limb] | value.b[limb]) & mask) !== 0) return digitBits('0');
    if (value.b[limb] !== 0) unknown = true;
  }
  return digitBits(unknown ? 'x' : '1');
}

/** 1 if some bit is 1, 0 if all are 0, else x. */
export function reduceOr(value: Bits): Bits {
  let digit: Digit = '0';
  for (let limb = 0; limb < value.a.length; limb++) {
    if ((value.a[limb] & ~value.b[limb]) !== 0) return digitBits('1');
    if (value.b[limb] !== 0) digit = 'x';
  }
  return digitBits(digit);
}

/** The parity; x if any bit is unknown. */
export function reduceXor(value: Bits): Bits {
  if (hasUnknown(value)) return digitBits('x');
  let folded = 0;
  for (let limb = 0; limb < value.a.length; limb++) folded ^= value.a[limb];
  for (let shift = 16; shift > 0; shift >>>= 1) folded ^= folded >>> shift;
  return digitBits((folded & 1) === 1 ? '1' : '0');
}
