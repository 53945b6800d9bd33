// Whether a cycle of values is a linear feedback shift register at work: every step is one affine map over GF(2), the
// values determine that map, and the map is a shift by one place with feedback taken in at its end (Fibonacci form) or
// spread from the bit that leaves (Galois form).

/** The map value → next: column i of `matrix` is what bit i adds to the next value; `constant` is added always. */
export interface AffineMap {
  readonly columns: readonly bigint[];
  readonly constant: bigint;
}

/** Proven over the whole cycle. A cycle too short to determine the map proves nothing. */
export function* isLinearShift(values: readonly bigint[], width: number): Generator<void, boolean> {
  if (width < 2 || values.length < width + 2) return false;
  const map = yield* affineMapOf(values, width);
  return map !== null && shiftForm(map, width) !== null;
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

/** How the map shifts; null where it is no shift with feedback from at least two bits. */
export function shiftForm(map: AffineMap, width: number): 'left' | 'right' | null {
  if (isShiftLeft(map.columns, map.constant, width)) return 'left';
  const mirrored = map.columns.map((column) => mirror(column, width)).reverse();
  return isShiftLeft(mirrored, mirror(map.constant, width), width) ? 'right' : null;
}

/** Bit i goes to bit i + 1; and either bit 0 hears several bits, or several bits hear the bit that leaves. */
function isShiftLeft(columns: readonly bigint[], constant: bigint, width: number): boolean {
  const moved = columns.map((column, bit) => column ^ (bit === width - 1 ? 0n : 1n << BigInt(bit + 1)));
  const isFibonacci = moved.every((rest) => rest === 0n || rest === 1n) && constant <= 1n;
  if (isFibonacci) return moved.filter((rest) => rest === 1n).length >= 2 && moved[width - 1] === 1n;
  const isGalois = moved.slice(0, -1).every((rest) => rest === 0n);
  return isGalois && (moved[width - 1] & 1n) === 1n && !isPowerOfTwo(moved[width - 1]);
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
