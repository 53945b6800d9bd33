// Shifts by a variable amount, IEEE 1364-2005 5.1.12. The amount is unsigned, of any width; unknown gives all x. The
// digits that stay are moved as they are, x and z included.

import { allX, type Bits, hasUnknown, zero } from './four-state';
import { concat, resize, slice } from './four-state-parts';

export function shiftLeft(value: Bits, amount: Bits): Bits {
  if (hasUnknown(amount)) return allX(value.width);
  const by = amountOf(amount, value.width);
  if (by === 0) return value;
  if (by === value.width) return zero(value.width);
  return concat([slice(value, 0, value.width - by), zero(by)]);
}

/** Vacant bits become 0, or copies of the most significant digit. */
export function shiftRight(value: Bits, amount: Bits, fill: 'zero' | 'sign'): Bits {
  if (hasUnknown(amount)) return allX(value.width);
  const by = amountOf(amount, value.width);
  if (by === 0) return value;
  if (by < value.width) return resize(slice(value, by, value.width - by), value.width, fill);
  return fill === 'zero' ? zero(value.width) : resize(slice(value, value.width - 1, 1), value.width, fill);
}

/** A known amount, no more than `most`. */
function amountOf(amount: Bits, most: number): number {
  for (let limb = 1; limb < amount.a.length; limb++) if (amount.a[limb] !== 0) return most;
  return amount.width === 0 ? 0 : Math.min(amount.a[0], most);
}
