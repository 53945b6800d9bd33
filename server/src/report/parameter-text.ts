// The value of a parameter as it is printed.

import { type Bits, toBigInt, toBinary, toSignedBigInt } from '../netlist/four-state';

/** Decimal where every bit is known, else binary digits. */
export function parameterText(value: Bits, signed: boolean): string {
  const known = signed ? toSignedBigInt(value) : toBigInt(value);
  return known === null ? toBinary(value) : String(known);
}
