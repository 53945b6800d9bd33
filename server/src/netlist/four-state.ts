// Four-state values of any width, IEEE 1364-2005 clause 4.1: 0, 1, x, z. Two bit planes in 32-bit limbs, least
// significant limb first: 0 = (a 0, b 0), 1 = (1, 0), z = (0, 1), x = (1, 1). Bits above the width are 0 in both planes.
// Values are never changed after they are made, so small ones are shared, and known ones share their `b` plane.
// Here: making a value and reading it. Cutting and joining stand in `four-state-parts.ts`.

export interface Bits {
  readonly width: number;
  readonly a: Uint32Array;
  readonly b: Uint32Array;
}

export type Digit = '0' | '1' | 'x' | 'z';

/** The value whose binary digits are written, most significant first: `bitsOf('01xz')` is 4 bits wide. `?` is z. */
export function bitsOf(text: string): Bits {
  const width = text.length;
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  for (let bit = 0; bit < width; bit++) {
    const digit = text[width - 1 - bit];
    const one = 1 << (bit & 31);
    if (digit === '1' || digit === 'x') a[bit >>> 5] |= one;
    if (digit === 'x' || digit === 'z' || digit === '?') b[bit >>> 5] |= one;
  }
  return fromLimbs(width, a, b);
}

/** The low `width` bits of a whole number (two's complement when negative). Exact for |value| below 2^53. */
export function fromNumber(width: number, value: number): Bits {
  if (width <= 32 && value >= -0x80000000 && value <= 0xffffffff) return fromPlanes(width, value | 0, 0);
  return fromBigInt(width, BigInt(value));
}

/** The low `width` bits of a whole number, two's complement when negative. */
export function fromBigInt(width: number, value: bigint): Bits {
  let rest = BigInt.asUintN(width, value);
  const a = new Uint32Array(limbCount(width));
  for (let limb = 0; rest !== 0n; limb++) {
    a[limb] = Number(rest & 0xffffffffn);
    rest >>= 32n;
  }
  return fromLimbs(width, a, zeroPlane(a.length));
}

export function zero(width: number): Bits {
  if (width <= 32) return fromPlanes(width, 0, 0);
  const plane = zeroPlane(limbCount(width));
  return { width, a: plane, b: plane };
}

export function ones(width: number): Bits {
  if (width <= 32) return fromPlanes(width, -1, 0);
  const limbs = limbCount(width);
  return fromLimbs(width, new Uint32Array(limbs).fill(0xffffffff), zeroPlane(limbs));
}

export function allX(width: number): Bits {
  if (width <= 32) return fromPlanes(width, -1, -1);
  const limbs = limbCount(width);
  return fromLimbs(width, new Uint32Array(limbs).fill(0xffffffff), new Uint32Array(limbs).fill(0xffffffff));
}

export function allZ(width: number): Bits {
  if (width <= 32) return fromPlanes(width, 0, -1);
  const limbs = limbCount(width);
  return fromLimbs(width, new Uint32Array(limbs), new Uint32Array(limbs).fill(0xffffffff));
}

/** One digit as a value of width 1. */
export function digitBits(digit: Digit): Bits {
  return fromPlanes(1, digit === '1' || digit === 'x' ? 1 : 0, digit === 'x' || digit === 'z' ? 1 : 0);
}

/** How many 32-bit limbs hold `width` bits. */
export function limbCount(width: number): number {
  return (width + 31) >>> 5;
}

/** Ones where the top limb of `width` bits has bits. */
export function topMask(width: number): number {
  return (width & 31) === 0 ? -1 : (1 << (width & 31)) - 1;
}

/** Takes the two planes over (they must not change afterwards) and clears what stands above the width. */
export function fromLimbs(width: number, a: Uint32Array, b: Uint32Array): Bits {
  if (width <= 32) return fromPlanes(width, a[0] | 0, b[0] | 0);
  const top = a.length - 1;
  const mask = topMask(width);
  if ((a[top] & ~mask) !== 0) a[top] &= mask;
  if ((b[top] & ~mask) !== 0) b[top] &= mask;
  return { width, a, b };
}

/** The value of at most 32 bits with these planes; bits above the width are ignored. */
export function fromPlanes(width: number, a: number, b: number): Bits {
  if (width === 0) return nothing;
  const mask = topMask(width);
  const low = a & mask;
  const high = b & mask;
  if (width <= sharedWidth) return sharedFourState[width][low | (high << sharedWidth)];
  if (high !== 0) return { width, a: planeOf(low), b: planeOf(high) };
  if (width <= sharedKnownWidth) return sharedKnown(width, low);
  return { width, a: planeOf(low), b: zeroPlanes[1] };
}

/** A plane of zeros that known values share. */
export function zeroPlane(limbs: number): Uint32Array {
  zeroPlanes[limbs] ??= new Uint32Array(limbs);
  return zeroPlanes[limbs];
}

/** Binary digits, most significant first. */
export function toBinary(bits: Bits): string {
  let text = '';
  for (let bit = bits.width - 1; bit >= 0; bit--) text += digitAt(bits, bit);
  return text;
}

/** As an unsigned number; null when any bit is x or z. */
export function toBigInt(bits: Bits): bigint | null {
  if (hasUnknown(bits)) return null;
  let value = 0n;
  for (let limb = bits.a.length - 1; limb >= 0; limb--) value = (value << 32n) | BigInt(bits.a[limb]);
  return value;
}

/** As a two's complement number; null when any bit is x or z. */
export function toSignedBigInt(bits: Bits): bigint | null {
  const value = toBigInt(bits);
  return value === null ? null : BigInt.asIntN(bits.width, value);
}

/** As an unsigned number; null when any bit is x or z, or when it is above 2^53 - 1. */
export function toNumber(bits: Bits): number | null {
  if (bits.width <= 32) return bits.width === 0 ? 0 : bits.b[0] === 0 ? bits.a[0] : null;
  const value = toBigInt(bits);
  return value === null || value > BigInt(Number.MAX_SAFE_INTEGER) ? null : Number(value);
}

/** Unsigned decimal digits; `x` when any bit is x or z (a reading is a number or it is not). */
export function toDecimal(bits: Bits): string {
  const value = toBigInt(bits);
  return value === null ? 'x' : value.toString();
}

/** The digit at a bit, 0 = least significant. Outside the value: x (IEEE 1364-2005 5.2.1). */
export function digitAt(bits: Bits, bit: number): Digit {
  if (bit < 0 || bit >= bits.width) return 'x';
  const low = (bits.a[bit >>> 5] >>> (bit & 31)) & 1;
  const high = (bits.b[bit >>> 5] >>> (bit & 31)) & 1;
  return digits[low | (high << 1)];
}

/** Whether any bit is x or z. */
export function hasUnknown(bits: Bits): boolean {
  const plane = bits.b;
  for (let limb = 0; limb < plane.length; limb++) if (plane[limb] !== 0) return true;
  return false;
}

/** Same width and same digits, x and z included. */
export function equalBits(left: Bits, right: Bits): boolean {
  if (left === right) return true;
  if (left.width !== right.width) return false;
  for (let limb = 0; limb < left.a.length; limb++) {
    if (left.a[limb] !== right.a[limb] || left.b[limb] !== right.b[limb]) return false;
  }
  return true;
}

const digits: readonly Digit[] = ['0', '1', 'z', 'x'];
const zeroPlanes: Uint32Array[] = [new Uint32Array(0), new Uint32Array(1)];
const nothing: Bits = { width: 0, a: zeroPlanes[0], b: zeroPlanes[0] };

/** Up to this width every value is made once; the event engine then allocates nothing for single bits. */
const sharedWidth = 4;
const sharedFourState: readonly (readonly Bits[])[] = Array.from({ length: sharedWidth + 1 }, (_, width) =>
  Array.from({ length: 1 << (2 * sharedWidth) }, (_, planes) => ({
    width,
    a: planeOf(planes & ((1 << sharedWidth) - 1)),
    b: planeOf(planes >>> sharedWidth),
  })),
);

/** Up to this width every known value is made once, when first asked for. */
const sharedKnownWidth = 10;
const knownValues: Bits[][] = Array.from({ length: sharedKnownWidth + 1 }, () => []);

function sharedKnown(width: number, value: number): Bits {
  knownValues[width][value] ??= { width, a: planeOf(value), b: zeroPlanes[1] };
  return knownValues[width][value];
}

/** A plane of one limb. `Uint32Array.of` does the same several times slower. */
function planeOf(limb: number): Uint32Array {
  const plane = new Uint32Array(1);
  plane[0] = limb;
  return plane;
}
