// Whether a linear map over GF(2) runs through every state but one before it repeats: its order is then 2^width - 1.
// No matrix of blocks reaches that order, so a map that does has a primitive characteristic polynomial.

import { apply, type AffineMap } from './sequence-linear';

/** Widest map asked: the order must be a number below 2^53. */
const widestMap = 53;

/** The only state that an affine map of maximal order leaves where it is; null where the map is not of that order. */
export function fixedStateOfMaximal(map: AffineMap, width: number): bigint | null {
  if (width < 2 || width > widestMap || !hasMaximalOrder(map.columns)) return null;
  return fixedState(map, width);
}

function hasMaximalOrder(columns: readonly bigint[]): boolean {
  const order = 2 ** columns.length - 1;
  if (!isIdentity(power(columns, order))) return false;
  return primeFactors(order).every((prime) => !isIdentity(power(columns, order / prime)));
}

/** Distinct, by trial division. `value` is below 2^53; its second largest factor is what costs. */
export function primeFactors(value: number): number[] {
  const found: number[] = [];
  let rest = value;
  for (let divisor = 2; divisor * divisor <= rest; divisor += divisor === 2 ? 1 : 2) {
    if (rest % divisor !== 0) continue;
    found.push(divisor);
    while (rest % divisor === 0) rest /= divisor;
  }
  return rest > 1 ? [...found, rest] : found;
}

function power(columns: readonly bigint[], exponent: number): bigint[] {
  let result = columns.map((_, bit) => 1n << BigInt(bit));
  let square = [...columns];
  for (let rest = exponent; rest > 0; rest = Math.floor(rest / 2)) {
    if (rest % 2 === 1) result = product(square, result);
    square = product(square, square);
  }
  return result;
}

/** The map that does `right` first. */
function product(left: readonly bigint[], right: readonly bigint[]): bigint[] {
  return right.map((column) => apply({ columns: left, constant: 0n }, column));
}

function isIdentity(columns: readonly bigint[]): boolean {
  return columns.every((column, bit) => column === 1n << BigInt(bit));
}

/** Solves x = M x + c: elimination on the columns of M + 1, each with the x that makes it. */
function fixedState({ columns, constant }: AffineMap, width: number): bigint | null {
  const basis: { image: bigint; source: bigint }[] = [];
  for (let bit = 0; bit < width; bit++) {
    const one = 1n << BigInt(bit);
    const reduced = reduce(basis, { image: columns[bit] ^ one, source: one });
    if (reduced.image === 0n) return null;
    basis.push(reduced);
    basis.sort((left, right) => (left.image > right.image ? -1 : 1));
  }
  const solved = reduce(basis, { image: constant, source: 0n });
  return solved.image === 0n ? solved.source : null;
}

function reduce(
  basis: readonly { readonly image: bigint; readonly source: bigint }[],
  start: { readonly image: bigint; readonly source: bigint },
) {
  let { image, source } = start;
  for (const row of basis) {
    if ((image ^ row.image) >= image) continue;
    image ^= row.image;
    source ^= row.source;
  }
  return { image, source };
}
