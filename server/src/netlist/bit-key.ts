// One number for one bit, for maps and sets of bits. Exact while nodes stay below 2^29 and widths within 2^24, far
// above the limits that `budget.ts` allows to be set in practice.

import type { Bit } from './netlist';

export function bitKey({ node, bit }: Bit): number {
  return node * 2 ** 24 + bit;
}
