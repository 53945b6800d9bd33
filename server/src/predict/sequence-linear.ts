// Whether a cycle of values is a linear feedback shift register at work: every step is one affine map over GF(2), the
// values determine that map, and the map is a shift by one place with feedback taken in at its end (Fibonacci form) or
// spread from the bit that leaves (Galois form).

/** The map value → next: column i of `matrix` is what bit i adds to the next value; `constant` is added always. */
export interface AffineMap {
  readonly columns: readonly bigint[];
  readonly constant: bigint;
}

/**
 * Exponents of its feedback polynomial where the cycle is one of a linear feedback shift register, proven over the whole
 * of it; null where it is none. A cycle too short to determine the map proves nothing.
 */
export function* linearShiftOf(values: readonly bigint[], width: number): Generator<void, readonly number[] | null> {
  if (width < 2 || values.length < width + 2) return null;
  const map = yield* affineMapOf(values, width);
  return map === null ? null : feedbackOf(map, width);
}

/** The only affine map that takes each value to the next one, the last to the first; null where none or several do. */
export function* affineMapOf(values: readonly bigint[], width: number): Generator<void, AffineMap | null> {
  const base = values[0];
  const image = values[1];
  const rows: { difference: bigint; image: bigint }[] = [];
  for (let index = 1; index < values.length && rows.length < width; index++) {
    const next = values[(index + 1) % values.length];
    insertRow(rows, { difference: values[index] ^ base, image: next ^ image });
  }
  if (rows.length < width) return null;
  const columns = Array.from({ length: width }, (_, bit) => imageOf(rows, 1n << BigInt(bit)));
  const map = { columns, constant: image ^ applyLinear(columns, base) };
  for (let index = 0; index < values.length; index++) {
    if (apply(map, values[index]) !== values[(index + 1) % values.length]) return null;
    if (index % 1024 === 1023) yield;
  }
  return map;
}

export function apply({ columns, constant }: AffineMap, value: bigint): bigint {
  return applyLinear(columns, value) ^ constant;
}

/**
 * Exponents of the feedback polynomial, largest first, the 1 (0) last: the bits s that leave the register one after the
 * other are the sum of those as many steps before as the other exponents say (all but the 0), inverted where the map has
 * a constant. Null where the map is no shift with feedback from at least two bits.
 */
export function feedbackOf(map: AffineMap, width: number): readonly number[] | null {
  const left = feedbackOfLeft(map.columns, map.constant, width);
  if (left !== null) return left;
  const mirrored = map.columns.map((column) => mirror(column, width)).reverse();
  return feedbackOfLeft(mirrored, mirror(map.constant, width), width);
}

/** Bit i goes to bit i + 1; and either bit 0 hears several bits, or several bits hear the bit that leaves. */
function feedbackOfLeft(columns: readonly bigint[], constant: bigint, width: number): readonly number[] | null {
  const moved = columns.map((column, bit) => column ^ (bit === width - 1 ? 0n : 1n << BigInt(bit + 1)));
  const leaving = moved[width - 1];
  if (moved.every((rest) => rest === 0n || rest === 1n) && constant <= 1n) {
    const taps = moved.flatMap((rest, bit) => (rest === 1n ? [bit + 1] : []));
    return taps.length >= 2 && leaving === 1n ? [...taps.reverse(), 0] : null;
  }
  const isGalois = moved.slice(0, -1).every((rest) => rest === 0n) && (leaving & 1n) === 1n && !isPowerOfTwo(leaving);
  // The bit that leaves comes again from bit i after width - i steps.
  const heard = columns.flatMap((_, bit) => (((leaving >> BigInt(bit)) & 1n) === 1n ? [width - bit] : []));
  return isGalois ? [...heard, 0] : null;
}

/** Keeps rows independent, each with a leading bit of its own, largest first. */
function insertRow(rows: { difference: bigint; image: bigint }[], row: { difference: bigint; image: bigint }): void {
  for (const known of rows) {
    if ((row.difference ^ known.difference) < row.difference) {
      row.difference ^= known.difference;
      row.image ^= known.image;
    }
  }
  if (row.difference === 0n) return;
  rows.push(row);
  rows.sort((left, right) => (left.difference > right.difference ? -1 : 1));
}

function imageOf(rows: readonly { difference: bigint; image: bigint }[], vector: bigint): bigint {
  let rest = vector;
  let image = 0n;
  for (const row of rows) {
    if ((rest ^ row.difference) >= rest) continue;
    rest ^= row.difference;
    image ^= row.image;
  }
  return image;
}

function applyLinear(columns: readonly bigint[], value: bigint): bigint {
  let image = 0n;
  for (let bit = 0, rest = value; rest !== 0n; bit++, rest >>= 1n) if ((rest & 1n) === 1n) image ^= columns[bit];
  return image;
}

function mirror(value: bigint, width: number): bigint {
  let mirrored = 0n;
  for (let bit = 0; bit < width; bit++) mirrored = (mirrored << 1n) | ((value >> BigInt(bit)) & 1n);
  return mirrored;
}

function isPowerOfTwo(value: bigint): boolean {
  return (value & (value - 1n)) === 0n;
}
