// Four-state values of any width as terms: two planes as in `netlist/four-state.ts`, in limbs of 64 bits, least
// significant first. A value that is never unknown has zeros for its second plane, and then no code comes of it.

import { type Bits, limbCount } from '../netlist/four-state';
import { Kind, type Term, type Terms } from './term-kinds';
import { lowOnes } from './term-rules';

export type Plane = readonly Term[];

export interface Word {
  readonly width: number;
  readonly a: Plane;
  readonly b: Plane;
  /** What it was joined from, most significant first: a cut along these borders takes the part itself. */
  readonly parts?: readonly Word[];
}

export const limbsOf = (width: number): number => (width + 63) >>> 6;

export function zeroPlane({ zero }: Terms, width: number): Plane {
  return new Array<Term>(limbsOf(width)).fill(zero);
}

export function onesPlane(terms: Terms, width: number): Plane {
  return Array.from({ length: limbsOf(width) }, (_, limb) => terms.constant(maskOf(width, limb)));
}

/** Ones where a limb of a value has bits. */
export function maskOf(width: number, limb: number): bigint {
  return lowOnes(Math.min(64, width - 64 * limb));
}

export function wordOfBits(terms: Terms, bits: Bits): Word {
  return { width: bits.width, a: planeOf(terms, bits.width, bits.a), b: planeOf(terms, bits.width, bits.b) };
}

function planeOf(terms: Terms, width: number, limbs: Uint32Array): Plane {
  return Array.from({ length: limbsOf(width) }, (_, limb) => {
    const high = 2 * limb + 1 < limbCount(width) ? BigInt(limbs[2 * limb + 1]) : 0n;
    return terms.constant((high << 32n) | BigInt(limbs[2 * limb]));
  });
}

export function knownWord(terms: Terms, width: number, a: Plane): Word {
  return { width, a, b: zeroPlane(terms, width) };
}

export function isKnown({ zero }: Terms, { b }: Word): boolean {
  return b.every((limb) => limb === zero);
}

export function sameWord(left: Word, right: Word): boolean {
  if (left === right) return true;
  return left.a.every((limb, index) => limb === right.a[index] && left.b[index] === right.b[index]);
}

/** Whether a bit of the plane is set: 0 or 1. */
export function anyOf(terms: Terms, plane: Plane): Term {
  const all = plane.reduce((left, right) => terms.make(Kind.or, left, right), terms.zero);
  return terms.make(Kind.different, all, terms.zero);
}

export function not(terms: Terms, bit: Term): Term {
  return terms.make(Kind.isZero, bit);
}

/** Limb by limb. */
export function planeWith(terms: Terms, kind: number, left: Plane, right: Plane): Plane {
  return left.map((limb, index) => terms.make(kind, limb, right[index]));
}

/** The left plane without the right one. */
export function without(terms: Terms, width: number, left: Plane, right: Plane): Plane {
  return planeWith(terms, Kind.and, left, inverse(terms, width, right));
}

export function inverse(terms: Terms, width: number, plane: Plane): Plane {
  return planeWith(terms, Kind.xor, plane, onesPlane(terms, width));
}

export function choosePlane(terms: Terms, condition: Term, whenTrue: Plane, whenNot: Plane): Plane {
  return whenTrue.map((limb, index) => terms.make(Kind.choose, condition, limb, whenNot[index]));
}

export function chooseWord(terms: Terms, condition: Term, whenTrue: Word, whenNot: Word): Word {
  const value = terms.valueOf(condition);
  if (value !== null) return value === 0n ? whenNot : whenTrue;
  return {
    width: whenTrue.width,
    a: choosePlane(terms, condition, whenTrue.a, whenNot.a),
    b: choosePlane(terms, condition, whenTrue.b, whenNot.b),
  };
}

/** x in every bit while the condition holds. */
export function spoiled(terms: Terms, condition: Term, word: Word): Word {
  const full = onesPlane(terms, word.width);
  return chooseWord(terms, condition, { width: word.width, a: full, b: full }, word);
}

/** As `merge` of `four-state-parts.ts`: equal known digits stay, all else is x. */
export function mergeWords(terms: Terms, left: Word, right: Word): Word {
  const differ = planeWith(terms, Kind.xor, left.a, right.a);
  const unknown = planeWith(terms, Kind.or, planeWith(terms, Kind.or, left.b, right.b), differ);
  return { width: left.width, a: planeWith(terms, Kind.or, left.a, unknown), b: unknown };
}

/** Bits [low + width - 1 : low], which lie within the word. */
export function sliceWord(terms: Terms, word: Word, low: number, width: number): Word {
  if (low === 0 && width === word.width) return word;
  let top = word.width;
  for (const part of word.parts ?? []) {
    top -= part.width;
    if (low >= top && low + width <= top + part.width) return sliceWord(terms, part, low - top, width);
  }
  return { width, a: cutPlane(terms, word.a, low, width), b: cutPlane(terms, word.b, low, width) };
}

export function cutPlane(terms: Terms, plane: Plane, low: number, width: number): Plane {
  return Array.from({ length: limbsOf(width) }, (_, limb) => {
    const needed = Math.min(64, width - 64 * limb);
    const mask = terms.constant(lowOnes(needed));
    return terms.make(Kind.and, bitsFrom(terms, plane, low + 64 * limb, needed), mask);
  });
}

/** At least `needed` bits of a plane from bit `low` on; zeros beyond its end. */
function bitsFrom(terms: Terms, plane: Plane, low: number, needed: number): Term {
  const limb = low >>> 6;
  const shift = low & 63;
  const rest = limb < plane.length ? terms.make(Kind.shiftRight, plane[limb], amount(terms, shift)) : terms.zero;
  if (shift === 0 || shift + needed <= 64 || limb + 1 >= plane.length) return rest;
  return terms.make(Kind.or, rest, terms.make(Kind.shiftLeft, plane[limb + 1], amount(terms, 64 - shift)));
}

/** Parts joined, most significant first. */
export function joinWords(terms: Terms, parts: readonly Word[]): Word {
  const width = parts.reduce((sum, part) => sum + part.width, 0);
  return { width, a: joinPlanes(terms, width, parts, 'a'), b: joinPlanes(terms, width, parts, 'b'), parts };
}

function joinPlanes(terms: Terms, width: number, parts: readonly Word[], plane: 'a' | 'b'): Plane {
  const limbs = [...zeroPlane(terms, width)];
  let low = width;
  for (const part of parts) {
    low -= part.width;
    for (const [index, limb] of part[plane].entries()) placeLimb(terms, limbs, low + 64 * index, limb);
  }
  return limbs;
}

/** Sets the bits of a limb from bit `low` of a plane on, where none is set so far. */
function placeLimb(terms: Terms, limbs: Term[], low: number, limb: Term): void {
  const index = low >>> 6;
  const shift = low & 63;
  if (limb === terms.zero) return;
  limbs[index] = terms.make(Kind.or, limbs[index], shiftedUp(terms, limb, shift));
  if (shift + terms.sizes[limb] <= 64) return;
  limbs[index + 1] = terms.make(
    Kind.or,
    limbs[index + 1],
    terms.make(Kind.shiftRight, limb, amount(terms, 64 - shift)),
  );
}

function shiftedUp(terms: Terms, limb: Term, shift: number): Term {
  return terms.make(Kind.shiftLeft, limb, amount(terms, shift));
}

export function amount(terms: Terms, by: number): Term {
  return terms.constant(BigInt(by));
}

/** Widened with zeros, or with copies of the most significant digit. */
export function extendWord(terms: Terms, word: Word, width: number, fill: 'zero' | 'sign'): Word {
  if (width <= word.width) return sliceWord(terms, word, 0, width);
  const more = width - word.width;
  if (fill === 'zero' || word.width === 0) {
    return joinWords(terms, [knownWord(terms, more, zeroPlane(terms, more)), word]);
  }
  const sign = sliceWord(terms, word, word.width - 1, 1);
  const none = zeroPlane(terms, more);
  const full = onesPlane(terms, more);
  const filled = {
    width: more,
    a: choosePlane(terms, sign.a[0], full, none),
    b: choosePlane(terms, sign.b[0], full, none),
  };
  return joinWords(terms, [filled, word]);
}

/** Whether a digit is unknown: 0 or 1. */
export function unknownIn(terms: Terms, { b }: Word): Term {
  return anyOf(terms, b);
}

/** The planes of one bit of a word. */
export function bitOf(terms: Terms, word: Word, bit: number): { readonly a: Term; readonly b: Term } {
  const { a, b } = sliceWord(terms, word, bit, 1);
  return { a: a[0], b: b[0] };
}
