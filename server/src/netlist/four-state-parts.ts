// Cutting, joining, widening and merging four-state values. Digits are moved as they are: z stays z, except in
// `merge`, which is the conditional operator's table for an unknown condition.

import { type Bits, fromLimbs, fromPlanes, limbCount } from './four-state';

/** Bits [low + width - 1 : low]; where they reach outside the value: x (IEEE 1364-2005 5.2.1). `low` may be negative. */
export function slice(bits: Bits, low: number, width: number): Bits {
  if (low === 0 && width === bits.width) return bits;
  if (bits.width <= 32 && low >= 0 && low + width <= bits.width) {
    return fromPlanes(width, bits.a[0] >>> low, bits.b[0] >>> low);
  }
  const a = new Uint32Array(limbCount(width)).fill(0xffffffff);
  const b = new Uint32Array(limbCount(width)).fill(0xffffffff);
  const from = Math.max(low, 0);
  const until = Math.min(low + width, bits.width);
  if (from < until) {
    copyPlane(bits.a, from, a, from - low, until - from);
    copyPlane(bits.b, from, b, from - low, until - from);
  }
  return fromLimbs(width, a, b);
}

/** Parts joined, most significant first; the width is their sum. */
export function concat(parts: readonly Bits[]): Bits {
  let width = 0;
  for (const part of parts) width += part.width;
  if (width <= 32) return concatNarrow(parts, width);
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  let low = width;
  for (const part of parts) {
    low -= part.width;
    copyPlane(part.a, 0, a, low, part.width);
    copyPlane(part.b, 0, b, low, part.width);
  }
  return fromLimbs(width, a, b);
}

/** Cut, or widened with zeros or with copies of the most significant digit (x and z too, IEEE 1364-2005 5.5.4). */
export function resize(bits: Bits, width: number, fill: 'zero' | 'sign'): Bits {
  if (width <= bits.width) return slice(bits, 0, width);
  if (fill === 'zero') return zeroExtended(bits, width);
  const sign = bits.width - 1;
  if (sign < 0) return zeroExtended(bits, width);
  const limb = sign >>> 5;
  const signA = (bits.a[limb] >>> (sign & 31)) & 1;
  const signB = (bits.b[limb] >>> (sign & 31)) & 1;
  if ((signA | signB) === 0) return zeroExtended(bits, width);
  return fromLimbs(width, signPlane(bits.a, bits.width, width, signA), signPlane(bits.b, bits.width, width, signB));
}

/**
 * What is known when the value is one of two: equal known digits stay, all else is x. IEEE 1364-2005 5.1.13,
 * Table 5-21 (z with z is x as well). Both of one width.
 */
export function merge(left: Bits, right: Bits): Bits {
  if (left.width <= 32) {
    const unknown = (left.a[0] ^ right.a[0]) | left.b[0] | right.b[0];
    return fromPlanes(left.width, left.a[0] | unknown, unknown);
  }
  const a = new Uint32Array(left.a.length);
  const b = new Uint32Array(left.a.length);
  for (let limb = 0; limb < a.length; limb++) {
    const unknown = (left.a[limb] ^ right.a[limb]) | left.b[limb] | right.b[limb];
    a[limb] = left.a[limb] | unknown;
    b[limb] = unknown;
  }
  return fromLimbs(left.width, a, b);
}

/** The value with `piece` in bits [low + piece.width - 1 : low]; what falls outside is dropped. */
export function replaceSlice(bits: Bits, low: number, piece: Bits): Bits {
  const from = Math.max(low, 0);
  const until = Math.min(low + piece.width, bits.width);
  if (from >= until) return bits;
  const a = bits.a.slice();
  const b = bits.b.slice();
  copyPlane(piece.a, from - low, a, from, until - from);
  copyPlane(piece.b, from - low, b, from, until - from);
  return fromLimbs(bits.width, a, b);
}

/** Copies `length` bits of one plane into another, limb by limb of the target. */
function copyPlane(
  source: Uint32Array,
  sourceLow: number,
  target: Uint32Array,
  targetLow: number,
  length: number,
): void {
  let done = 0;
  while (done < length) {
    const to = targetLow + done;
    const chunk = Math.min(32 - (to & 31), length - done);
    const mask = (chunk === 32 ? -1 : (1 << chunk) - 1) << (to & 31);
    const value = word(source, sourceLow + done) << (to & 31);
    const limb = to >>> 5;
    target[limb] = (target[limb] & ~mask) | (value & mask);
    done += chunk;
  }
}

/** 32 bits of a plane from bit `low` on; zeros beyond its end. */
function word(plane: Uint32Array, low: number): number {
  const limb = low >>> 5;
  const shift = low & 31;
  if (shift === 0) return plane[limb];
  const next = limb + 1 < plane.length ? plane[limb + 1] : 0;
  return (plane[limb] >>> shift) | (next << (32 - shift));
}

function concatNarrow(parts: readonly Bits[], width: number): Bits {
  let a = 0;
  let b = 0;
  let low = width;
  for (const part of parts) {
    low -= part.width;
    if (part.width === 0) continue;
    a |= part.a[0] << low;
    b |= part.b[0] << low;
  }
  return fromPlanes(width, a, b);
}

function zeroExtended(bits: Bits, width: number): Bits {
  if (width <= 32) return bits.width === 0 ? fromPlanes(width, 0, 0) : fromPlanes(width, bits.a[0], bits.b[0]);
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  a.set(bits.a);
  b.set(bits.b);
  return fromLimbs(width, a, b);
}

function signPlane(plane: Uint32Array, from: number, to: number, sign: number): Uint32Array {
  const wide = new Uint32Array(limbCount(to));
  wide.set(plane);
  if (sign === 0) return wide;
  if ((from & 31) !== 0) wide[from >>> 5] |= -1 << (from & 31);
  wide.fill(0xffffffff, limbCount(from));
  return wide;
}
