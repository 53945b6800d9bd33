// Exact fractions in lowest terms, denominator above zero.

import { impossible } from '../text/impossible';
import type { Fraction } from './prediction';

export function fractionOf(numerator: bigint | number, denominator: bigint | number): Fraction {
  const above = BigInt(numerator);
  const below = BigInt(denominator);
  if (below === 0n) return impossible('a fraction over zero');
  const shared = greatestCommonDivisor(magnitude(above), magnitude(below));
  const sign = below < 0n ? -1n : 1n;
  return { numerator: (sign * above) / shared, denominator: (sign * below) / shared };
}

export function greatestCommonDivisor(left: bigint, right: bigint): bigint {
  let [larger, smaller] = [left, right];
  while (smaller !== 0n) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}

function magnitude(value: bigint): bigint {
  return value < 0n ? -value : value;
}
