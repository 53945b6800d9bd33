// Gates, tests and drivers of nets in terms: what `netlist/evaluate-bitwise.ts`, `-reduce`, `-compare` and `-resolve`
// work out for values. A test holds each operator to its evaluation.

import type { ResolutionKind } from '../netlist/netlist';
import { Kind, type Term, type Terms } from './term-kinds';
import {
  anyOf,
  chooseWord,
  inverse,
  isKnown,
  knownWord,
  not,
  onesPlane,
  type Plane,
  planeWith,
  sliceWord,
  unknownIn,
  without,
  type Word,
  zeroPlane,
} from './words';

export function invertWord(terms: Terms, { width, a, b }: Word): Word {
  return { width, a: planeWith(terms, Kind.or, inverse(terms, width, a), b), b };
}

/** A buffer: z comes out as x. */
export function bufferWord(terms: Terms, { width, a, b }: Word): Word {
  return { width, a: planeWith(terms, Kind.or, a, b), b };
}

export function andWords(terms: Terms, words: readonly Word[]): Word {
  const { width } = words[0];
  const allKnown = words.every((word) => isKnown(terms, word));
  const notZero = over(
    terms,
    Kind.and,
    words.map((word) => bufferWord(terms, word).a),
  );
  if (allKnown) return knownWord(terms, width, notZero);
  const ones = over(
    terms,
    Kind.and,
    words.map((word) => onesOf(terms, word)),
  );
  return { width, a: notZero, b: without(terms, width, notZero, ones) };
}

export function orWords(terms: Terms, words: readonly Word[]): Word {
  const { width } = words[0];
  const allKnown = words.every((word) => isKnown(terms, word));
  const high = over(
    terms,
    Kind.or,
    words.map((word) => bufferWord(terms, word).a),
  );
  if (allKnown) return knownWord(terms, width, high);
  const ones = over(
    terms,
    Kind.or,
    words.map((word) => onesOf(terms, word)),
  );
  return { width, a: high, b: without(terms, width, high, ones) };
}

export function xorWords(terms: Terms, words: readonly Word[]): Word {
  const unknown = over(
    terms,
    Kind.or,
    words.map(({ b }) => b),
  );
  const parity = over(
    terms,
    Kind.xor,
    words.map(({ a }) => a),
  );
  return { width: words[0].width, a: planeWith(terms, Kind.or, parity, unknown), b: unknown };
}

export function reduceAnd(terms: Terms, word: Word): Word {
  const full = onesPlane(terms, word.width);
  const hasZero = anyOf(terms, planeWith(terms, Kind.xor, bufferWord(terms, word).a, full));
  return digit(terms, not(terms, hasZero), terms.make(Kind.and, not(terms, hasZero), unknownIn(terms, word)));
}

export function reduceOr(terms: Terms, word: Word): Word {
  const hasOne = anyOf(terms, onesOf(terms, word));
  const unknown = unknownIn(terms, word);
  return digit(terms, terms.make(Kind.or, hasOne, unknown), terms.make(Kind.and, unknown, not(terms, hasOne)));
}

export function reduceXor(terms: Terms, word: Word): Word {
  const folded = word.a.reduce((left, right) => terms.make(Kind.xor, left, right), terms.zero);
  const parity =
    terms.sizes[folded] <= 1 ? folded : terms.make(Kind.and, terms.make(Kind.countOnes, folded), terms.constant(1n));
  const unknown = unknownIn(terms, word);
  return digit(terms, terms.make(Kind.or, parity, unknown), unknown);
}

export function equalWords(terms: Terms, left: Word, right: Word): Word {
  const either = planeWith(terms, Kind.or, left.b, right.b);
  const differ = differsFor(terms, left, right, either);
  return digit(terms, not(terms, differ), terms.make(Kind.and, not(terms, differ), anyOf(terms, either)));
}

/** Whether a bit differs for certain, those of `skipped` left out: 0 or 1. */
export function differsFor(terms: Terms, left: Word, right: Word, skipped: Plane): Term {
  if (left.a.length === 1 && skipped[0] === terms.zero) return terms.make(Kind.different, left.a[0], right.a[0]);
  return anyOf(terms, without(terms, left.width, planeWith(terms, Kind.xor, left.a, right.a), skipped));
}

export function lessWords(terms: Terms, left: Word, right: Word, sign: 'signed' | 'unsigned'): Word {
  const unknown = terms.make(Kind.or, unknownIn(terms, left), unknownIn(terms, right));
  const [x, y] = sign === 'signed' ? [turned(terms, left), turned(terms, right)] : [left.a, right.a];
  return digit(terms, terms.make(Kind.or, lessPlanes(terms, x, y), unknown), unknown);
}

export function lessPlanes(terms: Terms, left: Plane, right: Plane): Term {
  let less = terms.zero;
  for (const [limb, x] of left.entries()) {
    const here = terms.make(Kind.less, x, right[limb]);
    less = limb === 0 ? here : terms.make(Kind.choose, terms.make(Kind.equal, x, right[limb]), less, here);
  }
  return less;
}

/** With the sign turned over two's complement numbers order as unsigned ones. */
function turned(terms: Terms, { width, a }: Word): Plane {
  const top = a.length - 1;
  const sign = terms.constant(1n << BigInt((width - 1) & 63));
  return a.map((limb, index) => (index === top ? terms.make(Kind.xor, limb, sign) : limb));
}

export function tristateWord(terms: Terms, data: Word, enable: Word): Word {
  const full = onesPlane(terms, data.width);
  const off = { width: data.width, a: zeroPlane(terms, data.width), b: full };
  const driven = chooseWord(terms, enable.a[0], bufferWord(terms, data), off);
  return chooseWord(terms, enable.b[0], { width: data.width, a: full, b: full }, driven);
}

export function resolveWords(terms: Terms, kind: ResolutionKind, drivers: readonly Word[]): Word {
  const { width } = drivers[0];
  const flip = (plane: Plane) => inverse(terms, width, plane);
  const and = (left: Plane, right: Plane) => planeWith(terms, Kind.and, left, right);
  const or = (left: Plane, right: Plane) => planeWith(terms, Kind.or, left, right);
  const low = over(
    terms,
    Kind.or,
    drivers.map(({ a, b }) => flip(or(a, b))),
  );
  const high = over(
    terms,
    Kind.or,
    drivers.map((driver) => onesOf(terms, driver)),
  );
  const unknown = over(
    terms,
    Kind.or,
    drivers.map(({ a, b }) => and(a, b)),
  );
  const one = kind === 'wor' ? high : and(high, flip(or(low, unknown)));
  const nought = kind === 'wand' ? low : and(low, flip(or(high, unknown)));
  const driven = or(or(low, high), unknown);
  const doubtful = and(driven, flip(or(one, nought)));
  const a = or(kind === 'tri1' ? or(one, flip(driven)) : one, doubtful);
  return { width, a, b: kind === 'tri0' || kind === 'tri1' ? doubtful : flip(or(one, nought)) };
}

/** Where the word is a known 1. */
export function onesOf(terms: Terms, { width, a, b }: Word): Plane {
  return without(terms, width, a, b);
}

export function digit(_terms: Terms, a: Term, b: Term): Word {
  return { width: 1, a: [a], b: [b] };
}

/** The most significant bit of a known word. */
export function signOf(terms: Terms, word: Word): Term {
  return sliceWord(terms, word, word.width - 1, 1).a[0];
}

function over(terms: Terms, kind: number, planes: readonly Plane[]): Plane {
  return planes.reduce((left, right) => planeWith(terms, kind, left, right));
}
