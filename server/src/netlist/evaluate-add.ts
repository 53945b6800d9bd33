// Addition and its relatives on limbs: the result keeps the operands' width, carries beyond it are lost (IEEE
// 1364-2005 5.4). Any unknown bit makes every result bit x (5.1.5).

import { allX, type Bits, fromLimbs, fromPlanes, hasUnknown, zeroPlane } from './four-state';

export function add(left: Bits, right: Bits): Bits {
  if (left.width <= 32) {
    if ((left.b[0] | right.b[0]) !== 0) return allX(left.width);
    return fromPlanes(left.width, left.a[0] + right.a[0], 0);
  }
  if (hasUnknown(left) || hasUnknown(right)) return allX(left.width);
  return addLimbs(left, right.a, 0, 0);
}

export function subtract(left: Bits, right: Bits): Bits {
  if (left.width <= 32) {
    if ((left.b[0] | right.b[0]) !== 0) return allX(left.width);
    return fromPlanes(left.width, left.a[0] - right.a[0], 0);
  }
  if (hasUnknown(left) || hasUnknown(right)) return allX(left.width);
  return addLimbs(left, right.a, -1, 1);
}

export function negate(value: Bits): Bits {
  if (value.width <= 32) return value.b[0] !== 0 ? allX(value.width) : fromPlanes(value.width, -value.a[0], 0);
  if (hasUnknown(value)) return allX(value.width);
  const zeros = zeroPlane(value.a.length);
  return addLimbs({ width: value.width, a: zeros, b: zeros }, value.a, -1, 1);
}

/** left + (right XOR invert) + carry, invert being 0 or all ones: two's complement subtraction with carry 1. */
function addLimbs(left: Bits, right: Uint32Array, invert: number, carry: number): Bits {
  const sum = new Uint32Array(left.a.length);
  let carried = carry;
  for (let limb = 0; limb < sum.length; limb++) {
    const total = left.a[limb] + ((right[limb] ^ invert) >>> 0) + carried;
    sum[limb] = total;
    carried = total > 0xffffffff ? 1 : 0;
  }
  return fromLimbs(left.width, sum, zeroPlane(sum.length));
}
